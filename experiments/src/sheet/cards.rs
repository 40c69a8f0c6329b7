//! The cards laid out on paper: three to a page, as high as each has to be, to be cut apart; the last field is the coach's own.
//! Every page has letters as large as the words of its cards leave room for, courts of the same size, and the key to both.

use super::model::{INTERVAL, Position, SELDOM, Sheet};
use super::paper::{GAP, LEAST, MARGIN, Paper};
use super::pen::{Pen, Type};
use crate::looks::GOOD_LOOK;
use crate::wording::capital;

/// Fields to a page.
const FIELDS: usize = 3;
/// Room between a card's edge and what stands on it, pt.
const EDGE: (f64, f64) = (9.0, 8.0);
/// Sizes of letters that are tried, the largest first, pt.
const SIZES: [f64; 9] = [12.0, 11.5, 11.0, 10.5, 10.0, 9.5, 9.0, 8.5, LEAST];
/// Shares of a card's width that its picture may have, the largest first: the first at which all words are this high.
const PICTURED: [f64; 5] = [0.6, 0.56, 0.52, 0.48, 0.44];
const READ: f64 = 10.0;
/// Smaller ones, for cards whose words have no room beside those.
const NARROWER: [f64; 2] = [0.4, 0.36];
/// Letters of the key, pt.
const KEY: f64 = LEAST;

/// The cards.
pub fn cards(sheet: &Sheet, paper: Paper) -> Vec<Pen> {
    let fields: Vec<usize> = (0..=sheet.positions.len()).collect();
    let pages = |share: f64| -> Vec<Laid<'_>> {
        fields.chunks(FIELDS).map(|fields| Laid::new((sheet, paper.size()), fields, share)).collect()
    };
    // The largest picture with words that are read at arm's length on every page; or else the one with the largest words.
    let is_read = |laid: &Vec<Laid<'_>>| laid.iter().all(|page| page.size >= READ && page.over <= 1.0);
    let has_room = |laid: &Vec<Laid<'_>>| laid.iter().all(|page| page.over <= 1.0);
    let large = PICTURED.iter().map(|share| pages(*share)).find(is_read);
    let narrow = PICTURED[PICTURED.len() - 1];
    let some = || [narrow].iter().chain(&NARROWER).map(|share| pages(*share)).find(has_room);
    let laid = large.or_else(some).unwrap_or_else(|| pages(NARROWER[NARROWER.len() - 1]));
    // What runs over in the smallest letters is drawn smaller on all pages alike.
    let over = laid.iter().map(|page| page.over).fold(1.0, f64::max);
    let drawn = laid.iter().map(|page| {
        let mut pen = page.draw();
        if over > 1.0 {
            pen.shrink(1.0 / over);
        }
        pen
    });
    drawn.collect()
}

/// A page of cards: each as high as its words and its picture are, and a part of what is left.
struct Laid<'s> {
    sheet: &'s Sheet,
    page: (f64, f64),
    fields: &'s [usize],
    /// Share of a card's width that its picture has.
    share: f64,
    /// Height of the letters of its cards, and of the coach's own field, pt.
    size: f64,
    about: (f64, f64),
    /// How high its fields are, pt.
    heights: Vec<f64>,
    /// How much higher than the page they are all together.
    over: f64,
}

