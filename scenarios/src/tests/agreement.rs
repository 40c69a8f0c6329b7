//! What the declarations say is what the loader does. For each kind of file a file with every key is made from the
//! declarations; it is taken with values inside each range, and refused key by key with values of another type, out of
//! range, or left out. Key reference and schemas are made of the same declarations.

use super::Folder;
use crate::FILE_KINDS;
use crate::bundled;
use crate::declared::{Count, Kind};
use crate::fault::{Fault, Problem};
use crate::reference::bundled_values::names_in_zones;
use crate::reference::tree::{self, Branch, Inner};
use crate::schema::{alone, experiment};
use crate::source::{Desk, Named};

/// What is written for the keys of a file.
#[derive(Clone, Copy, PartialEq)]
enum Written {
    /// Numbers at the low end of their ranges, everything else right.
    Low,
    /// Numbers at the high end.
    High,
    /// Numbers below their ranges; false where only true says anything.
    Below,
    /// Numbers above their ranges.
    Above,
    /// A date, which no key takes; files are right, for much is read only once they are.
    Date,
    /// Texts with a character too many.
    Long,
    /// Texts with a character that is not seen.
    Hidden,
    /// A date for each file.
    DateForFile,
    /// Nothing, except for tables and for what tells one table from another.
    LeftOut,
}

/// A value, and the paths in it at which a fault is to be found.
#[derive(Clone, Default)]
struct Sample {
    text: String,
    faulty: Vec<String>,
}

impl Sample {
    /// Its faulty paths, seen from outside the key that holds it.
    fn under(&self, name: &str) -> Vec<String> {
        let joined = |path: &String| if path.is_empty() { name.to_owned() } else { format!("{name}.{path}") };
        self.faulty.iter().map(joined).collect()
    }
}

/// Samples of a key's value, in which every key inside it stands at least once.
fn samples(branch: &Branch, written: Written, marks: bool) -> Vec<Sample> {
    match &branch.inner {
        Inner::Nothing => {
            let faulty = if is_faulty(&branch.kind, written) { vec![String::new()] } else { Vec::new() };
            vec![Sample { text: scalar(branch, &branch.kind, written), faulty }]
        }
        Inner::Each(each) => {
            let name = if branch.key.doc.contains("weight") { OPTION } else { "own" };
            let inner = &samples(each, written, marks)[0];
            vec![Sample { text: format!("{{ \"{name}\" = {} }}", inner.text), faulty: inner.under(name) }]
        }
        Inner::Keys(keys) => {
            let tables = joined(keys, written, marks).into_iter();
            listed(
                branch,
                tables.map(|(lines, faulty)| Sample { text: format!("{{ {} }}", lines.join(", ")), faulty }),
            )
        }
        Inner::JustOne(choices) => {
            let mut tables = Vec::new();
            for (chosen, with) in choices {
                for sample in samples(chosen, written, marks) {
                    let (mut lines, mut faulty) = joined(with, written, marks).remove(0);
                    lines.insert(0, format!("{} = {}", chosen.key.name, sample.text));
                    faulty.extend(sample.under(chosen.key.name));
                    tables.push(Sample { text: format!("{{ {} }}", lines.join(", ")), faulty });
                }
            }
            listed(branch, tables.into_iter())
        }
    }
}

/// The name of an option that both posts and guards may be given by path.
const OPTION: &str = "o.toml";

/// Tables as they are, or all of them in one list.
fn listed(branch: &Branch, tables: impl Iterator<Item = Sample>) -> Vec<Sample> {
    if !matches!(branch.kind, Kind::Tables(..)) {
        return tables.collect();
    }
    let mut list = Sample::default();
    let mut texts = Vec::new();
    for (nth, table) in tables.enumerate() {
        list.faulty.extend(table.under(&(nth + 1).to_string()));
        texts.push(table.text);
    }
    list.text = format!("[{}]", texts.join(", "));
    vec![list]
}

/// Lines `key = value` of keys that stand together, as often as it takes for all samples of each to stand once, with
/// the faulty paths.
fn joined(keys: &[Branch], written: Written, marks: bool) -> Vec<(Vec<String>, Vec<String>)> {
    let stands =
        |branch: &&Branch| if marks { branch.not_with.is_none() } else { branch.key.name != "marks" };
    let left_out = |branch: &Branch| written == Written::LeftOut && matches!(branch.inner, Inner::Nothing);
    let all: Vec<(&Branch, Vec<Sample>)> =
        keys.iter().filter(stands).map(|branch| (branch, samples(branch, written, marks))).collect();
    let most = all.iter().map(|(_, samples)| samples.len()).max().unwrap_or(1);
    let nth = |nth: usize| {
        let (mut lines, mut faulty) = (Vec::new(), Vec::new());
        for (branch, samples) in &all {
            if left_out(branch) {
                faulty.extend(branch.required.then(|| branch.key.name.to_owned()));
                continue;
            }
            let sample = &samples[nth % samples.len()];
            lines.push(format!("{} = {}", branch.key.name, sample.text));
            faulty.extend(sample.under(branch.key.name));
        }
        (lines, faulty)
    };
    (0..most).map(nth).collect()
}

fn is_faulty(kind: &Kind, written: Written) -> bool {
    let number = |kind: &Kind| {
        matches!(kind, Kind::Number | Kind::NumberOrNone | Kind::Parameter | Kind::Whole | Kind::Place)
    };
    match (written, kind) {
        (_, Kind::List(each, _)) => is_faulty(each, written),
        (Written::Low | Written::High | Written::LeftOut, _) | (_, Kind::Any | Kind::Map(_)) => false,
        (Written::Long | Written::Hidden, kind) => matches!(kind, Kind::Text(_)),
        (Written::Below, Kind::True) => true,
        (Written::Below | Written::Above, kind) => number(kind),
        (Written::DateForFile, kind) => matches!(kind, Kind::File(_) | Kind::Rows(_)),
        (Written::Date, kind) => !matches!(kind, Kind::File(_) | Kind::Rows(_)),
    }
}

