//! A squad: a roster of more players than play at a time, each with the places that he may take instead of a role.

use std::path::Path;
use std::sync::Arc;

use super::{PLAYER, named};
use crate::fault::{Fault, Faults, Problem, one_of};
use crate::read::Reader;
use crate::rows;
use crate::shelf::Source;
use crate::source::Desk;
use crate::tree::{Data, Node};

/// Where a player may play: two guards, a rover, two posts.
pub const WHERE: [&str; 3] = ["guard", "rover", "post"];

/// What the key is for.
pub(super) const PLAYS: &str = "Of a squad: where he may play, such as guard or \"guard, rover\"; of guard, rover and post. Empty: anywhere. \
                                A roster has roles and needs none.";

/// The keys that are read of a squad.
const READ: [&str; 3] = ["name", "number", "plays"];

/// A player of a squad.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// His name, or his number.
    pub name: String,
    /// Which of [`WHERE`] he may play.
    pub plays: [bool; WHERE.len()],
    /// Where his row begins in the text.
    row: usize,
}

/// The players to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Squad {
    /// Them, in the order of the file.
    pub candidates: Vec<Candidate>,
    source: Arc<Source>,
}

/// Reads the rows of a squad.
pub(crate) fn read(desk: &Desk, rows: &Node) -> Vec<Candidate> {
    let mut found: Vec<Candidate> = Vec::new();
    for (nth, row) in rows.members().iter().enumerate() {
        // As a player of any role; times are held against others' by whoever plays with him.
        super::judge_row(desk, row, &named(row, nth));
        let own = row.entries().iter().filter(|entry| READ.contains(&entry.key.as_str())).cloned();
        let own = Node { origin: row.origin, data: Data::Table(own.collect()) };
        let reader = Reader::over(desk, &own, &PLAYER, named(row, nth));
        if let Some(entry) = row.get("role") {
            let allowed = "no role: in a squad `plays` says where he may play".to_owned();
            reader.refuse("role", &entry.node, allowed, None);
        }
        let name = reader.maybe_text("name").map(str::to_owned);
        let number = reader.maybe_whole("number").map(|number| format!("no. {number}"));
        let name = name.or(number).unwrap_or_default();
        if name.is_empty() {
            reader.missing("name", "a name or a number, by which he is told from the others".into());
        }
        if !name.is_empty() && found.iter().any(|other| other.name == name) {
            let key = if row.get("name").is_some() { "name" } else { "number" };
            if let Some(entry) = row.get(key) {
                reader.refuse(key, &entry.node, "a name or a number that no other player has".into(), None);
            }
        }
        let plays = plays(&reader).unwrap_or([true; WHERE.len()]);
        found.push(Candidate { name, plays, row: row.origin.start });
    }
    found
}

/// Where a player may play, if it is said; a word that is none of [`WHERE`] is refused.
pub(super) fn plays(reader: &Reader<'_>) -> Option<[bool; WHERE.len()]> {
    let said = reader.maybe_text("plays")?.to_lowercase();
    let words = said.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
    let mut plays = [false; WHERE.len()];
    for word in words.filter(|word| !matches!(*word, "or" | "and")) {
        match WHERE.iter().position(|own| own == &word.trim_end_matches('s')) {
            Some(at) => plays[at] = true,
            None => {
                let node = &reader.node().get("plays")?.node;
                let near = crate::fault::nearest(word, WHERE.iter().copied());
                reader.refuse("plays", node, format!("words of {}", one_of(WHERE.iter().copied())), near);
                return None;
            }
        }
    }
    plays.contains(&true).then_some(plays)
}

impl Squad {
    pub(crate) fn new(source: Arc<Source>, candidates: Vec<Candidate>) -> Result<Self, Faults> {
        if !candidates.is_empty() {
            return Ok(Self { candidates, source });
        }
        let problem = Problem::NotAllowed {
            found: "no player".into(),
            allowed: "a row a player under the line of headings".into(),
            nearest: None,
        };
        Err(Faults::one(Fault::of_file(source.name.clone(), problem)))
    }

    /// A roster of five of them, each with his role: a text that stands for the file of a path. Every cell stands where it
    /// stands in the squad, so that what is said of it is found there: roles are a column behind the others.
    #[must_use]
    pub fn roster(&self, five: &[(usize, &str)], path: &Path) -> Source {
        self.source.made_of(path, self.text(five))
    }

