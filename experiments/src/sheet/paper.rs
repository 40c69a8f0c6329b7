//! The sheet laid out on paper: a page of what to teach, a page of pictures and statistics. Text shrinks until everything
//! stands on its page, but not below what is read at arm's length.

use super::model::{ADJUSTED, BALL, Leader, Position, SELDOM, Sheet, Shown};
use super::pen::{Pen, Type};
use super::ranked::Ranked;

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
pub(super) const MARGIN: f64 = 34.0;
/// Between columns, pt.
pub(super) const GAP: f64 = 12.0;
/// Sizes of letters that are tried, the largest first, pt.
const SIZES: [f64; 7] = [11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0];

/// The first page that fits, or else the one in the smallest letters with the least on it, all of it drawn smaller until it
/// does; and what is on it.
fn fitting(draw: impl Fn(f64, Shares) -> (Pen, f64), most: f64) -> (Pen, Shares) {
    let least = SIZES[SIZES.len() - 1];
    let all = SIZES
        .iter()
        .map(|size| (*size, PICTURED[0]))
        .chain(PICTURED[1..].iter().map(|shares| (least, *shares)));
    let mut page = (draw(SIZES[0], PICTURED[0]), PICTURED[0]);
    for (size, shares) in all.skip(1) {
        if page.0.1 <= most {
            break;
        }
        page = (draw(size, shares), shares);
    }
    let ((mut pen, end), shares) = page;
    if end > most {
        pen.shrink(most / end);
    }
    (pen, shares)
}

/// Height of the smallest letters of what is read first, and those that are tried for the statistics at the foot, pt.
pub(super) const LEAST: f64 = 8.0;
const FOOT: [f64; 3] = [8.0, 7.5, 7.0];

/// Letters somewhat smaller than the others, but never too small to be read on a bench.
fn smaller(size: f64) -> f64 {
    (0.88 * size).max(LEAST)
}

/// The sheet: a page of what to teach, and one of pictures and of what it rests on.
pub fn sheet(sheet: &Sheet, paper: Paper) -> [Pen; 2] {
    let most = paper.size().1 - MARGIN;
    let (first, shares) = fitting(|size, shares| taught(sheet, paper, size, shares), most);
    // What the first page has no room for.
    let left = [(shares.looks, &sheet.looks), (shares.costs, &sheet.costs)];
    let left: Vec<&str> =
        left.iter().filter(|(is_told, _)| !is_told).map(|(_, words)| words.as_str()).collect();
    let left = left.join(" ");
    let looks = left.as_str();
    // As many pictures as there is room for, then as large, then letters.
    let sizes = || WIDE.iter().flat_map(|wide| FOOT.map(|foot| (*wide, foot)));
    let mut all =
        PICTURES.iter().flat_map(|pictures| sizes().map(|(wide, foot)| (*pictures, wide, foot))).skip(1);
    let mut second = shown((sheet, looks), paper, (PICTURES[0], WIDE[0], FOOT[0]));
    while second.1 > most {
        let Some(next) = all.next() else { break };
        second = shown((sheet, looks), paper, next);
    }
    let (mut pictures, end) = second;
    if end > most {
        pictures.shrink(most / end);
    }
    [first, pictures]
}

