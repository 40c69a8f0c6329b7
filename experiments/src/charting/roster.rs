//! The players' counts with those of a chart added: a roster, a row a player.
//!
//! Shots are added only where every one was charted. Who charts how a possession ended has all that went in and not all that
//! missed, for a miss that was rebounded ends nothing: his counts would make everybody a better shooter than he is.
//!
//! Only counts are added to; a share that was stated without one says nothing of how many attempts it is worth. How few
//! attempts are drawn toward the level is up to whoever reads the roster, as ever.

use engine::ends::Spot;
use engine::shots::ShotSpace;
use scenarios::{Attempt, Charted, ROSTER_SHOTS, Wearer, as_key};

use crate::places::{ATTACKERS, position_words};
use crate::players::PlayerLine;

/// Cells of a table, its headings first.
type Cells = Vec<Vec<String>>;

/// A roster with what was charted, and what became of it in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Updated {
    /// The cells of the new table.
    pub cells: Cells,
    /// A sentence for each count that has changed, and for each that could not.
    pub words: Vec<String>,
}

/// The keys under which a shot, or free throws, count; of threes those that the player's row has.
const KEYS: [&str; 6] = ["rim", "short", "mid_range", "threes", "open_threes", "free_throws"];

/// Made and attempted of a key by a role.
fn charted_of(key: &str, role: usize, charted: &[&Charted]) -> (u32, u32) {
    let mut sum = (0, 0);
    for own in charted {
        if key == "free_throws" {
            let (made, shot) = own.line.filter(|_| own.who == Some(role)).unwrap_or_default();
            sum = (sum.0 + made, sum.1 + shot);
            continue;
        }
        for shot in own.shots().filter(|shot| shot.who == Some(role) && counts(key, shot)) {
            sum = (sum.0 + u32::from(shot.end.is_made()), sum.1 + 1);
        }
    }
    sum
}

/// Whether a shot counts under a key. A two from the block is a short one, one from farther out a longer one.
fn counts(key: &str, own: &Attempt) -> bool {
    let end = own.end;
    let two = |is_it: fn(Spot) -> bool| !end.is_three() && own.spot.is_some_and(is_it);
    match key {
        "rim" => two(|spot| spot == Spot::Rim),
        "short" => two(|spot| spot == Spot::LowPost),
        "mid_range" => two(|spot| !matches!(spot, Spot::Rim | Spot::LowPost)),
        "threes" => end.is_three(),
        _ => end.is_three() && own.space == Some(ShotSpace::WideOpen),
    }
}

/// The roster that a result was made with, as far as its table of players has it.
pub(crate) fn rows_of(players: &[PlayerLine], variant: &str) -> Cells {
    let mut cells = vec![vec!["role".to_owned(), "name".to_owned(), "number".to_owned()]];
    for position in ATTACKERS {
        let own: Vec<&PlayerLine> =
            players.iter().filter(|line| line.variant == variant && line.position == position).collect();
        let name = own.first().map_or("", |line| line.name.as_str());
        // A number stands for the name where there is none.
        let number = name.strip_prefix("no. ");
        let name = if number.is_some() { "" } else { name };
        cells.push(vec![position.to_owned(), name.to_owned(), number.unwrap_or("").to_owned()]);
        for line in own {
            let key = ROSTER_SHOTS.iter().find(|(_, words)| *words == line.shots).map(|(key, _)| *key);
            if let Some(key) = key {
                let cell = match (line.made, line.attempted, line.share.0) {
                    (Some(made), Some(attempted), _) => format!("{made} of {attempted}"),
                    (_, _, Some(share)) => format!("{share:.3}"),
                    _ => String::new(),
                };
                let at = column(&mut cells, key);
                let last = cells.len() - 1;
                put(&mut cells[last], at, cell);
            }
        }
    }
    cells
}

/// The column of a key, a new one where there is none.
fn column(cells: &mut Cells, key: &str) -> usize {
    let found = cells[0].iter().position(|heading| as_key(heading) == key);
    found.unwrap_or_else(|| {
        cells[0].push(key.to_owned());
        cells[0].len() - 1
    })
}

fn put(row: &mut Vec<String>, at: usize, cell: String) {
    if row.len() <= at {
        row.resize(at + 1, String::new());
    }
    row[at] = cell;
}

/// The cell of a player's row under a heading, if anything stands there.
fn cell<'c>(cells: &'c Cells, row: usize, key: &str) -> Option<&'c str> {
    let at = cells[0].iter().position(|heading| as_key(heading) == key)?;
    cells[row].get(at).map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
}

/// The players of a roster as a chart may name them.
pub(crate) fn wearers(cells: &Cells) -> Vec<Wearer> {
    let of = |row: usize| {
        let role = as_key(cell(cells, row, "role")?);
        Some(Wearer {
            name: cell(cells, row, "name").unwrap_or("").to_owned(),
            number: cell(cells, row, "number").and_then(|number| number.parse().ok()),
            role: ATTACKERS.iter().position(|position| as_key(position) == role)?,
        })
    };
    (1..cells.len()).filter_map(of).collect()
}

