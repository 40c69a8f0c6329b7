//! Zones: columns, anchors by ball place, takers and rules; sink, extension and the floor worked in.

use engine::math::{Vec2, max, vec2};
use engine::setup::{BallPlace, Column, Line, Pairing, PostStance, Zone};

use crate::asked::Default;
use crate::bundled;
use crate::fault::{nearest, one_of, slip};
use crate::key::Key;
use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::level::Layers;
use crate::source::{Desk, Named};
use crate::tree::{Data, Node};

/// The sink at which a zone's sunk places are written, metres.
const SUNK_AT_M: f32 = 1.2;
/// The front line sinks no nearer to the rim than this, metres.
const FRONT_STAYS_M: f32 = 1.0;

/// The post help rule of a scenario that names none.
pub(crate) const POST_HELP_DEFAULT: &str = "far-back-crosses";

/// Post stances by name.
const STANCES: [(&str, PostStance); 3] = [
    ("behind", PostStance::Behind),
    ("three-quarter", PostStance::ThreeQuarter),
    ("front", PostStance::Front),
];

/// How far the lines are moved from where the zone's file has them, metres.
struct Lines {
    sink_back: f32,
    sink_front: f32,
    extension: f32,
}

/// One row of a zone's table as written.
struct Row {
    anchors: [Vec2; 5],
    /// The back line's places at full sink.
    sunk: [Vec2; 5],
}

/// The columns of a zone by name, for takers and for programs.
#[derive(Clone)]
pub(crate) struct Columns {
    columns: [Column; 5],
    /// Names of other zones' columns, where those will do as well.
    elsewhere: Vec<String>,
}

impl Columns {
    /// The number of a column named as the trade does: `point`, `near wing`, `far back`; `near front`,
    /// `far front`, `near back` and `far back` name the pair of a line in any zone.
    pub fn find(&self, name: &str) -> Option<u8> {
        let exact = (0..5).find(|&c| self.name(c) == name);
        let line = |c: usize| match self.columns[c].line {
            Line::Front => "front",
            Line::Back => "back",
        };
        let by_line =
            || (0..5).find(|&c| self.side(c).is_some_and(|side| format!("{side} {}", line(c)) == name));
        exact.or_else(by_line).and_then(|c| u8::try_from(c).ok())
    }

    fn side(&self, column: usize) -> Option<&'static str> {
        match self.columns[column].pairing {
            Pairing::Lone => None,
            Pairing::Near(_) => Some("near"),
            Pairing::Far(_) => Some("far"),
        }
    }

    fn name(&self, column: usize) -> String {
        let name = &self.columns[column].name;
        self.side(column).map_or_else(|| name.clone(), |side| format!("{side} {name}"))
    }

    /// The column that a node names; the first column, and a fault, where it names none.
    pub fn read(&self, reader: &Reader<'_>, key: Key, node: &Node) -> u8 {
        reader.note_column(key);
        let mut known: Vec<String> = (0..5).map(|c| self.name(c)).collect();
        known.extend(["near front", "far front", "near back", "far back"].map(String::from));
        known.extend(self.elsewhere.iter().cloned());
        let mut seen = Vec::new();
        known.retain(|name| {
            !seen.contains(name) && {
                seen.push(name.clone());
                true
            }
        });
        let words = || known.iter().map(String::as_str);
        let Data::Text(text) = &node.data else {
            reader.refuse(key, node, one_of(words()), None);
            return 0;
        };
        if let Some(column) = self.find(text) {
            return column;
        }
        // Seen by itself, a file may be meant for a zone that is not known here: only slips are refused.
        let welcome = known.contains(text) || !words().any(|word| slip(text, word));
        if self.elsewhere.is_empty() || !welcome {
            reader.refuse(key, node, one_of(words()), nearest(text, words()));
        }
        0
    }

    /// The same columns for a file that is seen by itself, whose zone is not known: names of other zones'
    /// columns will do.
    pub fn with_others(self) -> Columns {
        let mut elsewhere = Vec::new();
        for name in bundled::names("zones") {
            let text = bundled::find("zones", name).unwrap_or_default();
            let Ok(document) = toml_edit::Document::parse(text) else { continue };
            let lines = document.get("columns").and_then(toml_edit::Item::as_table_like);
            for (_, line) in lines.iter().flat_map(|lines| lines.iter()) {
                let names = line.as_array().into_iter().flatten().filter_map(toml_edit::Value::as_str);
                elsewhere.extend(names.map(str::to_owned));
            }
        }
        Columns { elsewhere, ..self }
    }
}