/// The first page: what to run, what each position does, what to call when they adjust.
fn taught(
    sheet: &Sheet,
    paper: Paper,
    size: f64,
    Shares { pictured, ways, looks, costs }: Shares,
) -> (Pen, f64) {
    let mut pen = Pen::new(paper.size());
    let whole = pen.width - 2.0 * MARGIN;
    let mut y = pen.text((MARGIN, MARGIN), whole, Type::bold(size * 1.25), &sheet.title);
    y = pen.text((MARGIN, y + 1.0), whole, Type::bold(size), &sheet.game);
    y = pen.text((MARGIN, y + 1.0), whole, Type::soft(smaller(size)), &sheet.facts) + 5.0;

    let right = pictured * whole;
    let left = whole - right - GAP;
    let mut at = pen.text((MARGIN, y), left, Type::bold(size * 1.15), sheet.heading) + 1.0;
    for claim in &sheet.claims {
        at = pen.text((MARGIN, at + 1.0), left, Type::bold(size * 1.05), claim);
    }
    if !sheet.lesson.is_empty() {
        at = pen.text((MARGIN, at + 3.0), left, Type::bold(size), &sheet.lesson);
    }
    let leaders: Vec<Leader> = if ways {
        sheet.leaders.clone()
    } else {
        sheet.leaders.iter().map(|own| Leader { way: String::new(), ..own.clone() }).collect()
    };
    at = plays(&mut pen, &leaders, (MARGIN, at), left, size) + 3.0;
    for line in std::iter::once(&sheet.how_sure).chain(&sheet.runs).filter(|line| !line.is_empty()) {
        at = pen.text((MARGIN, at + 3.0), left, Type::plain(size), line);
    }
    // The way that is taught, large, or else where everyone starts; under it, who comes to be open.
    let way = sheet.drawn.first().and_then(|drawn| drawn.stills.first()).unwrap_or(&sheet.start);
    let beside = MARGIN + left + GAP;
    let mut under = still(&mut pen, way, (beside, y), right, size);
    if looks {
        under = pen.text((beside, under + 3.0), right, Type::plain(size), &sheet.looks);
    }
    // Each where there is more room.
    for words in [sheet.of_which.as_str(), if costs { &sheet.costs } else { &sheet.clear_costs }] {
        if at < under {
            at = pen.text((MARGIN, at + 3.0), left, Type::plain(size), words);
        } else {
            under = pen.text((beside, under + 3.0), right, Type::plain(size), words);
        }
    }
    let mut y = at.max(under) + 5.0;

    y = jobs(&mut pen, sheet, y, size) + 4.0;
    y = pen.text((MARGIN, y), whole, Type::bold(size * 1.15), ADJUSTED) + 1.0;
    if sheet.calls.is_empty() {
        y = pen.text((MARGIN, y), whole, Type::plain(size), &sheet.no_calls);
    }
    for (when, words) in called(sheet) {
        y = pen.text((MARGIN, y + 1.0), whole, Type::bold(size), &format!("{when}:"));
        y = pen.text((MARGIN + 8.0, y), whole - 8.0, Type::plain(size), &words) + 1.0;
    }
    y = pen.text((MARGIN, y + 4.0), whole, Type::soft(smaller(size)), &sheet.terms);
    y = pen.text((MARGIN, y + 2.0), whole, Type::soft(LEAST), sheet.note);
    (pen, y)
}

/// When, and what to run and to look for then; rules under which that is the same are told together.
fn called(sheet: &Sheet) -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = Vec::new();
    for call in &sheet.calls {
        let words = format!("{} {}", call.run, call.look);
        match all.iter_mut().find(|(_, known)| *known == words) {
            Some((when, _)) => when.push_str(&format!(", or {}", lower(&call.when))),
            None => all.push((call.when.clone(), words)),
        }
    }
    all
}

/// Widths of the second page's pictures that are tried, the largest first: shares of its two columns.
const WIDE: [f64; 5] = [1.0, 0.96, 0.92, 0.88, 0.84];
/// How many pictures of the second page are tried: the statistics stand beside the third, or else under both, across the page.
const PICTURES: [usize; 2] = [3, 2];
/// Height of what is said under and over the pictures, pt.
const SAID: f64 = 9.0;