/// What is odd about what a player is said to have shot, by his licence.
fn against_licence(cells: &Cells, row: usize, position: &str, threes: u32) -> Option<String> {
    let licence = as_key(cell(cells, row, "licence")?);
    let forbids = matches!(licence.as_str(), "no_threes" | "inside_only" | "none");
    (forbids && threes > 0).then(|| {
        format!(
            "{}: {threes} threes charted, though his licence is {}: was it he?",
            called(cells, row, position),
            licence.replace('_', " ")
        )
    })
}

/// A roster with what was charted added to its counts: free throws, and shots where all of them were charted.
pub fn updated(mut cells: Cells, charted: &[&Charted], every_shot: bool) -> Updated {
    let mut words = Vec::new();
    for (role, position) in ATTACKERS.into_iter().enumerate() {
        let row = row_of(&mut cells, position);
        let (_, threes) = charted_of("threes", role, charted);
        words.extend(against_licence(&cells, row, position, threes));
        for key in KEYS.into_iter().filter(|key| every_shot || *key == "free_throws") {
            let more = charted_of(key, role, charted);
            let three = if key == "threes" { "open_threes" } else { "threes" };
            let other_has = key.ends_with("threes") && has(&mut cells, row, three);
            let own_has = has(&mut cells, row, key);
            // Threes and open threes set the same; who has neither is given all of them.
            let is_it = own_has || !other_has && key != "open_threes";
            if more.1 > 0 && is_it {
                words.push(add(&mut cells, (row, position), key, more));
            }
        }
    }
    let width = cells[0].len();
    cells.iter_mut().for_each(|row| row.resize(width, String::new()));
    Updated { cells, words }
}

/// The row of a position, a new one where there is none.
fn row_of(cells: &mut Cells, position: &str) -> usize {
    let at = column(cells, "role");
    let is_it = |row: &Vec<String>| row.get(at).is_some_and(|role| as_key(role) == as_key(position));
    if let Some(row) = cells.iter().skip(1).position(is_it) {
        return row + 1;
    }
    let mut row = Vec::new();
    put(&mut row, at, position.to_owned());
    cells.push(row);
    cells.len() - 1
}

/// Whether a player's row says anything of a kind of shots.
fn has(cells: &mut Cells, row: usize, key: &str) -> bool {
    [key.to_owned(), format!("{key}_made")].iter().any(|key| {
        let at = cells[0].iter().position(|heading| as_key(heading) == *key);
        at.and_then(|at| cells[row].get(at)).is_some_and(|cell| !cell.trim().is_empty())
    })
}

/// A position with the name or number of who plays it.
fn called(cells: &Cells, row: usize, position: &str) -> String {
    let number = || cell(cells, row, "number").map(|number| format!("no. {number}"));
    let name = cell(cells, row, "name").map(str::to_owned).or_else(number);
    name.map_or_else(|| position_words(position), |name| format!("{} ({name})", position_words(position)))
}

/// Adds to a count; says what it was and is.
fn add(cells: &mut Cells, (row, position): (usize, &str), key: &str, more: (u32, u32)) -> String {
    let who = called(cells, row, position);
    let shots = ROSTER_SHOTS.iter().find(|(own, _)| *own == key).map_or(key, |(_, words)| *words);
    let charted = format!("{who}: {} of {} {shots} charted", more.0, more.1);
    let parts = [format!("{key}_made"), format!("{key}_attempted")];
    let at = parts.each_ref().map(|part| cells[0].iter().position(|heading| as_key(heading) == *part));
    if let [Some(made), Some(attempted)] = at {
        let number = |at: usize| cells[row].get(at).and_then(|cell| cell.trim().parse::<u32>().ok());
        if let (Some(had), Some(of)) = (number(made), number(attempted)) {
            put(&mut cells[row], made, had.saturating_add(more.0).to_string());
            put(&mut cells[row], attempted, of.saturating_add(more.1).to_string());
            return format!(
                "{charted}; {had} of {of} before, {} of {} now.",
                had.saturating_add(more.0),
                of.saturating_add(more.1)
            );
        }
    }
    let at = column(cells, key);
    let cell = cells[row].get(at).map_or("", |cell| cell.trim()).to_owned();
    let counted = cell.split_once(" of ").or_else(|| cell.split_once('/'));
    let counted = counted.and_then(|(made, of)| Some((made.trim().parse().ok()?, of.trim().parse().ok()?)));
    match (cell.is_empty(), counted) {
        (true, _) => {
            put(&mut cells[row], at, format!("{} of {}", more.0, more.1));
            format!("{charted}; none counted before.")
        }
        (false, Some((had, of))) => {
            let (had, of): (u32, u32) = (had, of);
            let now = format!("{} of {}", had.saturating_add(more.0), of.saturating_add(more.1));
            put(&mut cells[row], at, now.clone());
            format!("{charted}; {cell} before, {now} now.")
        }
        (false, None) => format!(
            "{charted}; not added: {cell} was stated without a count. Give made and attempted instead, and the chart counts."
        ),
    }
}

