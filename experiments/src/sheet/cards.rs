//! The cards laid out on paper: three to a page, their edges shared, to be cut apart; the last field is the coach's own.
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
    let page = paper.size();
    let field = (page.0 - 2.0 * MARGIN, (page.1 - 2.0 * MARGIN) / FIELDS as f64);
    let inner = (field.0 - 2.0 * EDGE.0, field.1 - 2.0 * EDGE.1);
    let card = |position, share| Card { position, sheet, inner, share, most: f64::INFINITY };
    // The largest picture with words that are read at arm's length on every card; or else the one with the largest words.
    let least = |share: &f64| {
        sheet.positions.iter().map(|own| card(own, *share).size(page)).fold(f64::INFINITY, f64::min)
    };
    let narrow = PICTURED[PICTURED.len() - 1];
    let is_room = |share: &f64| {
        let end = |own| card(own, *share).draw(&mut Pen::new(page), (0.0, 0.0), LEAST);
        sheet.positions.iter().map(end).all(|end| end <= inner.1)
    };
    let large = PICTURED.iter().find(|share| least(share) >= READ);
    let some = || [narrow].iter().chain(&NARROWER).copied().find(is_room);
    let share = large.copied().or_else(some).unwrap_or(NARROWER[NARROWER.len() - 1]);
    // Where the key under one picture is long, all pictures are as small.
    let widths = sheet.positions.iter().map(|own| card(own, share).picture_width());
    let most = widths.fold(f64::INFINITY, f64::min);
    let fields: Vec<usize> = (0..=sheet.positions.len()).collect();
    let drawn = fields.chunks(FIELDS).map(|fields| {
        let mut pen = Pen::new(page);
        let mut over: f64 = 1.0;
        // One size of letters a page: that for which all of its cards have room.
        let own = fields.iter().filter_map(|number| sheet.positions.get(*number));
        let size = own.map(|own| card(own, share).size(page)).fold(SIZES[0], f64::min);
        for (nth, number) in fields.iter().enumerate() {
            let y = MARGIN + nth as f64 * field.1;
            let at = (MARGIN + EDGE.0, y + EDGE.1);
            let end = match sheet.positions.get(*number) {
                Some(position) => {
                    pen.frame((MARGIN, y), field);
                    Card { most, ..card(position, share) }.draw(&mut pen, at, size)
                }
                None => {
                    let fits = |sizes: &&(f64, f64)| {
                        about(&mut Pen::new(page), sheet, ((0.0, 0.0), inner), **sizes) <= inner.1
                    };
                    let sizes = ABOUT.iter().find(fits).copied().unwrap_or(ABOUT[ABOUT.len() - 1]);
                    about(&mut pen, sheet, (at, inner), sizes)
                }
            };
            over = over.max((end - at.1) / inner.1);
        }
        (pen, over)
    });
    let drawn: Vec<(Pen, f64)> = drawn.collect();
    // What runs over in the smallest letters is drawn smaller on all pages alike.
    let over = drawn.iter().map(|page| page.1).fold(1.0, f64::max);
    let shrunk = |(mut pen, _): (Pen, f64)| {
        if over > 1.0 {
            pen.shrink(1.0 / over);
        }
        pen
    };
    drawn.into_iter().map(shrunk).collect()
}

/// Share of the coach's own field that the names of the places have, at most.
const PLACES: f64 = 0.42;
/// Letters of that field that are tried: what is read first, and what it rests on, pt.
const ABOUT: [(f64, f64); 5] = [(READ, KEY), (9.0, 7.5), (8.5, 7.0), (8.0, 7.0), (7.5, 7.0)];

/// The field beside the cards, the coach's own: what they are of, on what that rests, the note, and what the places are called.
fn about(
    pen: &mut Pen,
    sheet: &Sheet,
    ((x, y), (whole, high)): ((f64, f64), (f64, f64)),
    (size, small): (f64, f64),
) -> f64 {
    let across = if sheet.places.is_empty() { 0.0 } else { PLACES * whole };
    // No deeper than the field.
    let drawn = across * (high / Pen::picture_height(across, &sheet.places).max(1.0)).min(1.0);
    pen.picture((x + whole - drawn, y), drawn, &sheet.places);
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
    at
}

/// One card.
#[derive(Clone, Copy)]
struct Card<'s> {
    position: &'s Position,
    sheet: &'s Sheet,
    /// Width and height of what stands on it.
    inner: (f64, f64),
    /// Share of the width that the picture has.
    share: f64,
    /// Width that the picture has at most, pt.
    most: f64,
}

impl Card<'_> {
    /// The largest letters in which its words have room, or else the smallest.
    fn size(self, page: (f64, f64)) -> f64 {
        let fits = |size: &&f64| self.draw(&mut Pen::new(page), (0.0, 0.0), **size) <= self.inner.1;
        SIZES.iter().find(fits).copied().unwrap_or(LEAST)
    }

    /// The words, and beside them the picture with the key under it. Returns where it ends.
    fn draw(self, pen: &mut Pen, (x, y): (f64, f64), size: f64) -> f64 {
        let across = self.share * self.inner.0;
        let wide = self.inner.0 - across - GAP;
        let told = self.words(pen, (x, y), wide, size);
        let left = x + wide + GAP;
        let drawn = self.picture_width().min(self.most);
        let mut at = y + pen.picture((left + (across - drawn), y), drawn, &self.position.picture);
        for key in self.keys() {
            at = pen.text((left, at + 2.0), across, Type::soft(KEY), key);
        }
        told.max(at)
    }

    /// What stands under the picture.
    fn keys(&self) -> [&str; 2] {
        [&self.position.marks, &self.position.terms]
    }

    /// The width of the picture, pt, for which it and its key have room.
    fn picture_width(self) -> f64 {
        let across = self.share * self.inner.0;
        let height = |key: &str| Pen::new((0.0, 0.0)).text_height(across, Type::soft(KEY), key) + 2.0;
        let high: f64 = self.keys().into_iter().map(height).sum();
        let whole = Pen::picture_height(across, &self.position.picture).max(1.0);
        // A deep floor is drawn smaller than the card is high.
        across * ((self.inner.1 - high) / whole).min(1.0)
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