/// A value that is no table.
fn scalar(branch: &Branch, kind: &Kind, written: Written) -> String {
    let (low, high) = (branch.key.low, branch.key.high);
    let number = match written {
        Written::High => high,
        Written::Below => low - 1.0,
        Written::Above => high + 1.0,
        _ => low,
    };
    match kind {
        Kind::List(each, count) => {
            let many = if let Count::Within(least, _) = count { (*least).max(1) } else { 1 };
            format!("[{}]", vec![scalar(branch, each, written); many].join(", "))
        }
        kind if is_faulty(kind, written) && matches!(written, Written::Date | Written::DateForFile) => {
            "1979-05-27".into()
        }
        Kind::Text(text) if written == Written::Long => format!("\"{}\"", "x".repeat(text.most() + 1)),
        Kind::Text(_) if written == Written::Hidden => "\"near\\u202Ewing\"".into(),
        Kind::Text(text) if written == Written::High => format!("\"{}\"", "x".repeat(text.most())),
        Kind::Text(_) | Kind::Position => "\"near wing\"".into(),
        Kind::Flag => "true".into(),
        Kind::True => (written != Written::Below).to_string(),
        Kind::Whole => format!("{number:.0}"),
        Kind::Number | Kind::NumberOrNone => format!("{number:?}"),
        Kind::Parameter => {
            format!("{{ value = {number:?}, range = [{number:?}, {number:?}], source = \"assumed\" }}")
        }
        Kind::Word(words) => format!("\"{}\"", words.words()[0]),
        Kind::Rule(table) => format!("\"{}\"", names_in_zones(table)[0]),
        Kind::Place => format!("[{number:?}, 0.0]"),
        Kind::File(folder) => format!("\"{}\"", bundled::names(folder)[0]),
        Kind::Rows(_) => "\"r.csv\"".into(),
        Kind::Any | Kind::Map(_) | Kind::Table(_) | Kind::Layer(..) | Kind::Tables(..) => "{}".into(),
    }
}

/// The faults of a file read as of a kind.
fn faults(kind: &str, text: &str) -> Vec<Fault> {
    let folder = Folder::with(&[("a.toml", text), ("o.toml", "line = \"an option\"\n"), ("r.csv", "role\n")]);
    let desk = Desk::default();
    let root = desk.open_file(&folder.path("a.toml")).unwrap_or_else(|| panic!("{kind}: {text}"));
    if kind == "experiment" {
        experiment::read(&desk, &root);
    } else {
        alone::read(&desk, kind, &Named { name: "a".into(), root });
    }
    desk.close(Some(())).map_or_else(|faults| faults.all, |_| Vec::new())
}

/// Every kind with its keys, written in this way: faults as the loader finds them, and where they should be.
fn each_kind(written: Written, mut judge: impl FnMut(&str, &[Fault], &[String])) {
    for (kind, marks) in FILE_KINDS.map(|kind| (kind, false)).into_iter().chain([("zone", true)]) {
        let (lines, faulty) = joined(&tree::of_kind(kind), written, marks).remove(0);
        judge(kind, &faults(kind, &(lines.join("\n") + "\n")), &faulty);
    }
}

#[test]
fn every_key_is_known_beside_the_others_and_takes_both_ends_of_its_range() {
    for written in [Written::Low, Written::High] {
        each_kind(written, |kind, faults, _| {
            for fault in faults {
                let refused = match &fault.problem {
                    // What hangs on several values is another matter.
                    Problem::NotAllowed { allowed, .. } => {
                        [" to ", "a table", "a list", "a text", "a name", "one line", "true"]
                            .iter()
                            .any(|word| allowed.starts_with(word))
                    }
                    _ => true,
                };
                assert!(!refused, "{kind}: {fault}");
            }
        });
    }
}

#[test]
fn every_key_refuses_what_its_declaration_does_not_allow() {
    let all =
        [Written::Below, Written::Above, Written::Date, Written::DateForFile, Written::Long, Written::Hidden];
    for written in all {
        each_kind(written, |kind, faults, faulty| {
            for path in faulty {
                let at = |fault: &&Fault| fault.key == *path || fault.key == format!("{path}.value");
                let found = faults.iter().find(at);
                assert!(
                    found.is_some_and(|fault| matches!(fault.problem, Problem::NotAllowed { .. })),
                    "{kind}: {path} is taken"
                );
            }
        });
    }
}

#[test]
fn every_needed_key_is_missed_and_no_other() {
    each_kind(Written::LeftOut, |kind, faults, faulty| {
        let missing = faults.iter().filter(|fault| matches!(fault.problem, Problem::Missing { .. }));
        let mut missing: Vec<&str> = missing.map(|fault| fault.key.as_str()).collect();
        let mut needed: Vec<&str> = faulty.iter().map(String::as_str).collect();
        missing.sort_unstable();
        needed.sort_unstable();
        assert_eq!(missing, needed, "{kind}");
    });
    for kind in FILE_KINDS {
        let needed = tree::of_kind(kind).into_iter().filter(|branch| branch.required);
        let needed: Vec<&str> = needed.map(|branch| branch.key.name).collect();
        let faults = faults(kind, "line = \"nothing else\"\n");
        let missed = |name: &&&str| faults.iter().any(|fault| fault.key == **name);
        assert_eq!(needed.iter().filter(missed).count(), needed.len(), "{kind}: {needed:?}");
    }
}
