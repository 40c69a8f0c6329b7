//! Pictures as one GIF. The palette is fixed: the colours of the marks, and what lies between any two of them where an edge is
//! smoothed. Of each picture only what has changed is kept.

use std::collections::BTreeMap;

use ::gif::{DisposalMethod, Encoder, Frame, Repeat};
use resvg::tiny_skia::{Pixmap, PremultipliedColorU8};

use crate::marks::{ATTACK, BALL, CARD, DEFENCE, FLOOR, INK, LANE, LINE, ON_ATTACK, SOFT};

/// The colours of clips.
const COLOURS: [&str; 10] = [CARD, FLOOR, LANE, LINE, INK, SOFT, ATTACK, ON_ATTACK, DEFENCE, BALL];
/// Shares at which two colours are mixed, for smooth edges.
const MIXED: [u32; 3] = [64, 128, 192];

/// A picture and how long it stands, hundredths of a second.
pub struct Picture {
    /// Its pixels; all pictures of a GIF are of one size.
    pub pixels: Pixmap,
    /// How long it stands.
    pub delay: u16,
}

/// Red, green, blue.
type Rgb = [u8; 3];

/// The GIF, played again and again.
///
/// # Panics
/// Never: what is in memory can be written there.
pub fn packed(pictures: impl Iterator<Item = Picture>) -> Vec<u8> {
    let mut pictures = pictures.peekable();
    let (wide, high) =
        pictures.peek().map_or((1, 1), |picture| (picture.pixels.width(), picture.pixels.height()));
    let mut palette = Palette::new();
    let mut bytes = Vec::new();
    let colours: Vec<u8> = palette.colours.iter().flatten().copied().collect();
    let mut encoder = Encoder::new(&mut bytes, wide as u16, high as u16, &colours)
        .expect("a size and a palette of its own");
    encoder.set_repeat(Repeat::Infinite).expect("bytes in memory");
    let mut before: Option<Vec<u8>> = None;
    for picture in pictures {
        let indices = palette.indices(&picture.pixels);
        let clear = palette.clear();
        let frame = changed(before.as_deref(), &indices, wide as usize, clear);
        let frame =
            Frame { delay: picture.delay, dispose: DisposalMethod::Keep, transparent: Some(clear), ..frame };
        encoder.write_frame(&frame).expect("bytes in memory");
        before = Some(indices);
    }
    drop(encoder);
    bytes
}

/// The least box in which anything differs; in it, what does not differ is clear.
fn changed(before: Option<&[u8]>, now: &[u8], wide: usize, clear: u8) -> Frame<'static> {
    let Some(before) = before else {
        return Frame {
            width: wide as u16,
            height: (now.len() / wide) as u16,
            buffer: now.to_vec().into(),
            ..Frame::default()
        };
    };
    let differs = |at: usize| before[at] != now[at];
    let high = now.len() / wide;
    let row = |y: usize| (0..wide).any(|x| differs(y * wide + x));
    let column = |x: usize| (0..high).any(|y| differs(y * wide + x));
    // Where nothing differs, one clear pixel lets the time pass.
    let (top, left) = ((0..high).find(|y| row(*y)).unwrap_or(0), (0..wide).find(|x| column(*x)).unwrap_or(0));
    let (bottom, right) =
        ((0..high).rfind(|y| row(*y)).unwrap_or(0), (0..wide).rfind(|x| column(*x)).unwrap_or(0));
    let mut buffer = Vec::with_capacity((bottom - top + 1) * (right - left + 1));
    for y in top..=bottom {
        buffer
            .extend((left..=right).map(|x| y * wide + x).map(|at| if differs(at) { now[at] } else { clear }));
    }
    Frame {
        left: left as u16,
        top: top as u16,
        width: (right - left + 1) as u16,
        height: (bottom - top + 1) as u16,
        buffer: buffer.into(),
        ..Frame::default()
    }
}

/// The fixed colours, and the nearest of them to each colour that was asked for.
struct Palette {
    colours: Vec<Rgb>,
    known: BTreeMap<Rgb, u8>,
}

impl Palette {
    fn new() -> Self {
        let pure = COLOURS.map(rgb);
        let mut colours: Vec<Rgb> = pure.to_vec();
        for (nth, a) in pure.iter().enumerate() {
            for b in &pure[..nth] {
                colours.extend(MIXED.map(|share| mixed(*a, *b, share)));
            }
        }
        // One more is never a colour: it is clear.
        colours.push([0, 0, 0]);
        Self { colours, known: BTreeMap::new() }
    }

    fn clear(&self) -> u8 {
        (self.colours.len() - 1) as u8
    }

    /// The places of the nearest colours, pixel by pixel.
    fn indices(&mut self, pixels: &Pixmap) -> Vec<u8> {
        let mut before = None;
        let index = |pixel: &PremultipliedColorU8| {
            let colour = [pixel.red(), pixel.green(), pixel.blue()];
            // Most pixels are like their neighbour.
            match before {
                Some((same, index)) if same == colour => index,
                _ => {
                    let index = self.nearest(colour);
                    before = Some((colour, index));
                    index
                }
            }
        };
        pixels.pixels().iter().map(index).collect()
    }

    fn nearest(&mut self, colour: Rgb) -> u8 {
        let off =
            |other: &Rgb| -> u32 { (0..3).map(|c| u32::from(other[c].abs_diff(colour[c])).pow(2)).sum() };
        let (colours, clear) = (&self.colours, self.clear());
        let nearest = || (0..clear).min_by_key(|place| off(&colours[usize::from(*place)])).unwrap_or(0);
        *self.known.entry(colour).or_insert_with(nearest)
    }
}

fn mixed(a: Rgb, b: Rgb, share: u32) -> Rgb {
    std::array::from_fn(|c| ((u32::from(a[c]) * share + u32::from(b[c]) * (256 - share)) / 256) as u8)
}

/// `#14599a` as three bytes.
fn rgb(colour: &str) -> Rgb {
    let number = u32::from_str_radix(&colour[1..], 16).expect("a colour of the marks");
    [(number >> 16) as u8, (number >> 8) as u8, number as u8]
}
