//! A file by itself, whatever its kind, read on plausible ground: the US high-school floor, boys of that
//! level, the 1-2-2.

use crate::read::Reader;
use crate::schema::fit::Fit;
use crate::schema::level::{self, Layers};
use crate::schema::program::Ground;
use crate::schema::{attack, plan, route, rules, scenario, worth, zone};
use crate::source::{Desk, Named};
use crate::tree::{Data, Node, Origin};

/// Reads a file as of this kind, one of [`crate::FILE_KINDS`] but `experiment`; `None` where a file that it names is unusable
/// (faults are noted either way).
pub(crate) fn read(desk: &Desk, kind: &str, file: &Named) -> Option<()> {
    match kind {
        "scenario" => return scenario::read(desk, &file.root).map(|_| ()),
        "worth" => {
            worth::read(desk, file, 0.0);
            return Some(());
        }
        _ => {}
    }
    let own_or = |own: &str, folder, name| {
        if kind == own { Some(file.clone()) } else { desk.bundled(folder, name) }
    };
    // What a scenario would say, were there one: nothing.
    let silent = Origin { source: usize::MAX, start: 0, end: 0 };
    let silent = Node { origin: silent, data: Data::Table(Vec::new()) };
    let scenario = Reader::root(desk, &silent, &scenario::SCENARIO);

    let rules = rules::read(desk, &own_or("rules", "rules", "us-high-school")?);
    if kind == "rules" {
        return Some(());
    }
    let fit = Fit::new(&rules.court);
    let level_file = own_or("level", "levels", "high-school")?;
    let level = Reader::root(desk, &level_file.root, &level::LEVEL);
    let (duties, whistle) = (level.table("defence"), level.table("officials"));
    level::team(desk, &Layers::new(None, Some(level)), true);
    scenario::officials(&scenario, &rules, whistle);
    let choice = Some(Reader::over(desk, &silent, &zone::CHOICE, "zone".into()));
    let (_, positions) = zone::read(desk, &own_or("zone", "zones", "1-2-2")?, choice, duties, fit);
    let positions = positions.with_others();
    let ground = Ground { positions: &positions, fit };
    match kind {
        "attack" => attack::alone(desk, file, &ground),
        "route" => drop(route::read(desk, file, &ground)),
        "option" => attack::option_alone(desk, file, &ground),
        "plan" => drop(plan::read(desk, file, 1.0)),
        _ => {}
    }
    Some(())
}