/// The second page: at most so many pictures in two columns, this share of each wide, and the statistics: beside the last picture
/// where there is room, else under all of them.
fn shown((sheet, looks): (&Sheet, &str), paper: Paper, (most, share, foot): (usize, f64, f64)) -> (Pen, f64) {
    let mut pen = Pen::new(paper.size());
    let whole = pen.width - 2.0 * MARGIN;
    let mut y = pen.text((MARGIN, MARGIN), whole, Type::bold(SAID * 1.25), "What was seen") + 4.0;
    let first = sheet.drawn.first().map_or(&[][..], |drawn| drawn.stills.get(1..).unwrap_or_default());
    // Of the other leader only the way: the first leader's stands on the first page, and the rest on the screen.
    let ways = sheet.drawn.iter().skip(1).filter_map(|drawn| drawn.stills.first());
    let mut all: Vec<&Shown> = std::iter::once(&sheet.start).chain(first).chain(ways).collect();
    // The first are spared soonest: the cards have where everyone starts, and the screen has the moment.
    all.drain(..all.len().saturating_sub(most));
    let column = (whole - GAP) / 2.0;
    for row in all.chunks(2) {
        let mut lowest = y;
        for (nth, picture) in row.iter().enumerate() {
            let x = MARGIN + nth as f64 * (column + GAP);
            lowest = lowest.max(still(&mut pen, picture, (x, y), share * column, SAID));
        }
        if let [_] = row {
            let left = share * column + GAP;
            let told = record(&mut pen, (sheet, looks), (MARGIN + left, y), (whole - left, foot));
            return (pen, lowest.max(told));
        }
        y = lowest + 10.0;
    }
    let end = record(&mut pen, (sheet, looks), (MARGIN, y), (whole, foot));
    (pen, end)
}

/// The statistics in a column; returns where they end.
fn record(
    pen: &mut Pen,
    (sheet, looks): (&Sheet, &str),
    (x, y): (f64, f64),
    (wide, foot): (f64, f64),
) -> f64 {
    let mut y = pen.text((x, y), wide, Type::bold(SAID * 1.15), "For the record") + 1.0;
    y = ranked(pen, &sheet.ranked, (x, y), (wide, foot));
    for words in recorded(sheet, looks) {
        y = pen.text((x, y + 1.0), wide, Type::soft(foot), &words);
    }
    y
}

/// Room between two columns of the ranked table, pt, and the share of its width that names have at most: longer ones are broken.
const COLUMN_GAP: f64 = 6.0;
const NAME: f64 = 0.34;
/// Names are not broken shorter than this, pt.
const LEAST_NAME: f64 = 44.0;

/// The ranked table; returns where it ends.
fn ranked(pen: &mut Pen, table: &Ranked, (x, y): (f64, f64), (wide, foot): (f64, f64)) -> f64 {
    if table.rows.is_empty() {
        return y;
    }
    let (bold, plain) = (Type::bold(foot), Type::plain(foot));
    // As wide as its longest cell or the longest word of its head.
    let natural = |(nth, head): (usize, &String)| {
        let cells = table.rows.iter().filter_map(|row| row.get(nth)).map(|cell| pen.measure(cell, plain));
        let words = head.split(' ').map(|word| pen.measure(word, bold));
        cells.chain(words).fold(0.0, f64::max).min(NAME * wide) + COLUMN_GAP
    };
    let mut natural: Vec<f64> = table.head.iter().enumerate().map(natural).collect();
    let spare = wide - natural.iter().sum::<f64>();
    // Where all together are too wide, names are broken sooner.
    if let Some(name) = natural.get_mut(1) {
        *name = (*name + spare.min(0.0)).max(LEAST_NAME);
    }
    let spare = spare.max(0.0) / natural.len() as f64;
    let row = |pen: &mut Pen, y: f64, how: Type, cells: &[String]| {
        let mut left = x;
        let mut end = y;
        for (cell, own) in cells.iter().zip(&natural) {
            end = end.max(pen.text((left, y), own + spare - COLUMN_GAP + 0.5, how, cell));
            left += own + spare;
        }
        end
    };
    let mut at = row(pen, y + 1.0, bold, &table.head);
    pen.rule(x, at, wide);
    at += 1.0;
    for cells in &table.rows {
        at = row(pen, at, plain, cells);
    }
    pen.text((x, at + 1.0), wide, Type::soft(foot), &table.foot) + 3.0
}

