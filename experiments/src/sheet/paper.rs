//! The sheet and the cards laid out on paper. Text shrinks until everything stands on the one page.

use super::model::{CHOICES, Leader, Position, SELDOM, Sheet};
use super::pen::{Pen, Type};
use crate::wording::capital;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum Paper {
    /// 8.5 by 11 inches.
    #[default]
    Letter,
    /// 210 by 297 mm.
    A4,
}

impl Paper {
    /// Width and height, pt.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::Letter => (612.0, 792.0),
            Self::A4 => (595.28, 841.89),
        }
    }

    /// As style sheets name it.
    pub const fn css(self) -> &'static str {
        match self {
            Self::Letter => "8.5in 11in",
            Self::A4 => "210mm 297mm",
        }
    }
}

/// Room left free round a page, pt.
const MARGIN: f64 = 32.0;
/// Between columns, pt.
const GAP: f64 = 12.0;
/// Sizes of letters that are tried, the largest first, pt.
const SIZES: [f64; 8] = [9.4, 9.0, 8.6, 8.2, 7.8, 7.4, 7.0, 6.6];

/// The first page that fits, or else the one in the smallest letters, all of it drawn smaller until it does.
fn fitting(draw: impl Fn(f64) -> (Pen, f64), most: f64) -> Pen {
    let mut page = draw(SIZES[0]);
    for size in &SIZES[1..] {
        if page.1 <= most {
            break;
        }
        page = draw(*size);
    }
    let (mut pen, end) = page;
    if end > most {
        pen.shrink(most / end);
    }
    pen
}

/// The sheet on one page.
pub fn sheet(sheet: &Sheet, paper: Paper) -> Pen {
    fitting(|size| sheet_in(sheet, paper, size), paper.size().1 - MARGIN)
}

fn sheet_in(sheet: &Sheet, paper: Paper, size: f64) -> (Pen, f64) {
    let mut pen = Pen::new(paper.size());
    let whole = pen.width - 2.0 * MARGIN;
    let mut y = pen.text((MARGIN, MARGIN), whole, Type::bold(size * 1.25), &sheet.title);
    y = pen.text((MARGIN, y + 1.0), whole, Type::soft(size * 0.85), &sheet.facts) + 5.0;

    let right = 226.0;
    let left = whole - right - GAP;
    let (mut at, x) = (y, MARGIN + left + GAP);
    at = pen.text((MARGIN, at), left, Type::bold(size * 1.15), sheet.heading) + 1.0;
    for claim in &sheet.claims {
        at = pen.text((MARGIN, at + 1.0), left, Type::bold(size), claim);
    }
    for leader in &sheet.leaders {
        at = play(&mut pen, leader, (MARGIN, at + 2.0), left, size);
    }
    for line in &sheet.runs {
        at = pen.text((MARGIN, at + 1.0), left, Type::plain(size), line);
    }
    at += 6.0;

    at = pen.text((MARGIN, at), left, Type::bold(size * 1.15), "If they adjust") + 1.0;
    if sheet.calls.is_empty() {
        at = pen.text((MARGIN, at), left, Type::plain(size), &sheet.no_calls);
    }
    for call in &sheet.calls {
        at = pen.text((MARGIN, at), left, Type::bold(size), &format!("{}:", call.when));
        let words = format!("{} {}", call.run, call.look);
        at = pen.text((MARGIN + 8.0, at), left - 8.0, Type::plain(size), &words);
        at += 2.0;
    }
    let pictured = pen.picture((x, y), right, &sheet.start.svg);
    let captioned = pen.text((x, y + pictured), right, Type::soft(size * 0.85), sheet.start.caption);
    let mut y = at.max(captioned) + 5.0;

    y = choices(&mut pen, sheet, y, size) + 6.0;
    let across = (whole - 2.0 * GAP) / 3.0;
    let mut lowest = y;
    for drawn in &sheet.drawn {
        y = lowest;
        for (nth, still) in drawn.stills.iter().enumerate() {
            let x = MARGIN + nth as f64 * (across + GAP);
            let height = pen.picture((x, y), across, &still.svg);
            let end = pen.text((x, y + height), across, Type::soft(size * 0.85), still.caption);
            lowest = lowest.max(end);
        }
    }
    let between = if sheet.sure.is_empty() { "" } else { " " };
    let of = format!(
        "Choices and cards are of {}. {CHOICES} {} {}{between}To repeat: {}",
        sheet.leader(),
        sheet.open_looks,
        sheet.sure,
        sheet.command
    );
    y = lowest + 4.0;
    for call in sheet.calls.iter().filter(|call| !call.gains.is_empty()) {
        let words = format!("{}: {}", call.when, call.gains.join(" "));
        y = pen.text((MARGIN, y), whole, Type::soft(size * 0.85), &words);
    }
    if !sheet.calls.is_empty() {
        y = pen.text((MARGIN, y), whole, Type::soft(size * 0.85), &sheet.tried);
    }
    y = pen.text((MARGIN, y + 1.0), whole, Type::soft(size * 0.85), &of);
    y = pen.text((MARGIN, y + 1.0), whole, Type::soft(size * 0.85), sheet.note);
    (pen, y)
}

