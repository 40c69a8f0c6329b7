//! A possession as a moving picture for a message: frames drawn as SVG, made into pixels, and packed into a GIF or kept as
//! PNG files.
//!
//! The same film gives the same bytes: the letters are the program's own and the palette is fixed.

use std::sync::Arc;

use engine::film::Film;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};
use scenarios::shown_lines;

use super::SetupWords;
use super::beside::{Side, ends};
use super::court::around_cm;
use super::gif::{Picture, packed};
use super::marks::{CARD, INK, SOFT};
use super::moments::shots;
use super::narrate::{Line, lines};
use super::scene::Scenes;
use super::storyboard::written;
use super::telling::Tier;
use crate::sheet::{BOLD, REGULAR};
use crate::wording::capital;
use crate::wrapping::{Overlong, letters, lines as broken};

/// Width of a GIF and of a PNG frame, pixels.
const GIF_WIDE: u32 = 480;
const PNG_WIDE: u32 = 960;
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

/// A film that is drawn picture by picture.
pub struct Clip<'a> {
    side: Side<'a>,
    scenes: Scenes<'a>,
    told: Vec<Line>,
    title: String,
    /// Left, top, width and height of the floor that is shown, cm.
    floor: [f64; 4],
    options: Options<'static>,
}

impl<'a> Clip<'a> {
    /// Of a film, under a title.
    pub fn new(side: Side<'a>, title: &str) -> Self {
        let Side { film, setup, .. } = side;
        let seen = film.frames.iter().flat_map(|frame| frame.players.iter().copied().chain([frame.ball]));
        let told = lines(film, &SetupWords::new(setup, film));
        let mut fonts = fontdb::Database::new();
        for face in [REGULAR, BOLD] {
            fonts.load_font_data(face.to_vec());
        }
        Self {
            side,
            scenes: Scenes::new(film, setup),
            told: told.into_iter().filter(|line| line.tier == Tier::Ball).collect(),
            title: title.to_owned(),
            floor: around_cm(&setup.court, seen).map(f64::from),
            options: Options { fontdb: Arc::new(fonts), ..Options::default() },
        }
    }

    /// As a GIF that plays again and again.
    pub fn gif(&self) -> Vec<u8> {
        let mut every_s = EVERY_S;
        loop {
            let shown = self.shown(every_s);
            let pictures =
                shown.iter().map(|&(frame, delay)| Picture { pixels: self.pixels(frame, GIF_WIDE), delay });
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
        let png = |(frame, _)| self.pixels(frame, PNG_WIDE).encode_png().expect("pixels in memory");
        self.shown(EVERY_S).into_iter().map(png).collect()
    }

    /// The frames that are shown and how long each stands, hundredths of a second. Shots and the end are among them.
    fn shown(&self, every_s: f32) -> Vec<(usize, u16)> {
        let film: &Film = self.side.film;
        let every = ((every_s / self.side.setup.step_s).round() as usize).max(1);
        let last = film.frames.len() - 1;
        let stands: Vec<usize> = shots(film).iter().map(|shot| shot.frame).chain([last]).collect();
        let mut shown: Vec<usize> = (0..=last).step_by(every).chain(stands.iter().copied()).collect();
        shown.sort_unstable();
        shown.dedup();
        let usual = (every_s * 100.0).round() as u16;
        shown.into_iter().map(|frame| (frame, if stands.contains(&frame) { STAND } else { usual })).collect()
    }

    /// One frame in pixels.
    fn pixels(&self, frame: usize, wide: u32) -> Pixmap {
        let [_, _, width, height] = self.floor;
        let (svg, under) = self.svg(frame);
        let scale = f64::from(wide) / width;
        let high = (scale * (height + under)).ceil() as u32;
        let tree = Tree::from_str(&shown_lines(&svg), &self.options).expect("a picture of its own");
        let mut pixels = Pixmap::new(wide, high).expect("a size of its own");
        let scale = scale as f32;
        resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
        pixels
    }

    /// One frame as an SVG, and the height of the words under its floor, cm.
    fn svg(&self, frame: usize) -> (String, f64) {
        let [left, top, width, height] = self.floor;
        let film = self.side.film;
        let size = width / 34.0;
        let under = size * (1.6 + 1.35 * (LINES as f64 + 1.0));
        let time_s = film.frames[frame].time_s;
        let most = (width / size / 0.5).max(1.0);
        let now = self
            .told
            .iter()
            .rev()
            .find(|line| line.time_s <= time_s + 1e-3)
            .map_or("", |line| line.text.as_str());
        let now = if frame + 1 == film.frames.len() { capital(&ends(&self.side)) } else { now.to_owned() };
        let y = |line: usize| height + size * (1.3 + 1.35 * line as f64);
        let mut words =
            written(&format!("{}, {time_s:.1} s", self.title), (0.6 * size, y(0)), size, ("soft", SOFT));
        for (nth, line) in broken(&now, &[most], Overlong::Broken, letters).iter().take(LINES).enumerate() {
            words += &written(line, (0.6 * size, y(nth + 1)), 1.1 * size, ("ink", INK));
        }
        let since = self.scenes.frame_of(time_s - WAYS_S);
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.0} {:.0}\" width=\"{width:.0}\" \
             height=\"{:.0}\" font-family=\"DejaVu Sans Condensed\"><rect width=\"100%\" height=\"100%\" \
             fill=\"{CARD}\"/><svg width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"{left:.0} {top:.0} {width:.0} \
             {height:.0}\">{}</svg>{words}</svg>",
            height + under,
            height + under,
            self.scenes.drawn(since, frame)
        );
        (svg, under)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a viewer shows at the end is the last frame, in the colours of the palette.
    #[test]
    fn a_gif_shows_its_frames_and_is_the_same_again() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let film = engine::film_possession(&setup, 1, 17);
        let clip = Clip::new(Side { name: "a", film: &film, setup: &setup }, "a < b & c");
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
        let clip = Clip::new(Side { name: "a", film: &film, setup: &setup }, "a");
        let (bytes, seconds) = (clip.gif().len(), film.frames.last().unwrap().time_s);
        assert!(seconds > 20.0 && bytes < LARGEST, "{bytes} bytes for {seconds} s");
    }

    #[test]
    fn frames_are_pictures_of_one_size() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let mut film = engine::film_possession(&setup, 1, 17);
        film.frames.truncate(12);
        let clip = Clip::new(Side { name: "a", film: &film, setup: &setup }, "a");
        let pictures: Vec<Pixmap> =
            clip.frames().iter().map(|png| Pixmap::decode_png(png).unwrap()).collect();
        assert!(pictures.len() >= 6 && pictures.iter().all(|picture| picture.width() == PNG_WIDE));
        assert!(pictures.iter().all(|picture| picture.height() == pictures[0].height()));
    }
}