#[cfg(test)]
mod tests {
    use engine::ends::End;

    use super::*;

    fn cells(text: &str) -> Cells {
        text.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect()
    }

    fn shot(end: End, who: usize, spot: Spot, space: ShotSpace) -> Charted {
        Charted { end: Some(end), who: Some(who), spot: Some(spot), space: Some(space), ..Charted::default() }
    }

    #[test]
    fn counts_are_added_to_and_what_else_stands_there_stays() {
        let roster = cells(
            "role,name,height_m,open threes,rim_made,rim_attempted,free_throws\nrover,Kit,1.88,38 of 95,,,0.7\n\
             other post,,,,10,20,",
        );
        let line =
            Charted { end: Some(End::FreeThrows), who: Some(2), line: Some((1, 2)), ..Charted::default() };
        let charted = [
            shot(End::ThreeMade, 2, Spot::Wing, ShotSpace::WideOpen),
            shot(End::ThreeMissed, 2, Spot::Wing, ShotSpace::Guarded),
            shot(End::TwoMade, 4, Spot::Rim, ShotSpace::Guarded),
            shot(End::ThreeMissed, 0, Spot::Top, ShotSpace::Open),
            line,
        ];
        let all: Vec<&Charted> = charted.iter().collect();
        let Updated { cells, words } = updated(roster, &all, true);
        let told: Vec<String> = cells.iter().map(|row| row.join(",")).collect();
        // Of a player whose open threes are counted the guarded one is none; who has no count of either has all.
        assert_eq!(
            told,
            [
                "role,name,height_m,open threes,rim_made,rim_attempted,free_throws,threes",
                "rover,Kit,1.88,39 of 96,,,0.7,",
                "other post,,,,11,21,,",
                "lead-guard,,,,,,,0 of 1",
                "off-guard,,,,,,,",
                "rover-side-post,,,,,,,",
            ]
        );
        assert_eq!(words.len(), 4, "{words:?}");
        assert!(words.iter().any(|words| words.contains("0.7 was stated without a count")), "{words:?}");
        assert!(
            words.contains(
                &"rover (Kit): 1 of 1 open threes charted; 38 of 95 before, 39 of 96 now.".to_owned()
            )
        );
    }

    #[test]
    fn the_table_of_players_of_a_result_makes_a_roster() {
        let line = |position: &str, name: &str, shots: &str, made| PlayerLine {
            variant: "plain".into(),
            position: position.into(),
            name: name.into(),
            shots: shots.into(),
            made,
            attempted: made.map(|made| 2 * made),
            share: crate::output::Decimal(Some(0.5)),
            ..PlayerLine::default()
        };
        let players = [
            line("rover", "Kit", "open threes", Some(40)),
            line("other-post", "no. 35", "shots at the rim", None),
        ];
        let told: Vec<String> = rows_of(&players, "plain").iter().map(|row| row.join(",")).collect();
        let expected = [
            "role,name,number,open_threes,rim",
            "lead-guard,,",
            "off-guard,,",
            "rover,Kit,,40 of 80",
            "rover-side-post,,",
            "other-post,,35,,0.500",
        ];
        assert_eq!(told, expected);
        let wearer = |name: &str, number, role| Wearer { name: name.into(), number, role };
        let known = wearers(&rows_of(&players, "plain"));
        assert_eq!((&known[2], &known[4]), (&wearer("Kit", None, 2), &wearer("", Some(35), 4)));
    }

    #[test]
    fn shots_count_only_where_all_were_charted_and_then_those_before_the_last_too() {
        let roster = || {
            cells("role,number,threes,free_throws,licence\nrover,7,30 of 90,,\nother-post,35,,,inside-only")
        };
        let miss = |who| Attempt { end: End::ThreeMissed, who: Some(who), spot: None, space: None };
        let charted = [
            Charted {
                earlier: vec![miss(2), miss(4)],
                ..shot(End::ThreeMade, 2, Spot::Wing, ShotSpace::Open)
            },
            Charted { end: Some(End::FreeThrows), who: Some(2), line: Some((1, 2)), ..Charted::default() },
        ];
        let all: Vec<&Charted> = charted.iter().collect();
        let last = updated(roster(), &all, false);
        assert_eq!(last.cells[1].join(","), "rover,7,30 of 90,1 of 2,");
        let every = updated(roster(), &all, true);
        assert_eq!(every.cells[1].join(","), "rover,7,31 of 92,1 of 2,");
        assert!(every.words.iter().any(|words| words.starts_with("rover (no. 7): 1 of 2 threes charted")));
        let odd = "other post (no. 35): 1 threes charted, though his licence is inside only: was it he?";
        assert!(every.words.iter().any(|words| words == odd), "{:?}", every.words);
    }
}