impl<'s> Laid<'s> {
    /// In the largest letters in which they have room, or else in the smallest.
    fn new((sheet, page): (&'s Sheet, (f64, f64)), fields: &'s [usize], share: f64) -> Self {
        let high = page.1 - 2.0 * MARGIN;
        let of = |nth: usize| {
            let (size, about) = (SIZES[nth], ABOUT[(nth / 2).min(ABOUT.len() - 1)]);
            let laid = Self { sheet, page, fields, share, size, about, heights: Vec::new(), over: 1.0 };
            let heights = fields.iter().map(|field| laid.field(&mut Pen::new(page), 0.0, *field));
            let heights: Vec<f64> = heights.map(|end| end + 2.0 * EDGE.1).collect();
            Self { over: heights.iter().sum::<f64>() / high, heights, ..laid }
        };
        let last = SIZES.len() - 1;
        let mut laid = (0..last).map(of).find(|laid| laid.over <= 1.0).unwrap_or_else(|| of(last));
        let left = (high - laid.heights.iter().sum::<f64>()).max(0.0) / fields.len() as f64;
        laid.heights.iter_mut().for_each(|own| *own += left);
        laid
    }

    fn draw(&self) -> Pen {
        let mut pen = Pen::new(self.page);
        let mut y = MARGIN;
        for (field, height) in self.fields.iter().zip(&self.heights) {
            if self.sheet.positions.get(*field).is_some() {
                pen.frame((MARGIN, y), (self.page.0 - 2.0 * MARGIN, *height));
            }
            self.field(&mut pen, y + EDGE.1, *field);
            y += height;
        }
        pen
    }

    /// A card, or the coach's own field; returns where it ends.
    fn field(&self, pen: &mut Pen, y: f64, field: usize) -> f64 {
        let at = (MARGIN + EDGE.0, y);
        let wide = self.page.0 - 2.0 * (MARGIN + EDGE.0);
        match self.sheet.positions.get(field) {
            Some(position) => {
                Card { position, sheet: self.sheet, wide, share: self.share }.draw(pen, at, self.size)
            }
            None => about(pen, self.sheet, (at, wide), self.about),
        }
    }
}

/// Share of the coach's own field that the names of the places have, at most.
const PLACES: f64 = 0.42;
/// Letters of that field that are tried: what is read first, and what it rests on, pt.
const ABOUT: [(f64, f64); 5] = [(READ, KEY), (9.0, 7.5), (8.5, 7.0), (8.0, 7.0), (7.5, 7.0)];

/// The field beside the cards, the coach's own: what they are of, on what that rests, the note, and what the places are called.
fn about(pen: &mut Pen, sheet: &Sheet, ((x, y), whole): ((f64, f64), f64), (size, small): (f64, f64)) -> f64 {
    let drawn = if sheet.places.is_empty() { 0.0 } else { PLACES * whole };
    let named = y + pen.picture((x + whole - drawn, y), drawn, &sheet.places);
    let wide = whole - drawn - if drawn > 0.0 { GAP } else { 0.0 };
    let mut at = pen.text((x, y), wide, Type::soft(size), "For the coach, no card");
    at = pen.text((x, at + 2.0), wide, Type::bold(1.2 * size), &sheet.call());
    for claim in &sheet.claims {
        at = pen.text((x, at + 4.0), wide, Type::bold(size), claim);
    }
    at = pen.text((x, at + 4.0), wide, Type::plain(size), &sheet.title);
    // All that is claimed stands in every output; here it is off the cards of the players. What its words mean stands on the sheet.
    let is_claim = |line: &&str| ![GOOD_LOOK, INTERVAL].contains(line);
    for line in sheet.grounds.iter().map(String::as_str).filter(is_claim).chain([sheet.note]) {
        at = pen.text((x, at + 3.0), wide, Type::soft(small), line);
    }
    at.max(named)
}

/// One card.
#[derive(Clone, Copy)]
struct Card<'s> {
    position: &'s Position,
    sheet: &'s Sheet,
    /// Width of what stands on it, pt.
    wide: f64,
    /// Share of that width that the picture has.
    share: f64,
}

impl Card<'_> {
    /// The words, and beside them the picture with the key under it. Returns where it ends.
    fn draw(self, pen: &mut Pen, (x, y): (f64, f64), size: f64) -> f64 {
        let across = self.share * self.wide;
        let wide = self.wide - across - GAP;
        let told = self.words(pen, (x, y), wide, size);
        let left = x + wide + GAP;
        let mut at = y + pen.picture((left, y), across, &self.position.picture);
        for key in [&self.position.marks, &self.position.terms] {
            at = pen.text((left, at + 2.0), across, Type::soft(KEY), key);
        }
        told.max(at)
    }

    fn words(self, pen: &mut Pen, (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
        let Position { number, name, known, ball, duties, .. } = self.position;
        let title = format!("{number}  {}", capital(name));
        let mut at = pen.text((x, y), wide, Type::bold(size * 1.25), &title);
        at = pen.text((x, at), wide, Type::soft((0.85 * size).max(LEAST)), &self.sheet.card_call()) + 2.0;
        if !known.is_empty() {
            at = pen.text((x, at), wide, Type::soft((0.85 * size).max(LEAST)), known) + 1.0;
        }
        let seldom = [SELDOM.to_owned()];
        let ball = if ball.is_empty() { &seldom[..] } else { ball };
        for (head, rules) in [("Without the ball", &duties[..]), ("With the ball", ball)] {
            at = pen.text((x, at + 2.0), wide, Type::bold(size), head);
            for rule in rules {
                pen.text((x, at), wide, Type::bold(size), "\u{b7}");
                at = pen.text((x + INDENT, at), wide - INDENT, Type::plain(size), rule) + 1.0;
            }
        }
        at
    }
}

/// A rule stands so far in from its dot, pt.
const INDENT: f64 = 8.0;
