//! A page of paper as SVG, in points: text in measured lines, boxes, pictures. The same page is printed by a browser
//! and turned into a PDF.

use std::fmt::Write as _;

use ttf_parser::Face;

use crate::picture::written_out;
use crate::wording::escaped;
use crate::wrapping::{Overlong, glued, lines};

/// The typeface of paper, so that a line is as long on every machine.
pub const REGULAR: &[u8] = include_bytes!("font/DejaVuSansCondensed.ttf");
/// Its bold.
pub const BOLD: &[u8] = include_bytes!("font/DejaVuSansCondensed-Bold.ttf");

/// Leading: distance of lines by the height of letters.
const LEADING: f64 = 1.22;

/// How text is set.
#[derive(Clone, Copy, Debug)]
pub struct Type {
    /// Height, pt.
    pub size: f64,
    /// Bold.
    pub bold: bool,
    /// Grey, for what is read last.
    pub soft: bool,
}

impl Type {
    /// Plain text.
    pub const fn plain(size: f64) -> Self {
        Self { size, bold: false, soft: false }
    }

    /// Bold text.
    pub const fn bold(size: f64) -> Self {
        Self { size, bold: true, soft: false }
    }

    /// Grey text.
    pub const fn soft(size: f64) -> Self {
        Self { size, bold: false, soft: true }
    }
}

/// A page being written.
pub struct Pen {
    body: String,
    faces: [Face<'static>; 2],
    /// How much smaller all of it is drawn.
    scale: f64,
    /// Width, pt.
    pub width: f64,
    /// Height, pt.
    pub height: f64,
}

impl Pen {
    /// An empty page.
    pub fn new((width, height): (f64, f64)) -> Self {
        let face = |bytes| Face::parse(bytes, 0).expect("a typeface of the program's own");
        let faces = [face(REGULAR), face(BOLD)];
        Self { body: String::new(), faces, scale: 1.0, width, height }
    }

    /// Width of a text, pt.
    pub fn measure(&self, text: &str, how: Type) -> f64 {
        let face = &self.faces[usize::from(how.bold)];
        let advance = |letter: char| {
            let glyph = face.glyph_index(letter).or_else(|| face.glyph_index('?')).unwrap_or_default();
            f64::from(face.glyph_hor_advance(glyph).unwrap_or(0))
        };
        text.chars().map(advance).sum::<f64>() * how.size / f64::from(face.units_per_em())
    }

    /// One line, its foot at `y`.
    pub fn line(&mut self, x: f64, y: f64, how: Type, text: &str) {
        let class = match (how.bold, how.soft) {
            (true, _) => "b",
            (false, true) => "s",
            (false, false) => "t",
        };
        let text = escaped(text);
        let _ = write!(
            self.body,
            "<text class=\"{class}\" x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{:.2}\">{text}</text>",
            how.size
        );
    }

    /// Text in lines of at most a width, its top at `y`; returns where it ends.
    pub fn text(&mut self, (x, y): (f64, f64), width: f64, how: Type, text: &str) -> f64 {
        let mut foot = y + how.size * 0.82;
        let mut end = y;
        if text.is_empty() {
            return y;
        }
        for line in self.broken(width, how, text) {
            self.line(x, foot, how, &line);
            end = foot + how.size * (LEADING - 0.82);
            foot += how.size * LEADING;
        }
        end
    }

    /// Height of a text in lines of at most a width.
    pub fn text_height(&self, width: f64, how: Type, text: &str) -> f64 {
        if text.is_empty() { 0.0 } else { self.broken(width, how, text).len() as f64 * how.size * LEADING }
    }

    /// The lines of a text; a word wider than them is broken.
    fn broken(&self, width: f64, how: Type, text: &str) -> Vec<String> {
        lines(&glued(text), &[width], Overlong::Broken, |text| self.measure(text, how))
    }

    /// A frame.
    pub fn frame(&mut self, (x, y): (f64, f64), (width, height): (f64, f64)) {
        let _ = write!(
            self.body,
            "<rect class=\"f\" x=\"{x:.2}\" y=\"{y:.2}\" width=\"{width:.2}\" height=\"{height:.2}\"/>"
        );
    }

    /// A thin line across.
    pub fn rule(&mut self, x: f64, y: f64, width: f64) {
        let _ = write!(
            self.body,
            "<line class=\"f\" x1=\"{x:.2}\" y1=\"{y:.2}\" x2=\"{:.2}\" y2=\"{y:.2}\"/>",
            x + width
        );
    }

    /// A picture of a width; returns its height.
    pub fn picture(&mut self, (x, y): (f64, f64), width: f64, svg: &str) -> f64 {
        let Some((size, body)) = inner(svg) else { return 0.0 };
        let height = width * size.1 / size.0;
        let _ = write!(
            self.body,
            "<svg class=\"pic\" x=\"{x:.2}\" y=\"{y:.2}\" width=\"{width:.2}\" height=\"{height:.2}\" \
             viewBox=\"0 0 {} {}\">{body}</svg>",
            size.0, size.1
        );
        height
    }

