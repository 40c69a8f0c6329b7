//! A picture: its words, its size and its marks; inline for the report or as a file of its own.

use maud::{Markup, PreEscaped, html};
use scenarios::shown_lines;

use super::style::WRITTEN_OUT;

/// Units to the left and right of what is drawn; a unit is a centimetre of the floor.
pub(super) const MARGIN: f64 = 40.0;
/// Height of the heading.
pub(super) const HEAD: f64 = 170.0;

/// A picture.
pub struct Picture {
    /// Name of its file without the ending, and its id in a page.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// What is most worth seeing in it, as a sentence.
    pub caption: String,
    /// What it looks like, for those who cannot see it; the caption comes after.
    pub desc: String,
    pub(super) width: f64,
    /// Where its key begins, if it has one; else its height.
    pub(super) height: f64,
    pub(super) body: Markup,
    pub(super) key: Option<Key>,
}

/// What the signs of a picture mean, under it.
pub struct Key {
    /// Height.
    pub(super) height: f64,
    pub(super) body: Markup,
}

impl Picture {
    /// As an element of a page that has the style sheet, with its key.
    pub fn inline(&self) -> Markup {
        self.drawn(self.key.as_ref())
    }

    /// The same without its key, where that stands once for several pictures.
    pub fn without_key(&self) -> Markup {
        self.drawn(None)
    }

    /// Its key as it is drawn, by which keys are told apart; None where it has none.
    pub fn signs(&self) -> Option<&str> {
        self.key.as_ref().map(|key| key.body.0.as_str())
    }

    /// Its key alone, to stand over several pictures; None where it has none.
    pub fn key(&self) -> Option<Markup> {
        let key = self.key.as_ref()?;
        let title = format!("{}-key", self.id);
        let drawn = html! {
            svg class="pic" role="img" xmlns="http://www.w3.org/2000/svg"
                viewBox=(format!("0 {} {} {}", n(self.height), n(self.width), n(key.height))) aria-labelledby=(title) {
                title id=(title) { "Key: " (words_of(&key.body)) }
                (key.body)
            }
        };
        Some(PreEscaped(shown_lines(&drawn.into_string()).into_owned()))
    }

    fn drawn(&self, key: Option<&Key>) -> Markup {
        let (title, desc) = (format!("{}-title", self.id), format!("{}-desc", self.id));
        let height = self.height + key.map_or(0.0, |key| key.height);
        let drawn = html! {
            svg class="pic" id=(self.id) role="img" xmlns="http://www.w3.org/2000/svg"
                viewBox=(format!("0 0 {} {}", n(self.width), n(height)))
                aria-labelledby=(format!("{title} {desc}")) {
                title id=(title) { (self.title) }
                desc id=(desc) { (self.desc) " " (self.caption) }
                (self.body)
                @if let Some(key) = key { (key.body) }
            }
        };
        // Whatever text came from outside: a picture with a control character in it is no XML.
        PreEscaped(shown_lines(&drawn.into_string()).into_owned())
    }

    /// As a file, its style sheet inside, and its ground: not every program paints the background of a whole picture.
    pub fn file(&self) -> Vec<u8> {
        let style = format!("<style>{}</style><title", *WRITTEN_OUT);
        let ground = "</desc><rect class=\"ground\" width=\"100%\" height=\"100%\"/>";
        let text = self.inline().into_string().replacen("<title", &style, 1).replacen("</desc>", ground, 1);
        (text + "\n").into_bytes()
    }
}

/// The words of what is drawn, one after the other; a mark that they explain has none.
fn words_of(body: &Markup) -> PreEscaped<String> {
    let texts = body.0.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text);
    PreEscaped(texts.filter(|text| !text.is_empty()).collect::<Vec<_>>().join("; "))
}

/// A number of units as text: a tenth is finer than anyone sees.
pub(super) fn n(value: f64) -> String {
    let text = format!("{value:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".into() } else { text.into() }
}

/// Text at a place.
pub(super) fn label(class: &str, x: f64, y: f64, text: &str) -> Markup {
    html! { text class=(class) x=(n(x)) y=(n(y)) { (text) } }
}

/// A straight line.
pub(super) fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> Markup {
    html! { line class=(class) x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {} }
}

/// A rectangle.
pub(super) fn rect(class: &str, x: f64, y: f64, width: f64, height: f64) -> Markup {
    html! { rect class=(class) x=(n(x)) y=(n(y)) width=(n(width)) height=(n(height)) {} }
}

/// Pieces one after the other.
pub(super) fn joined(pieces: impl IntoIterator<Item = Markup>) -> Markup {
    PreEscaped(pieces.into_iter().map(PreEscaped::into_string).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_makes_a_picture_something_else() {
        let odd = String::from("a\u{0}\u{1b}[31m\u{7}\u{202e} < & \"b\"");
        let picture = Picture {
            id: "odd".into(),
            title: odd.clone(),
            caption: odd.clone(),
            desc: odd.clone(),
            width: 10.0,
            height: 10.0,
            body: label("head", 1.0, 1.0, &odd),
            key: None,
        };
        let file = String::from_utf8(picture.file()).unwrap();
        assert!(file.contains("a\\u{0}\\u{1b}[31m\\u{7}\\u{202e} &lt; &amp;"), "{file}");
        assert_eq!(shown_lines(&file), file);
        usvg::Tree::from_str(&file, &usvg::Options::default()).expect("a picture");
    }
}
