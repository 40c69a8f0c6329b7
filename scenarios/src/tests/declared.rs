//! Every key that is declared is read: files with everything in them are read until each has been asked for. (That
//! every key that is read is declared needs no test: the reader looks it up.)

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::Path;

use engine::setup::BallPlace;

use super::{Folder, check};
use crate::declared::{Choice, Field, Kind, Table};
use crate::{FILE_KINDS, bundled, schema};

thread_local! {
    /// The tables, by their address, and the keys that were asked for.
    static ASKED: RefCell<BTreeSet<(usize, String)>> = const { RefCell::new(BTreeSet::new()) };
}

/// Notes that a key of a table is asked for, beside one of those of which just one may stand.
pub(crate) fn asked(table: &'static Table, chosen: Option<&'static Choice>, name: &str) {
    ASKED.with_borrow_mut(|asked| asked.insert(key_of(table, chosen, name)));
}

fn key_of(table: &'static Table, chosen: Option<&'static Choice>, name: &str) -> (usize, String) {
    let beside = chosen.map_or_else(String::new, |choice| format!("{} ", choice.field.key.name));
    (std::ptr::from_ref(table).addr(), beside + name)
}

/// The keys of a table and of those inside it that nobody has asked for, by their paths.
fn unread(table: &'static Table, path: &str, found: &mut Vec<String>) {
    let mut look = |field: &Field, chosen: Option<&'static Choice>| {
        let path = format!("{path}.{}", field.key.name);
        let key = key_of(table, chosen, field.key.name);
        if !ASKED.with_borrow(|asked| asked.contains(&key)) {
            found.push(path);
        } else if let Some(inner) = table_in(&field.kind) {
            unread(inner, &path, found);
        }
    };
    table.fields().for_each(|field| look(&field, None));
    for choice in table.choices {
        look(&choice.field, Some(choice));
        choice.with.iter().for_each(|field| look(field, Some(choice)));
    }
}

fn table_in(kind: &Kind) -> Option<&'static Table> {
    match kind {
        Kind::Table(table) | Kind::Layer(_, table) | Kind::Tables(table, _) => Some(table),
        Kind::Map(each) => table_in(&each.kind),
        _ => None,
    }
}

/// A scenario with every table.
const SCENARIO: &str = r#"
name = "all of it"
setting = "a test"
rules = "us-college-men"
level = { attack = "college", defence = "college" }
zone = { use = "1-2-2", post_stance = { top = "front" }, trap = ["corner"] }
[players.attack]
body = {}
head = {}
skill = { pass = { chest = {}, bounce = {}, overhead = {}, lob = {} }, shot = { rim = {}, short = {}, mid = {}, three = {} }, continuation = {} }
[players.defence]
[usual]
sprint_s = 3.3
[[opponent]]
who = "point"
body = {}
head = {}
skill = {}
[[player]]
role = "rover"
body = {}
head = {}
skill = { pass = { chest = {}, bounce = {}, overhead = {}, lob = {} }, shot = { rim = {}, short = {}, mid = {}, three = {} } }
[clock]
[officials]
[start]
[limits]
[numerics]
[attack]
rover = { route = "r.toml" }
posts = { options = { far-flash = 1.0 } }
guards = { options = { fake-twice = 1.0 } }
formation = {}
shooting = {}
habits = {}
"#;

/// A route with every place and every condition.
const ROUTE: &str = r#"
home = [5.2, 4.2]
choose = "most-open"
[[choice]]
route = "seam-cross"
when = [{ after_s = 1.0 }]
[[program]]
when = [
    { ball_with = ["guards"] },
    { ball_at = ["top"], side = "same" },
    { ball_bound = ["wing"] },
    { open = { home = true }, within_m = 1.0 },
    { near_post = false },
    { stands = { seal = true }, who = ["rover"] },
    { ball_left_me_s = 1.0 },
    { waited_s = 1.0 },
    { ball_in_the_air = true },
    { ball_elsewhere = true },
    { unwatched = true },
    { dribbled_at = true },
    { back_out = true },
]
step = [
    { to = { floor = [1.0, 2.0] } },
    { to = { line_gap = 1.0, frame = "ball" } },
    { to = { behind = "near wing" } },
    { to = { seam = ["near wing", "far wing"] } },
    { to = { by_post = "near", offset = [0.0, 1.0] } },
    { to = { screen = "near wing", toward = [1.0, 1.0] } },
    { to = { along_arc = 1.0 } },
]
"#;

/// A plan with every kind of look, a shot rule and a late clock.
const PLAN: &str = r#"
reset_after_s = 2.0
waits_s = 1.0
return_moved_m = 3.0
late = { from_s = 6.0 }
[[look]]
at = ["wing"]
order = [{ shoot = true }, { drive = "any" }, { pass = ["posts"], at = ["low-post"], side = "same", when = "open" }]
[[shot]]
from = ["rim"]
[[fill]]
place = "corner"
ball = ["wing"]
by = ["rover"]
[gap]
first = ["rover"]
"#;

/// The bundled 1-2-2 with a bump at every place, which no bundled zone has with a row of its own.
fn zone() -> String {
    let zone = bundled::find("zones", "1-2-2").expect("a bundled zone");
    let row = "anchors = [[0, 6], [3, 5], [-3, 5], [3, 1], [-3, 1]]\n";
    let bumps = BallPlace::NAMES.map(|place| format!("[bump.{place}]\non_ball = \"near wing\"\n{row}"));
    format!("{zone}\n{}", bumps.concat())
}

#[test]
fn every_declared_key_is_read() {
    let experiment = "scenario = \"s.toml\"\n[[variant]]\nname = \"v\"\nset = {}\n[factors]\n\"clock.cap_s\" = [50.0, 60.0]\n";
    let design = "scenario = \"s.toml\"\n[design]\nkind = \"sobol\"\ncells = 2\n[[design.factor]]\nkey = \"clock.cap_s\"\n\
                  range = [50.0, 60.0]\n[[design.factor]]\nkey = \"zone.sink_back_m\"\nvalues = [0.0, 1.0]\n\
                  [[design.interaction]]\nof = [\"clock.cap_s\", \"zone.sink_back_m\"]\n";
    let files = [
        ("s.toml", SCENARIO),
        ("r.toml", ROUTE),
        ("p.toml", PLAN),
        ("z.toml", &zone()),
        ("e.toml", experiment),
        ("d.toml", design),
    ];
    let folder = Folder::with(&files);
    for (file, _) in files {
        let said = check(&folder.path(file));
        assert!(said.is_ok(), "{file}: {}", said.map_or_else(|faults| faults.to_string(), str::to_owned));
    }
    for (_, name, _) in bundled::FILES {
        assert!(check(Path::new(name)).is_ok(), "{name}");
    }
    let mut found = Vec::new();
    for kind in FILE_KINDS {
        unread(schema::table(kind).expect("a kind"), kind, &mut found);
    }
    assert_eq!(found, Vec::<String>::new(), "declared, but never read");
}
