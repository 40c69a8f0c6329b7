//! A possession as a moving picture for a message: frames drawn as SVG, made into pixels, and packed into a GIF or kept as
//! PNG files.
//!
//! The same film gives the same bytes: the letters are the program's own and the palette is fixed.

use std::sync::Arc;

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};
use scenarios::shown_lines;

use super::beside::{Side, compared, ends};
use super::court::around_cm;
use super::gif::{Picture, packed};
use super::moments::{frame_of, shots};
use super::narrate::{Line, lines};
use super::scene::Scenes;
use super::storyboard::written;
use super::telling::Tier;
use crate::marks::{CARD, INK, SOFT};
use crate::sheet::{BOLD, REGULAR};
use crate::wording::capital;
use crate::wrapping::{Overlong, glued, letters, lines as broken};

/// Width of a GIF and of a PNG frame, pixels.
const GIF_WIDE: u32 = 480;
const PNG_WIDE: u32 = 960;
/// Width of a GIF of two films, pixels.
const BOTH_WIDE: u32 = 840;
/// Between the floors of two films, cm.
const BETWEEN_CM: f64 = 40.0;
/// Time between two pictures, s: every frame more is hardly seen.
const EVERY_S: f32 = 0.1;
/// How long ways are seen, s.
const WAYS_S: f32 = 2.0;
/// How long a shot and the end stand still, hundredths of a second.
const STAND: u16 = 160;
/// Most bytes of a GIF. A longer possession is shown with fewer pictures a second.
const LARGEST: usize = 3_000_000;
/// Lines under the floor.
const LINES: usize = 2;

/// A film, or two on one clock, drawn picture by picture.
pub struct Clip<'a> {
    floors: Vec<Floor<'a>>,
    title: String,
    /// Left, top, width and height of the floor that is shown, cm.
    seen: [f64; 4],
    /// Besides shots and the end it stands still here: where two part.
    parting: Option<usize>,
    options: Options<'static>,
}

/// One of the films.
struct Floor<'a> {
    side: Side<'a>,
    scenes: Scenes<'a>,
    told: Vec<Line>,
}

impl<'a> Floor<'a> {
    fn new(side: Side<'a>) -> Self {
        let told = lines(side.film, &side.words()).into_iter().filter(|line| line.tier == Tier::Ball);
        Self { side, scenes: Scenes::new(side.film, side.setup), told: told.collect() }
    }

    fn last(&self) -> usize {
        self.side.film.frames.len() - 1
    }

    /// What has happened last by a frame; at the end, how it ended.
    fn now(&self, frame: usize) -> String {
        if frame == self.last() {
            return capital(&ends(&self.side));
        }
        let time_s = self.side.film.frames[frame].time_s;
        let by_now = self.told.iter().rev().find(|line| line.time_s <= time_s + 1e-3);
        by_now.map_or_else(String::new, |line| line.text.clone())
    }
}