/// Reads a zone's file, the scenario's `[zone]` table and the defending level's `[defence]` table.
pub(crate) fn read(
    desk: &Desk,
    file: &Named,
    choice: Option<Reader<'_>>,
    level: Option<Reader<'_>>,
    fit: Fit,
) -> (Zone, Columns) {
    let root = Reader::root(desk, &file.root);
    let columns = columns(&root);
    let empty = Node { origin: file.root.origin, data: Data::Table(Vec::new()) };
    let choice = choice.unwrap_or_else(|| root.nested(&empty, "zone".into(), None));
    let metres = |name, high, doc| choice.number_or(Key::number(name, "m", 0.0, high, doc), 0.0);
    let lines = Lines {
        sink_back: metres("sink_back_m", 1.5, "How far the back line sags toward the rim."),
        sink_front: metres("sink_front_m", 1.5, "How far the front line sags toward the rim."),
        extension: metres("extension_m", 2.0, "How much farther out the front line picks up the ball."),
    };

    let mut rows: [Row; BallPlace::COUNT] = std::array::from_fn(|_| Row::empty());
    let mut ball_places = [Vec2::RIM; BallPlace::COUNT];
    let mut takers = [[0; 2]; BallPlace::COUNT];
    let mut post_stance = [PostStance::Behind; BallPlace::COUNT];
    if let Some(table) = root.table(Key::other("rows", "One row for each ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let Some(row) = table.table(Key::other(name, "Where the zone stands with the ball here: a table [rows.NAME] for each ball place (a bundled zone has one to copy).")) else {
                continue;
            };
            rows[place] = row_of(&row, &columns);
            let ball = Key::place("ball", "Where the ball is, on the right.");
            ball_places[place] = fit.on_floor(&row, ball, fit.attacker(row.place(ball)));
            takers[place] = two_takers(&row, &columns);
            let stance = Key::other("post_stance", "How a post is played with the ball here.");
            post_stance[place] = row.word_or(stance, &STANCES, PostStance::Behind);
        }
    }
    if let Some(stances) = choice.maybe_table(Key::other("post_stance", "Post stance by ball place.")) {
        for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
            let key = Key::other(name, "How a post is played with the ball here.");
            post_stance[place] = stances.word_over(key, &STANCES, (post_stance[place], Default::FileBelow));
        }
    }

    let corner = BallPlace::Corner as usize;
    let helper = post_help(&root, &choice, &columns, &mut rows[corner], &mut takers);
    let bumped = corner_rule(&root, &choice, &columns, &mut rows[corner], &mut takers);
    let placed = |row: &Row, place: BallPlace, taker: u8| place_row(row, place, taker, &columns, &lines, fit);
    let corner_after_bump = bumped.as_ref().map(|(row, taker)| placed(row, BallPlace::Corner, *taker));
    let anchors = BallPlace::ALL.map(|place| placed(&rows[place as usize], place, takers[place as usize][0]));

    let defence = Layers::new(Some(choice), level);
    let share = |name, doc| defence.number(Key::share(name, doc));
    let number = |name, unit, high, doc| defence.number(Key::number(name, unit, 0.0, high, doc));
    let zone = Zone {
        name: file.name.clone(),
        columns: columns.columns.clone(),
        anchors,
        ball_places,
        corner_after_bump,
        takers,
        corner_taker_after_bump: bumped.map_or(takers[corner][0], |(_, taker)| taker),
        helper,
        bump_delay_s: number("bump_delay_s", "s", 5.0, "Delay of the bump after the wing could have come."),
        on_ball_m: number("on_ball_m", "m", 4.0, "Distance kept from the ball by its guard."),
        closeout_stop_m: number("closeout_stop_m", "m", 3.0, "Where a closeout stops short of the receiver."),
        carry_m: number("carry_m", "m", 12.0, "How far from his anchor a defender follows an attacker."),
        match_up: share("match_up", "0 pure zone, 1 man-to-man inside the shape."),
        denial: share("denial", "How far off-ball defenders step into the passing lane, as a share."),
        post_stance,
    };
    (zone, columns)
}

impl Row {
    fn empty() -> Row {
        Row { anchors: [Vec2::RIM; 5], sunk: [Vec2::RIM; 5] }
    }
}