    /// Its text.
    #[must_use]
    pub fn text(&self, five: &[(usize, &str)]) -> String {
        let whole = &self.source.text;
        let sign = rows::sign(whole);
        let records = rows::parsed(whole);
        let Some(head) = records.first() else { return String::new() };
        let end = |record: &[rows::Cell]| record.last().map_or(0, |cell| cell.end);
        let mut text = format!("{}{sign}role", &whole[..end(head)]);
        let mut at = end(head);
        for (nth, candidate) in self.candidates.iter().enumerate() {
            let start = candidate.row;
            let Some(record) = records.iter().find(|record| record[0].start == start) else { continue };
            text.push_str(&whole[at..start]);
            at = end(record);
            match five.iter().find(|(player, _)| *player == nth) {
                Some((_, role)) => {
                    // A row may end before its last cells.
                    let lacking = head.len().saturating_sub(record.len());
                    let signs: String = std::iter::repeat_n(sign, lacking + 1).collect();
                    text.push_str(&format!("{}{signs}{role}", &whole[start..at]));
                }
                None => text.extend(whole[start..at].chars().filter(|letter| *letter == '\n')),
            }
        }
        text + &whole[at..]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::experiment_beside;
    use crate::tables::squad;

    const TEN: &str = "\u{feff}# ours\nname;number;open threes;plays\nKit;;38 of 95;rover or guard\n;4;;guards\n\n\"Bo; jr\";7;;\n\
                       ;11;30 of 80;Guard\n;32;;post\n;35;;post, rover\n";

    fn of(text: &str) -> Result<Squad, String> {
        let home = tempfile::tempdir().expect("a folder");
        let file = home.path().join("squad.csv");
        std::fs::write(&file, text).expect("a written file");
        squad(&file)
            .map_err(|faults| faults.all.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
    }

    #[test]
    fn five_of_a_squad_make_a_roster_whose_lines_stand_where_they_stood() {
        let squad = of(TEN).unwrap();
        let told: Vec<(&str, [bool; 3])> =
            squad.candidates.iter().map(|own| (own.name.as_str(), own.plays)).collect();
        assert_eq!(told[0], ("Kit", [true, true, false]));
        assert_eq!((told[1], told[2]), (("no. 4", [true, false, false]), ("Bo; jr", [true; 3])));
        assert_eq!(told[5], ("no. 35", [false, true, true]));
        let five =
            [(1, "lead-guard"), (3, "off-guard"), (2, "rover"), (4, "rover-side-post"), (5, "other-post")];
        let text = squad.text(&five);
        assert_eq!(text.lines().count(), TEN.lines().count());
        assert_eq!(text.lines().nth(1), Some("name;number;open threes;plays;role"));
        assert_eq!(text.lines().nth(5), Some("\"Bo; jr\";7;;;rover"));
        assert_eq!(text.lines().nth(2), Some(""), "who does not play leaves an empty line");
        let file = Path::new("who.toml");
        let question =
            "scenario = \"sunken-122\"\n[[variant]]\nname = \"a\"\nset = { roster = \"five.csv\" }\n";
        let beside = vec![squad.roster(&five, Path::new("five.csv"))];
        let setup = experiment_beside(question.into(), file, beside).unwrap().variants[0].setup.clone();
        let names: Vec<&str> =
            setup.individuals.iter().flatten().map(|player| player.name.as_str()).collect();
        assert_eq!(names, ["no. 4", "no. 11", "Bo; jr", "no. 32", "no. 35"]);
    }

    #[test]
    fn roles_doubles_and_other_places_are_refused_where_they_stand() {
        for (text, told) in [
            ("role,name\nrover,Kit\n", "no role"),
            ("name,plays\nKit,\nKit,post\n", "no other player has"),
            ("name,plays\nKit,centre\n", "guard, rover or post"),
            ("name,plays\n,guard\n", "a name or a number"),
            // At its own cell, and of everybody, whether he would be tried or not.
            (
                "name,plays,open_threes\nKit,rover,1.7\nMo,guard,8-Mar\n",
                "squad.csv:2:11: player Kit.open_threes: found 1.7",
            ),
            (
                "name,plays,open_threes\nKit,rover,\nMo,guard,8-Mar\n",
                "squad.csv:3:10: player Mo.open_threes: found 8-Mar",
            ),
            ("name,plays\n", "a row a player"),
            ("", "empty file"),
        ] {
            let said = of(text).unwrap_err();
            assert!(said.contains(told), "{text:?}: {said}");
        }
    }
}