impl<'a> Clip<'a> {
    /// Of a film, or of two of one possession, under a title.
    pub fn new(sides: &[Side<'a>], title: &str) -> Self {
        let floors: Vec<Floor<'a>> = sides.iter().copied().map(Floor::new).collect();
        let parting = <&[Side<'a>; 2]>::try_from(sides).ok().and_then(|both| compared(both)[0].time_s);
        let mut fonts = fontdb::Database::new();
        for face in [REGULAR, BOLD] {
            fonts.load_font_data(face.to_vec());
        }
        Self {
            parting: parting.map(|time_s| frame_of(sides[0].film, time_s)),
            seen: seen(sides),
            title: title.to_owned(),
            options: Options { fontdb: Arc::new(fonts), ..Options::default() },
            floors,
        }
    }

    /// As a GIF that plays again and again.
    pub fn gif(&self) -> Vec<u8> {
        let wide = if self.floors.len() > 1 { BOTH_WIDE } else { GIF_WIDE };
        let mut every_s = EVERY_S;
        loop {
            let shown = self.shown(every_s);
            let pictures =
                shown.iter().map(|&(frame, delay)| Picture { pixels: self.pixels(frame, wide), delay });
            let bytes = packed(pictures);
            if bytes.len() < LARGEST || shown.len() < 4 {
                return bytes;
            }
            every_s *= 2.0;
        }
    }

    /// As PNG files, in order.
    ///
    /// # Panics
    /// Never: what is in memory can be written there.
    pub fn frames(&self) -> Vec<Vec<u8>> {
        let wide = PNG_WIDE * self.floors.len() as u32;
        let png = |(frame, _)| self.pixels(frame, wide).encode_png().expect("pixels in memory");
        self.shown(EVERY_S).into_iter().map(png).collect()
    }

    /// The frames that are shown and how long each stands, hundredths of a second. Shots, the parting and every end are
    /// among them.
    fn shown(&self, every_s: f32) -> Vec<(usize, u16)> {
        let step_s = self.floors[0].side.setup.step_s;
        let every = ((every_s / step_s).round() as usize).max(1);
        let own = |floor: &Floor<'_>| -> Vec<usize> {
            shots(floor.side.film).iter().map(|shot| shot.frame).chain([floor.last()]).collect()
        };
        let stands: Vec<usize> = self.floors.iter().flat_map(own).chain(self.parting).collect();
        let last = self.floors.iter().map(Floor::last).max().unwrap_or(0);
        let mut shown: Vec<usize> = (0..=last).step_by(every).chain(stands.iter().copied()).collect();
        shown.sort_unstable();
        shown.dedup();
        let usual = (every_s * 100.0).round() as u16;
        shown.into_iter().map(|frame| (frame, if stands.contains(&frame) { STAND } else { usual })).collect()
    }

    /// One frame in pixels.
    fn pixels(&self, frame: usize, wide: u32) -> Pixmap {
        let (svg, (width, height)) = self.svg(frame);
        let scale = f64::from(wide) / width;
        // Cut off, not rounded up: the last row is covered whole.
        let high = (scale * height) as u32;
        let tree = Tree::from_str(&shown_lines(&svg), &self.options).expect("a picture of its own");
        let mut pixels = Pixmap::new(wide, high).expect("a size of its own");
        let scale = scale as f32;
        resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
        pixels
    }

    /// One frame as an SVG, and its width and height, cm. Whichever film is over first stands still at its end.
    fn svg(&self, frame: usize) -> (String, (f64, f64)) {
        let [_, _, width, height] = self.seen;
        let count = self.floors.len() as f64;
        let size = width / 34.0;
        let lines_under = 1 + usize::from(self.floors.len() > 1) + LINES;
        let whole =
            (count * width + (count - 1.0) * BETWEEN_CM, height + size * (1.6 + 1.35 * lines_under as f64));
        let time_s = frame as f32 * self.floors[0].side.setup.step_s;
        let title = format!("{}, {time_s:.1} s", self.title);
        let mut body = written(&title, (0.6 * size, height + 1.3 * size), size, ("soft", SOFT));
        for (nth, floor) in self.floors.iter().enumerate() {
            body += &self.floor(floor, frame.min(floor.last()), nth as f64 * (width + BETWEEN_CM), size);
        }
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w:.0} {h:.0}\" width=\"{w:.0}\" height=\"{h:.0}\" \
             font-family=\"DejaVu Sans Condensed\"><rect width=\"100%\" height=\"100%\" fill=\"{CARD}\"/>{body}</svg>",
            w = whole.0,
            h = whole.1,
        );
        (svg, whole)
    }

    /// A floor with the words under it; of two, the name first.
    fn floor(&self, floor: &Floor<'_>, frame: usize, x: f64, size: f64) -> String {
        let [left, top, width, height] = self.seen;
        let most = (width / size / 0.5).max(1.0);
        let now = floor.now(frame);
        let mut told = broken(&glued(&now), &[most], Overlong::Broken, letters);
        told.truncate(LINES);
        if self.floors.len() > 1 {
            told.insert(0, format!("With {}:", floor.side.name));
        }
        let line = |(nth, text): (usize, &String)| {
            let y = height + size * (1.3 + 1.35 * (nth + 1) as f64);
            written(text, (x + 0.6 * size, y), 1.1 * size, ("ink", INK))
        };
        let since = floor.scenes.frame_of(floor.side.film.frames[frame].time_s - WAYS_S);
        format!(
            "<svg x=\"{x:.0}\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"{left:.0} {top:.0} {width:.0} \
             {height:.0}\">{}</svg>{}",
            floor.scenes.drawn(since, frame),
            told.iter().enumerate().map(line).collect::<String>()
        )
    }
}