/// The five columns: front line first, then back line; `near x` and `far x` are a pair.
fn columns(root: &Reader<'_>) -> Columns {
    let mut found: Vec<(String, Line)> = Vec::new();
    let table = root.table(Key::other("columns", "The defenders' jobs, by line."));
    for (key, line) in [
        (Key::other("front", "The front line's columns."), Line::Front),
        (Key::other("back", "The back line's columns."), Line::Back),
    ] {
        let Some(table) = &table else { continue };
        for node in table.list(key) {
            match table.text_in(key, node, "a name such as \"near wing\"") {
                Some(name) if name.trim().is_empty() => {
                    table.refuse(key, node, "a name such as \"near wing\"".into(), None);
                }
                Some(name) => found.push((name.to_owned(), line)),
                None => {}
            }
        }
    }
    let names: Vec<String> = found.iter().map(|(name, _)| name.clone()).collect();
    let partner = |name: &str| names.iter().position(|n| n == name).and_then(|at| u8::try_from(at).ok());
    let column = |at: usize| {
        let (name, line) = found.get(at).cloned().unwrap_or_else(|| ("nobody".into(), Line::Back));
        let near =
            name.strip_prefix("near ").and_then(|n| Some((n, Pairing::Near(partner(&format!("far {n}"))?))));
        let far = || {
            name.strip_prefix("far ").and_then(|n| Some((n, Pairing::Far(partner(&format!("near {n}"))?))))
        };
        let (short, pairing) = near.or_else(far).unwrap_or((&name, Pairing::Lone));
        Column { name: short.to_owned(), line, pairing }
    };
    let columns = Columns { columns: std::array::from_fn(column), elsewhere: Vec::new() };
    let twice = names.iter().enumerate().any(|(at, name)| names[..at].contains(name));
    let unpaired = (0..5).any(|c| {
        let column = &columns.columns[c];
        column.pairing == Pairing::Lone
            && (column.name.starts_with("near ") || column.name.starts_with("far "))
    });
    if (found.len() != 5 || twice || unpaired)
        && let Some(table) = &table
    {
        let key = Key::other("columns", "The defenders' jobs, by line.");
        root.refuse(key, table.node(), "five different names, `near` and `far` ones in pairs".into(), None);
    }
    columns
}

/// Reads `anchors` and `sunk`.
fn row_of(reader: &Reader<'_>, columns: &Columns) -> Row {
    let mut row = Row::empty();
    let key = Key::place("anchors", "Place of each column, in the columns' order.");
    let allowed = "five places [x, y], one for each column";
    match reader.places(key, (5, true), allowed.into()) {
        Some(places) => row.anchors.iter_mut().zip(places).for_each(|(to, place)| *to = place),
        None if reader.node().get(key.name).is_none() => reader.missing(key, allowed.into()),
        None => {}
    }
    row.sunk = row.anchors;
    let key = Key::place("sunk", "Place of each column of the back line at a sink of 1.2 m.");
    let back: Vec<usize> = (0..5).filter(|&c| columns.columns[c].line == Line::Back).collect();
    let allowed = format!("{} places [x, y], one for each column of the back line", back.len());
    for (&column, place) in
        back.iter().zip(reader.places(key, (back.len(), false), allowed).unwrap_or_default())
    {
        row.sunk[column] = place;
    }
    row
}

/// Reads `takers`: one or two columns, likeliest first.
fn two_takers(reader: &Reader<'_>, columns: &Columns) -> [u8; 2] {
    let key = Key::other("takers", "Columns that may take the ball here, likeliest first.");
    let named: Vec<u8> = reader.list(key).iter().map(|node| columns.read(reader, key, node)).collect();
    match named.as_slice() {
        [only] => [*only; 2],
        [first, second] => [*first, *second],
        _ => {
            reader.missing(key, "one or two columns, such as [\"near back\"]".into());
            [0; 2]
        }
    }
}

/// One rule of a zone's file: its row for the corner, if it has one, and the column that it names.
struct Rule {
    row: Option<Row>,
    column: Option<u8>,
    after_bump: bool,
}