/// The statistics, a paragraph an entry; `looks` is what the first page has no room for.
fn recorded(sheet: &Sheet, looks: &str) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    told.extend((!sheet.grounds.is_empty()).then(|| sheet.grounds.join(" ")));
    let mut gaining: Vec<(String, String)> = Vec::new();
    for call in sheet.calls.iter().filter(|call| !call.gains.is_empty()) {
        let gains = call.gains.join(" ");
        // Of rules under which the same is to be said, once.
        match gaining.iter_mut().find(|(_, known)| *known == gains) {
            Some((when, _)) => when.push_str(&format!("; {}", lower(&call.when))),
            None => gaining.push((call.when.clone(), gains)),
        }
    }
    told.extend(gaining.iter().map(|(when, gains)| format!("{when}: {gains}")));
    told.extend((!sheet.calls.is_empty()).then(|| sheet.tried.clone()));
    let besides = [looks, &sheet.also, &sheet.players];
    told.extend(besides.into_iter().filter(|words| !words.is_empty()).map(str::to_owned));
    let between = if sheet.sure.is_empty() { "" } else { " " };
    told.push(format!("Jobs and cards are of {}. {}{between}{}", sheet.leader(), sheet.choices, sheet.sure));
    // For whoever runs the program, apart from what a coach reads.
    told.push(format!("To repeat: {}", sheet.command));
    told
}