    /// Height of a picture of a width.
    pub fn picture_height(width: f64, svg: &str) -> f64 {
        inner(svg).map_or(0.0, |(size, _)| width * size.1 / size.0)
    }

    /// Draws everything smaller by a factor, toward the upper left.
    pub fn shrink(&mut self, factor: f64) {
        self.scale *= factor;
    }

    /// The page.
    pub fn svg(&self) -> String {
        let content = if self.scale < 1.0 {
            format!("<g transform=\"scale({:.4})\">{}</g>", self.scale, self.body)
        } else {
            self.body.clone()
        };
        format!(
            "<svg class=\"paper\" xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\">\
             <style>{}</style><rect class=\"w\" width=\"{w}\" height=\"{h}\"/>{content}</svg>",
            style(),
            w = self.width,
            h = self.height
        )
    }
}

/// Size and content of a picture's file, without its words for those who cannot see it.
fn inner(svg: &str) -> Option<((f64, f64), String)> {
    let view = svg.split("viewBox=\"").nth(1)?.split('"').next()?;
    let mut numbers = view.split(' ').skip(2).map(str::parse::<f64>);
    let size = (numbers.next()?.ok()?, numbers.next()?.ok()?);
    let open = svg.find('>')?;
    let body = svg.get(open + 1..svg.rfind("</svg>")?)?.to_owned();
    Some((size, ["style", "title", "desc"].into_iter().fold(body, without)))
}

/// The text of an SVG without its elements of a name.
pub fn without(mut svg: String, name: &str) -> String {
    let (open, close) = (format!("<{name}"), format!("</{name}>"));
    while let Some(start) = svg.find(&open) {
        let Some(length) = svg[start..].find(&close) else { break };
        svg.replace_range(start..start + length + close.len(), "");
    }
    svg
}

/// The style sheet of paper: its own, and that of pictures with the light colours written out, since a PDF knows no
/// variables.
fn style() -> String {
    let own = ".paper{font-family:\"Sheet Sans\",sans-serif}.paper .w{fill:#fff}.paper .t,.paper .b{fill:#111}\
               .paper .s{fill:#444}.paper .b{font-weight:700}.paper .f{fill:none;stroke:#777;stroke-width:.7}";
    let rules = written_out(0, ".paper .pic");
    // What stands for a whole picture is for a page alone.
    let inner = rules.lines().filter(|rule| rule.starts_with(".paper .pic "));
    std::iter::once(own).chain(inner).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_its_column_and_no_word_is_lost() {
        let mut pen = Pen::new((612.0, 792.0));
        let text = "Run seam-loop: it is ahead of baseline-run by Supercalifragilisticexpialidocious in 20 possessions.";
        for width in [40.0, 90.0, 300.0] {
            let how = Type::bold(9.0);
            let lines = pen.broken(width, how, text);
            assert!(lines.iter().all(|line| pen.measure(line, how) <= width), "{lines:?}");
            assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""));
        }
        assert!(pen.text((0.0, 10.0), 90.0, Type::plain(9.0), text) > 40.0);
        assert_eq!(pen.measure("", Type::plain(9.0)), 0.0);
    }

    #[test]
    fn a_page_that_runs_over_is_drawn_smaller_as_a_whole_and_an_empty_text_takes_no_room() {
        let mut pen = Pen::new((612.0, 792.0));
        let end = pen.text((0.0, 10.0), 90.0, Type::plain(9.0), "some words");
        assert_eq!(pen.text((0.0, end), 90.0, Type::plain(9.0), ""), end);
        assert!(!pen.svg().contains("transform"));
        pen.shrink(0.5);
        assert!(pen.svg().contains("<g transform=\"scale(0.5000)\">"), "{}", pen.svg());
    }

    #[test]
    fn the_typeface_has_the_signs_of_the_numbers() {
        let pen = Pen::new((612.0, 792.0));
        for letter in "+\u{2212}0123456789.,;:()%".chars() {
            assert!(pen.faces.iter().all(|face| face.glyph_index(letter).is_some()), "{letter}");
        }
    }

    #[test]
    fn the_style_of_paper_has_no_variable_left() {
        let style = style();
        assert!(!style.contains("var(") && !style.contains("--") && !style.contains('@'), "{style}");
        assert!(style.contains(".paper .pic .court{fill:none;stroke:#"));
    }

    #[test]
    fn a_picture_keeps_its_shape_and_loses_its_words() {
        let svg = "<svg class=\"pic\" viewBox=\"0 0 200 100\"><style>x</style><title id=\"a\">T</title><desc>D</desc><g/></svg>\n";
        let (size, body) = inner(svg).unwrap();
        assert_eq!((size, body.as_str()), ((200.0, 100.0), "<g/>"));
        let mut pen = Pen::new((100.0, 100.0));
        assert_eq!(pen.picture((0.0, 0.0), 50.0, svg), 25.0);
        assert!(inner("<svg><g/></svg>").is_none());
    }
}