/// Reads every rule of a table, and picks the one that the scenario names.
fn chosen(
    root: &Reader<'_>,
    tables: Key,
    column: Key,
    (choice, rule, default): (&Reader<'_>, Key, &str),
    columns: &Columns,
) -> Option<Rule> {
    let table = root.table(tables)?;
    let mut rules: Vec<(&str, Rule)> = Vec::new();
    for entry in table.entries() {
        let Some(t) = table.table_in(tables, &entry.node, table.path_of(&entry.key)) else { continue };
        let row = t.find("anchors").map(|_| row_of(&t, columns));
        let named = t.find(column.name).map(|node| columns.read(&t, column, node));
        let after = Key::other("after_bump", "True where this holds only once the back has been bumped off.");
        rules.push((&entry.key, Rule { row, column: named, after_bump: t.flag(after) }));
    }
    let names: Vec<&str> = rules.iter().map(|(name, _)| *name).collect();
    let name = choice.name_or(rule, &names, default)?;
    let found = rules.into_iter().find(|(known, _)| *known == name).map(|(_, rule)| rule);
    if found.is_none() {
        root.refuse(tables, table.node(), format!("a rule `{name}` among them"), None);
    }
    found
}

/// The post help rule: who helps, and the corner's row under it.
fn post_help(
    root: &Reader<'_>,
    choice: &Reader<'_>,
    columns: &Columns,
    corner: &mut Row,
    takers: &mut [[u8; 2]; BallPlace::COUNT],
) -> u8 {
    let tables = Key::other("post_help", "The post help rules, each with its corner row.");
    let column = Key::other("helper", "The column that drops to the low post.");
    let rule = Key::other("post_help_rule", "Who takes the low post once the near back has gone out.");
    let Some(rule) = chosen(root, tables, column, (choice, rule, POST_HELP_DEFAULT), columns) else {
        return 0;
    };
    if let Some(row) = rule.row {
        *corner = row;
    }
    let helper = rule.column.unwrap_or(takers[BallPlace::LowPost as usize][0]);
    takers[BallPlace::LowPost as usize][1] = helper;
    helper
}

/// The corner rule: changes the corner's row and taker, or gives the row and taker after the bump.
fn corner_rule(
    root: &Reader<'_>,
    choice: &Reader<'_>,
    columns: &Columns,
    corner: &mut Row,
    takers: &mut [[u8; 2]; BallPlace::COUNT],
) -> Option<(Row, u8)> {
    let tables = Key::other("corner", "The corner rules, each with its row and taker.");
    let column = Key::other("taker", "The column that takes the ball in the corner.");
    let rule = Key::other("corner_rule", "Who takes a catch in the corner.");
    let rule = chosen(root, tables, column, (choice, rule, "back-out"), columns)?;
    let place = BallPlace::Corner as usize;
    let taker = rule.column.unwrap_or(takers[place][0]);
    if rule.after_bump {
        return rule.row.map(|row| (row, taker));
    }
    if let Some(row) = rule.row {
        *corner = row;
    }
    takers[place] = [taker, if rule.column.is_some() { taker } else { takers[place][1] }];
    None
}

/// A row with sink, extension and the floor worked in. Sink leaves the one on the ball where he is.
fn place_row(
    row: &Row,
    place: BallPlace,
    taker: u8,
    columns: &Columns,
    lines: &Lines,
    fit: Fit,
) -> [Vec2; 5] {
    let out = matches!(place, BallPlace::Top | BallPlace::Slot | BallPlace::Wing);
    std::array::from_fn(|c| {
        let normal = row.anchors[c];
        let on_ball = c == usize::from(taker);
        let at = match columns.columns[c].line {
            Line::Back if on_ball => normal,
            Line::Back => {
                let sunk = normal + (row.sunk[c] - normal) * (lines.sink_back / SUNK_AT_M);
                vec2(sunk.x, if normal.y >= 0.0 { max(sunk.y, 0.0) } else { normal.y })
            }
            Line::Front => {
                let out_m = if out { lines.extension } else { 0.0 };
                let in_m = if on_ball { 0.0 } else { lines.sink_front };
                along_radius(normal, out_m - in_m)
            }
        };
        fit.defender(at)
    })
}

/// A place moved straight away from the rim (toward it, if negative), never into it or behind it.
fn along_radius(p: Vec2, move_m: f32) -> Vec2 {
    if move_m == 0.0 {
        return p;
    }
    let from_rim = p.len();
    let nearest = if from_rim < FRONT_STAYS_M { from_rim } else { FRONT_STAYS_M };
    p.unit_or(vec2(0.0, 1.0)) * max(from_rim + move_m, nearest)
}