/// Width of the picture of a leader's way, pt.
const WAY: f64 = 58.0;

/// What a leader is, its way beside it; returns where it ends.
fn play(pen: &mut Pen, leader: &Leader, (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let words = if leader.words.is_empty() { String::new() } else { format!("{}.", leader.words) };
    let (text, wide) = if leader.way.is_empty() { (x, wide) } else { (x + WAY + 8.0, wide - WAY - 8.0) };
    let drawn = y + pen.picture((x, y), WAY, &leader.way);
    let named = pen.text((text, y), wide, Type::bold(size), &leader.name);
    pen.text((text, named), wide, Type::plain(size), &words).max(drawn)
}

/// What each position does with the ball, as a table.
fn choices(pen: &mut Pen, sheet: &Sheet, y: f64, size: f64) -> f64 {
    let whole = pen.width - 2.0 * MARGIN;
    let (name, words) = (0.2 * whole, 0.8 * whole);
    let mut at = pen.text((MARGIN, y), name, Type::bold(size), "Position");
    pen.text((MARGIN + name, y), words, Type::bold(size), "With the ball, best first");
    pen.rule(MARGIN, at, whole);
    at += 2.0;
    for position in &sheet.positions {
        let named = format!("{}  {}", position.number, position.name);
        let below = pen.text((MARGIN, at), name, Type::plain(size), &named);
        let told = if position.ball.is_empty() { SELDOM.to_owned() } else { position.ball.join(" ") };
        at = pen.text((MARGIN + name, at), words, Type::plain(size), &told).max(below) + 1.0;
    }
    at
}

/// The cards, six fields to a page, to be cut apart.
pub fn cards(sheet: &Sheet, paper: Paper) -> Pen {
    fitting(|size| cards_in(sheet, paper, size), paper.size().1 - MARGIN)
}

fn cards_in(sheet: &Sheet, paper: Paper, size: f64) -> (Pen, f64) {
    let mut pen = Pen::new(paper.size());
    let wide = (pen.width - 2.0 * MARGIN - GAP) / 2.0;
    let high = (pen.height - 2.0 * MARGIN - 2.0 * GAP) / 3.0;
    let field =
        |nth: usize| (MARGIN + (nth % 2) as f64 * (wide + GAP), MARGIN + (nth / 2) as f64 * (high + GAP));
    // The page is too full where one card is.
    let mut over: f64 = 0.0;
    for (nth, position) in sheet.positions.iter().enumerate() {
        let at = field(nth);
        pen.frame(at, (wide, high));
        let end = card(&mut pen, position, (at.0 + 8.0, at.1 + 7.0), wide - 16.0, size);
        over = over.max(end - (at.1 + high - 5.0));
    }
    let (x, y) = field(sheet.positions.len());
    let mut at = pen.text(
        (x + 8.0, y + 7.0),
        wide - 16.0,
        Type::bold(size * 1.2),
        &format!("Attack: {}", sheet.leader()),
    );
    for claim in &sheet.claims {
        at = pen.text((x + 8.0, at + 3.0), wide - 16.0, Type::plain(size), claim);
    }
    let words =
        "Near and far are seen from the ball; your side is the one on which you stand when the move begins.";
    at = pen.text((x + 8.0, at + 4.0), wide - 16.0, Type::plain(size), words);
    pen.text((x + 8.0, at + 4.0), wide - 16.0, Type::soft(size * 0.9), sheet.note);
    let end = pen.height - MARGIN + over;
    (pen, end)
}

/// One card; returns where it ends.
fn card(pen: &mut Pen, position: &Position, (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let picture = 122.0;
    let words = wide - picture - 8.0;
    let title = format!("{}  {}", position.number, capital(&position.name));
    let mut at = pen.text((x, y), words, Type::bold(size * 1.3), &title) + 3.0;
    for duty in &position.duties {
        at = pen.text((x, at), words, Type::plain(size), &format!("- {duty}")) + 2.0;
    }
    at = pen.text((x, at + 2.0), words, Type::bold(size), "With the ball");
    if position.ball.is_empty() {
        at = pen.text((x, at), words, Type::plain(size), SELDOM);
    }
    for line in &position.ball {
        at = pen.text((x, at), words, Type::plain(size), line) + 1.0;
    }
    let below = y + Pen::picture_height(picture, &position.picture);
    pen.picture((x + words + 8.0, y - 4.0), picture, &position.picture);
    at.max(below)
}