/// With a small letter in front: it goes on.
fn lower(when: &str) -> String {
    let mut letters = when.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// A picture with what is said of it, if anything is; returns where it ends.
fn still(pen: &mut Pen, shown: &Shown, (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let end = y + pen.picture((x, y), wide, &shown.svg);
    pen.text((x + PICTURE_EDGE * wide, end), wide, Type::soft(smaller(size)), shown.caption)
}

/// Share of a picture's width that lies to the left of its floor: words below it begin there.
const PICTURE_EDGE: f64 = 0.026;

/// Widths of the pictures of the leaders' ways: of one or two, and of more, pt.
const WAYS: [f64; 2] = [104.0, 92.0];

/// What the leaders are: of one or two the way beside the words, of more two in a row, the words under the way. Returns where
/// they end.
fn plays(pen: &mut Pen, leaders: &[Leader], (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let mut at = y;
    if leaders.iter().all(|leader| leader.way.is_empty()) {
        return beside_names(pen, leaders, (x, y + 2.0), wide, size);
    }
    if leaders.len() <= 2 {
        for leader in leaders {
            at = play(pen, leader, (x, at + 4.0), wide, size);
        }
        return at;
    }
    let half = (wide - GAP) / 2.0;
    for row in leaders.chunks(2) {
        let ends = row.iter().enumerate().map(|(nth, leader)| {
            let x = x + nth as f64 * (half + GAP);
            let drawn = at + 4.0 + pen.picture((x, at + 4.0), WAYS[1], &leader.way);
            told(pen, leader, (x, drawn), half, size)
        });
        at = ends.fold(at, f64::max);
    }
    at
}

/// Share of a column that names have at most, and the room between a name and its words, pt.
const NAMES: f64 = 0.4;
const NAME_GAP: f64 = 6.0;

/// What the leaders are where no ways are drawn: words beside names. Returns where they end.
fn beside_names(pen: &mut Pen, leaders: &[Leader], (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let longest = leaders.iter().map(|own| pen.measure(&own.name, Type::bold(size))).fold(0.0, f64::max);
    let names = longest.min(NAMES * wide) + NAME_GAP;
    leaders.iter().fold(y, |at, leader| {
        let words = if leader.words.is_empty() { String::new() } else { format!("{}.", leader.words) };
        let named = pen.text((x, at + 1.0), names - NAME_GAP + 1.0, Type::bold(size), &leader.name);
        pen.text((x + names, at + 1.0), wide - names, Type::plain(size), &words).max(named)
    })
}

/// What a leader is, its way beside it; returns where it ends.
fn play(pen: &mut Pen, leader: &Leader, (x, y): (f64, f64), wide: f64, size: f64) -> f64 {
    let way = WAYS[0] + 8.0;
    let (text, wide) = if leader.way.is_empty() { (x, wide) } else { (x + way, wide - way) };
    let drawn = y + pen.picture((x, y), WAYS[0], &leader.way);
    told(pen, leader, (text, y), wide, size).max(drawn)
}

/// A leader's name and what it is.
fn told(pen: &mut Pen, leader: &Leader, at: (f64, f64), wide: f64, size: f64) -> f64 {
    let words = if leader.words.is_empty() { String::new() } else { format!("{}.", leader.words) };
    // Clear of the picture over it.
    let named = pen.text((at.0, at.1 + 2.0), wide, Type::bold(size), &leader.name);
    pen.text((at.0, named), wide, Type::plain(size), &words)
}

/// Share of the page that the names of the positions have, and shares that are tried for what they do without the ball: the
/// rest is for what they do with it.
const NAMED: f64 = 0.11;
const WITHOUT: [f64; 6] = [0.55, 0.5, 0.45, 0.4, 0.35, 0.3];

/// What each position does without and with the ball, as a table: its columns as wide as makes it shortest.
fn jobs(pen: &mut Pen, sheet: &Sheet, y: f64, size: f64) -> f64 {
    let drawn = |share: &f64| jobs_in(&mut Pen::new((pen.width, pen.height)), sheet, (y, *share), size);
    let shortest = WITHOUT.iter().min_by(|a, b| drawn(a).total_cmp(&drawn(b)));
    jobs_in(pen, sheet, (y, *shortest.unwrap_or(&WITHOUT[0])), size)
}

fn jobs_in(pen: &mut Pen, sheet: &Sheet, (y, without): (f64, f64), size: f64) -> f64 {
    let whole = pen.width - 2.0 * MARGIN;
    let columns = [NAMED * whole, without * whole, (1.0 - NAMED - without) * whole];
    let lefts = [MARGIN, MARGIN + columns[0], MARGIN + columns[0] + columns[1]];
    let row = |pen: &mut Pen, y: f64, how: Type, cells: [&str; 3]| {
        let ends = [0, 1, 2].map(|nth| pen.text((lefts[nth], y), columns[nth] - 8.0, how, cells[nth]));
        ends.into_iter().fold(y, f64::max)
    };
    let mut at = row(pen, y, Type::bold(size), ["Position", "Without the ball", BALL]);
    pen.rule(MARGIN, at, whole);
    at += 2.0;
    let small = smaller(size);
    let mut before: Option<&Position> = None;
    for position in &sheet.positions {
        let named = format!("{}  {}", position.number, position.name);
        let duties = match before {
            Some(other) if other.in_short == position.in_short => format!("As {}.", other.number),
            _ => position.in_short.join(" "),
        };
        before = Some(position);
        let told = if position.ball.is_empty() { SELDOM.to_owned() } else { position.ball.join(" ") };
        at = row(pen, at, Type::plain(small), [&named, &duties, &told]) + 1.0;
    }
    at
}

/// What is on the first page besides its words.
#[derive(Clone, Copy)]
struct Shares {
    /// The share of its width that its large picture has.
    pictured: f64,
    /// Whether the small ones are drawn.
    ways: bool,
    /// Whether it is told whose the looks are.
    looks: bool,
    /// Whether the costs are told.
    costs: bool,
}

/// What is tried, the fullest first; a smaller picture could not be read.
const PICTURED: [Shares; 7] = [
    Shares { pictured: 0.44, ways: true, looks: true, costs: true },
    Shares { pictured: 0.4, ways: true, looks: true, costs: true },
    Shares { pictured: 0.44, ways: true, looks: false, costs: true },
    Shares { pictured: 0.4, ways: true, looks: false, costs: true },
    Shares { pictured: 0.44, ways: false, looks: false, costs: true },
    Shares { pictured: 0.4, ways: false, looks: false, costs: true },
    Shares { pictured: 0.4, ways: false, looks: false, costs: false },
];