/// The part of the floor that any of the films uses: left, top, width and height, cm.
fn seen(sides: &[Side<'_>]) -> [f64; 4] {
    let frames = sides.iter().flat_map(|side| &side.film.frames);
    let seen = frames.flat_map(|frame| frame.players.iter().copied().chain([frame.ball]));
    around_cm(&sides[0].setup.court, seen).map(f64::from)
}

#[cfg(test)]
mod tests {
    use engine::film::Film;
    use engine::setup::Setup;

    use super::*;
    use crate::units::Units;

    fn side<'a>(film: &'a Film, setup: &'a Setup) -> Side<'a> {
        Side { name: "a", film, setup, units: Units::M }
    }

    /// What a viewer shows at the end is the last frame, in the colours of the palette.
    #[test]
    fn a_gif_shows_its_frames_and_is_the_same_again() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let film = engine::film_possession(&setup, 1, 17);
        let clip = Clip::new(&[side(&film, &setup)], "a < b & c");
        let bytes = clip.gif();
        assert_eq!(clip.gif(), bytes);
        let shown = clip.shown(EVERY_S);
        let seconds: f32 = shown.iter().map(|(_, delay)| f32::from(*delay) / 100.0).sum();
        assert!(
            seconds > film.frames.last().unwrap().time_s,
            "it plays at the speed of the possession, and stands"
        );
        let mut decoder = ::gif::DecodeOptions::new();
        decoder.set_color_output(::gif::ColorOutput::RGBA);
        let mut decoder = decoder.read_info(bytes.as_slice()).unwrap();
        let (wide, high) = (usize::from(decoder.width()), usize::from(decoder.height()));
        let (mut canvas, mut count) = (vec![0; wide * high * 4], 0);
        while let Some(frame) = decoder.read_next_frame().unwrap() {
            count += 1;
            for (nth, pixel) in frame.buffer.chunks(4).enumerate().filter(|(_, pixel)| pixel[3] > 0) {
                let (x, y) = (nth % usize::from(frame.width), nth / usize::from(frame.width));
                let at = 4 * ((usize::from(frame.top) + y) * wide + usize::from(frame.left) + x);
                canvas[at..at + 4].copy_from_slice(pixel);
            }
        }
        assert_eq!(count, shown.len());
        let last = clip.pixels(film.frames.len() - 1, GIF_WIDE);
        let far = last.pixels().iter().zip(canvas.chunks(4)).filter(|(a, b)| {
            let off = |a: u8, b: u8| u32::from(a.abs_diff(b));
            off(a.red(), b[0]) + off(a.green(), b[1]) + off(a.blue(), b[2]) > 90
        });
        let (far, all) = (far.count(), wide * high);
        assert!(far * 200 < all, "{far} of {all} pixels have another colour");
    }

    #[test]
    fn the_longest_possession_makes_a_small_gif() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let films = (0..60).map(|possession| engine::film_possession(&setup, 1, possession));
        let film = films.max_by_key(|film| film.frames.len()).unwrap();
        let clip = Clip::new(&[side(&film, &setup)], "a");
        let (bytes, seconds) = (clip.gif().len(), film.frames.last().unwrap().time_s);
        assert!(seconds > 20.0 && bytes < LARGEST, "{bytes} bytes for {seconds} s");
    }

    #[test]
    fn frames_are_pictures_of_one_size() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let mut film = engine::film_possession(&setup, 1, 17);
        film.frames.truncate(12);
        let clip = Clip::new(&[side(&film, &setup)], "a");
        let pictures: Vec<Pixmap> =
            clip.frames().iter().map(|png| Pixmap::decode_png(png).unwrap()).collect();
        assert!(pictures.len() >= 6 && pictures.iter().all(|picture| picture.width() == PNG_WIDE));
        assert!(pictures.iter().all(|picture| picture.height() == pictures[0].height()));
    }

    #[test]
    fn two_films_move_in_one_gif() {
        let question = scenarios::experiment(std::path::Path::new("routes-against-sink")).unwrap();
        let [one, other] = [0, 1].map(|nth| &question.variants[nth].setup);
        let films = [one, other].map(|setup| engine::film_possession(setup, 1, 17));
        let sides = [side(&films[0], one), side(&films[1], other)];
        let clip = Clip::new(&sides, "a");
        assert!(clip.gif().len() < LARGEST);
        let last = films.iter().map(|film| film.frames.len() - 1).max().unwrap();
        let shown = clip.shown(EVERY_S);
        assert_eq!(shown.last().map(|(frame, _)| *frame), Some(last), "until both are over");
        let parting = clip.parting.expect("the routes are others");
        assert!(shown.contains(&(parting, STAND)), "it stands where they part");
        // Whichever is over first stands still while the other goes on.
        let ends: Vec<usize> = films.iter().map(|film| film.frames.len() - 1).collect();
        let (first, second) = (*ends.iter().min().unwrap(), *ends.iter().max().unwrap());
        assert!(clip.pixels(first, BOTH_WIDE).width() == BOTH_WIDE && second >= first);
    }
}
