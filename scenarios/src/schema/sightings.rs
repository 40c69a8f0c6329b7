//! Sightings of an opponent: a table of comma-separated values, filled in by hand while watching, a row for each thing that a
//! zone may be seen to do, with how often it was seen.

use crate::declared::{Field, Kind, Part, Table};
use crate::fault::{nearest, one_of};
use crate::read::Reader;
use crate::text::Text;
use crate::tree::Node;

/// What is looked for, and what may be seen.
#[derive(Debug)]
pub struct Asked {
    /// Its key in the table.
    pub key: &'static str,
    /// When to look, and for what.
    pub words: &'static str,
    /// What may be seen: keys with words.
    pub answers: &'static [(&'static str, &'static str)],
}

/// Everything that is looked for.
pub static ASKED: [Asked; 6] = [
    Asked {
        key: "corner",
        words: "The ball is caught in the corner. A moment later: who is on it?",
        answers: &[
            ("back", "a man of the back line"),
            ("back-then-front", "first one of the back line, then one of the front line takes over"),
            ("front", "a man of the front line"),
            ("nobody", "nobody within two steps"),
        ],
    },
    Asked {
        key: "low-post",
        words: "The ball is in the corner, a man of the back line has gone out to it. Who takes the low post on that side?",
        answers: &[
            ("far-back", "another man of the back line: the far back, the centre, the middle"),
            ("near-wing", "the man of the front line on that side, wing or guard"),
            ("point", "the point, where there is one"),
            ("nobody", "nobody, or somebody else"),
        ],
    },
    Asked {
        key: "back-line",
        words: "The ball is held at the top. How deep are the men of the back line?",
        answers: &[
            ("rim", "level with the rim"),
            ("below-block", "a step in front of the rim"),
            ("block", "at the blocks"),
            ("above-block", "above the blocks"),
        ],
    },
    Asked {
        key: "wings",
        words: "The same moment: how far out are the men of the front line who are not on the ball?",
        answers: &[
            ("far-inside", "two steps or more inside the arc"),
            ("inside", "a step and a half inside it"),
            ("just-inside", "a step inside it"),
            ("on-arc", "on the arc or outside it"),
        ],
    },
    Asked {
        key: "closeout",
        words: "A long pass is caught on the wing or in the corner and held for a second. How near does the man who comes stop?",
        answers: &[
            ("in-his-face", "less than a metre"),
            ("arm", "at arm's length"),
            ("step", "a step farther"),
            ("far", "two steps or more away"),
        ],
    },
    Asked {
        key: "fake",
        words: "A pass is faked. Does anybody move for it?",
        answers: &[("bites", "yes"), ("holds", "no")],
    },
];

/// Other words for answers, by the names that positions have in other zones than the 1-2-2.
const ALSO: [(&str, &str); 5] = [
    ("centre", "far-back"),
    ("center", "far-back"),
    ("middle", "far-back"),
    ("near-guard", "near-wing"),
    ("guard", "near-wing"),
];

/// The keys with their places in [`ASKED`].
const KEYS: [(&str, usize); 6] =
    [("corner", 0), ("low-post", 1), ("back-line", 2), ("wings", 3), ("closeout", 4), ("fake", 5)];

/// Most times that something is seen. (a choice)
const TIMES_MOST: f64 = 10_000.0;

/// A row.
static ROW: Table = Table::of(&[Part::Fields(&[
    Field::other("look", Kind::Word(&KEYS), "What was looked for.").needed(),
    Field::text("seen", Text::Name, "What was seen.").needed(),
    Field::number("times", "", (0.0, TIMES_MOST), "How often; empty: not at all.").as_kind(Kind::Whole),
    Field::text("words", Text::Prose, "The same in words, for whoever fills it in."),
])]);

/// How often each answer to each of [`ASKED`] was seen, in their order.
pub type Sightings = Vec<Vec<u32>>;

/// The columns of the table.
pub(crate) static COLUMNS: &Table = &ROW;

/// Reads the rows of such a table.
pub(crate) fn read(desk: &crate::source::Desk, rows: &Node) -> Sightings {
    let mut seen: Sightings = ASKED.iter().map(|asked| vec![0; asked.answers.len()]).collect();
    for (nth, row) in rows.members().iter().enumerate() {
        let reader = Reader::over(desk, row, &ROW, format!("row {}", nth + 1));
        reader.maybe_text("words");
        for key in ["look", "seen"] {
            if !reader.has(key) {
                reader.missing(key, "a word of the blank form".into());
            }
        }
        let look = reader.maybe_word("look", &KEYS);
        let answer =
            reader.maybe_text("seen").map(|text| text.trim().to_lowercase().replace([' ', '_'], "-"));
        let times = reader.maybe_whole("times").unwrap_or(0);
        let (Some(look), Some(answer)) = (look, answer) else { continue };
        let also = ALSO.iter().find(|(word, _)| *word == answer).map(|(_, key)| (*key).to_owned());
        let answer = also.unwrap_or(answer);
        let known: Vec<&str> = ASKED[look].answers.iter().map(|(key, _)| *key).collect();
        match known.iter().position(|key| *key == answer) {
            Some(at) => seen[look][at] += u32::try_from(times).unwrap_or(0),
            None => {
                if let Some(entry) = row.get("seen") {
                    let near = nearest(&answer, known.iter().copied());
                    reader.refuse("seen", &entry.node, one_of(known.iter().copied()), near);
                }
            }
        }
    }
    seen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_key_stands_where_it_is_asked() {
        assert!(
            KEYS.iter()
                .zip(&ASKED)
                .enumerate()
                .all(|(at, ((key, place), asked))| *key == asked.key && *place == at)
        );
    }
}
