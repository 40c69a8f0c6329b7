//! What was chosen on the page as the files that say the same: a question, a scenario, and where they are needed the zone
//! with its defenders moved and the players. They are what the loader reads, and what is saved.

use scenarios::{bundled_text, catalog};
use toml_edit::{Array, DocumentMut, Value, value};

use super::choices::{PLAYER, ROLES};
use super::fields::Fields;
use super::usual;
use super::zones::{Shape, ZONES};

/// The question's file.
pub const QUESTION: &str = "question.toml";
const SCENARIO: &str = "scenario.toml";
const PLAYERS: &str = "our-players.csv";

/// The files, each by its name.
///
/// # Errors
/// A field that cannot be put into a file: its name, what was found, what is allowed. All else is judged by the loader.
pub fn files(fields: &Fields) -> Result<Vec<(String, String)>, String> {
    let zone = fields.one_of("zone", &ZONES)?;
    let moved = moved(fields, zone)?;
    let players = players(fields);
    let mut files = vec![(QUESTION.into(), question(fields, zone)?)];
    let own_zone = moved.as_ref().map(|(name, _)| name.as_str());
    files.push((SCENARIO.into(), scenario(fields, (zone, own_zone), players.is_some())?));
    files.extend(moved);
    files.extend(players.map(|text| (PLAYERS.into(), text)));
    Ok(files)
}

/// A text as TOML has it.
fn quoted(text: &str) -> String {
    Value::from(text).to_string()
}

fn question(fields: &Fields, zone: &str) -> Result<String, String> {
    let (kind, names) = fields.compared()?;
    let (possessions, _) = fields.size()?;
    let sink = fields.number("sink_ft")?.unwrap_or(0.0);
    let sunk = if sink > 0.0 { format!(" whose back line sinks {sink} ft") } else { String::new() };
    let against = if zone == "man-to-man" { zone.to_owned() } else { format!("a {zone}{sunk}") };
    let asked = format!("Against {against}: which of these {}?", kind.many);
    let setting = |name: &str| match kind.without {
        None => quoted(name),
        Some(_) => format!("{{ {name} = 1.0 }}"),
    };
    let with = names.iter().map(|name| (name.as_str(), setting(name)));
    let variants: Vec<(&str, String)> =
        kind.without.map(|name| (name, "{}".to_owned())).into_iter().chain(with).collect();
    let mut text = format!(
        "question = {}\nscenario = {}\npossessions = {possessions}\nrank_by = {}\nbaseline = {}\n",
        quoted(&asked),
        quoted(SCENARIO),
        quoted(fields.judged()?),
        quoted(variants[0].0)
    );
    for (name, setting) in &variants {
        text.push_str(&format!(
            "\n[[variant]]\nname = {}\nset = {{ {} = {setting} }}\n",
            quoted(name),
            quoted(kind.path)
        ));
    }
    Ok(text)
}

fn scenario(
    fields: &Fields,
    (zone, own_zone): (&str, Option<&str>),
    has_players: bool,
) -> Result<String, String> {
    let rules = fields.rules()?;
    let mut document = DocumentMut::new();
    document["name"] = value(format!("Ours against their {zone}"));
    document["rules"] = value(rules);
    if has_players {
        document["roster"] = value(PLAYERS);
    }
    let mut table = |name: &str, entries: Vec<(&str, Value)>| {
        document[name] = toml_edit::table();
        for (key, own) in entries {
            document[name][key] = value(own);
        }
    };
    if rules == "us-high-school" {
        // The rule set leaves it to the states.
        table("clock", vec![("shot_clock_s", 35.0.into())]);
    }
    let levels: Vec<String> =
        catalog().into_iter().filter(|entry| entry.kind == "level").map(|entry| entry.name).collect();
    let mut levels: Vec<&str> = levels.iter().map(String::as_str).collect();
    // High school is what is played where nothing is said.
    levels.sort_by_key(|level| *level != "high-school");
    let level = |name: &str| fields.one_of(name, &levels).map(Value::from);
    table("level", vec![("attack", level("our_level")?), ("defence", level("their_level")?)]);
    let mut played = vec![("use", own_zone.unwrap_or(zone).into())];
    if let Some(sink) = fields.number("sink_ft")? {
        played.push(("sink_back_ft", sink.into()));
    }
    for (key, rules) in Shape::of(zone).rules {
        let names: Vec<&str> =
            std::iter::once("usual").chain(rules.iter().map(|rule| rule.name.as_str())).collect();
        let rule = fields.one_of(&format!("{key}-{zone}"), &names)?;
        if rule != "usual" {
            played.push((key, rule.into()));
        }
    }
    table("zone", played);
    table("attack", vec![("use", "rover".into()), ("plan", "inside-first".into())]);
    let (kind, names) = fields.compared()?;
    let route = if kind.key == "route" { &names[0] } else { &usual::routes()[0] };
    document["attack"]["rover"]["route"] = value(route);
    if kind.key != "posts" {
        document["attack"]["posts"]["options"] = usual::post_options();
    }
    Ok(document.to_string())
}

/// The zone with defenders moved, under a name of its own; None where nobody was moved.
fn moved(fields: &Fields, zone: &str) -> Result<Option<(String, String)>, String> {
    let shape = Shape::of(zone);
    let text = bundled_text(zone).unwrap_or_default();
    let mut document: DocumentMut = text.parse().map_err(|error| format!("{zone}: {error}"))?;
    let mut is_moved = false;
    for row in &shape.rows {
        let mut anchors = Array::new();
        for (nth, own) in row.anchors.iter().enumerate() {
            let mut place = Array::new();
            for (axis, own) in ["x", "y"].into_iter().zip(own) {
                let name = format!("at-{zone}-{}-{nth}-{axis}", row.place);
                let typed = fields.number(&name)?.unwrap_or(*own);
                is_moved |= typed != *own;
                place.push(typed);
            }
            anchors.push(place);
        }
        document["rows"][&row.place]["anchors"] = value(anchors);
    }
    Ok(is_moved.then(|| (format!("their-{zone}.toml"), document.to_string())))
}

/// The roster as a table; None where nothing is said of anybody.
fn players(fields: &Fields) -> Option<String> {
    let row = |role: &str| {
        let said =
            PLAYER.iter().map(|column| fields.get(&format!("{role}-{}", column.key)).unwrap_or_default());
        said.map(str::to_owned).collect::<Vec<_>>()
    };
    let rows: Vec<(&str, Vec<String>)> = ROLES.iter().map(|(role, _)| (*role, row(role))).collect();
    let is_said = |nth: usize| rows.iter().any(|(_, row)| !row[nth].is_empty());
    let columns: Vec<usize> = (0..PLAYER.len()).filter(|nth| is_said(*nth)).collect();
    if columns.is_empty() {
        return None;
    }
    let head: Vec<&str> = std::iter::once("role").chain(columns.iter().map(|nth| PLAYER[*nth].key)).collect();
    let mut csv = csv::Writer::from_writer(Vec::new());
    csv.write_record(head).ok()?;
    for (role, row) in &rows {
        let said = columns.iter().map(|nth| row[*nth].as_str());
        csv.write_record(std::iter::once(*role).chain(said)).ok()?;
    }
    String::from_utf8(csv.into_inner().ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the loader makes of the files.
    fn loaded(typed: &[(&str, &str)]) -> Result<scenarios::Experiment, String> {
        let home = tempfile::tempdir().unwrap();
        for (name, text) in files(&Fields::of(typed))? {
            std::fs::write(home.path().join(name), text).unwrap();
        }
        scenarios::experiment(&home.path().join(QUESTION)).map_err(|faults| faults.to_string())
    }

    const ROUTES: [(&str, &str); 2] = [("route", "hold-wing"), ("route", "seam-cross")];

    #[test]
    fn what_was_chosen_is_what_is_played() {
        let typed = [
            &ROUTES[..],
            &[
                ("zone", "2-3"),
                ("sink_ft", "1.5"),
                ("judged", "turnover_rate"),
                ("possessions", "512"),
                ("our_level", "college"),
                ("their_level", "pro"),
            ],
        ]
        .concat();
        let experiment = loaded(&typed).unwrap();
        assert_eq!((experiment.rank_by.as_str(), experiment.possessions), ("turnover_rate", 512));
        assert_eq!(experiment.baseline, "hold-wing");
        assert_eq!(experiment.varied, ["attack.rover.route"]);
        let usual = loaded(&[&ROUTES[..], &[("zone", "2-3")]].concat()).unwrap();
        let (own, usual) = (&experiment.variants[0].setup.zone, &usual.variants[0].setup.zone);
        assert_eq!(own.name, "2-3");
        assert!(own.table.anchors != usual.table.anchors, "the back line has sunk");
    }

    #[test]
    fn every_zone_rule_kind_and_column_on_offer_can_be_played() {
        use super::super::choices::{JUDGED, KINDS, RULES};
        for zone in ZONES {
            let shape = Shape::of(zone);
            for (key, rules) in &shape.rules {
                for rule in rules {
                    let name = format!("{key}-{zone}");
                    let typed = [&ROUTES[..], &[("zone", zone), (&name, &rule.name)]].concat();
                    loaded(&typed).unwrap_or_else(|faults| panic!("{zone}, {}: {faults}", rule.name));
                }
            }
        }
        for kind in &KINDS {
            let first = usual::ticked(kind);
            let ticked: Vec<(&str, &str)> = first.iter().map(|name| (kind.key, name.as_str())).collect();
            let typed = [&[("compare", kind.key)], ticked.as_slice()].concat();
            let experiment = loaded(&typed).unwrap_or_else(|faults| panic!("{}: {faults}", kind.key));
            assert_eq!(experiment.varied, [kind.path]);
        }
        for judged in JUDGED {
            loaded(&[&ROUTES[..], &[("judged", judged.0)]].concat()).unwrap();
            let column = crate::columns::Column::named(judged.0).unwrap();
            assert_eq!(
                column.told(),
                crate::columns::Told::InTwenty,
                "the margin is typed in this, {judged:?}"
            );
        }
        RULES.iter().for_each(|rules| drop(loaded(&[&ROUTES[..], &[("rules", rules)]].concat()).unwrap()));
    }

    #[test]
    fn a_defender_who_was_moved_stands_there_and_nobody_else_has_moved() {
        let typed = |x: &'static str| [&ROUTES[..], &[("zone", "1-2-2"), ("at-1-2-2-wing-0-x", x)]].concat();
        let names = |typed: &[(&str, &str)]| {
            files(&Fields::of(typed)).unwrap().into_iter().map(|file| file.0).collect::<Vec<_>>()
        };
        assert_eq!(names(&typed("2.0")), [QUESTION, SCENARIO], "where he stands anyway");
        assert_eq!(names(&typed("2.9")), [QUESTION, SCENARIO, "their-1-2-2.toml"]);
        let table = |x| loaded(&typed(x)).unwrap().variants[0].setup.zone.table.anchors;
        let (usual, own) = (table("2.0"), table("2.9"));
        let wing = engine::setup::BallPlace::Wing as usize;
        for (place, (own, usual)) in own.iter().zip(&usual).enumerate() {
            for (nth, (own, usual)) in own.iter().zip(usual).enumerate() {
                let by = if (place, nth) == (wing, 0) { 0.9 } else { 0.0 };
                assert!((own.x - usual.x - by).abs() < 1e-5 && own.y == usual.y, "{place} {nth}");
            }
        }
    }

    #[test]
    fn players_are_a_roster_that_the_loader_reads() {
        let typed = [
            &ROUTES[..],
            &[
                ("rover-name", "K, \"it\""),
                ("rover-open_threes", "38 of 95"),
                ("other-post-licence", "no-threes"),
                ("lead-guard-height_m", "6'2\""),
            ],
        ]
        .concat();
        let setup = &loaded(&typed).unwrap().variants[0].setup;
        let told = crate::players::told(setup).join(" ");
        assert!(told.contains("K, \"it\"") && told.contains("38 of 95"), "{told}");
        let faults = loaded(&[&ROUTES[..], &[("rover-open_threes", "95 of 38")]].concat()).unwrap_err();
        assert!(faults.contains(PLAYERS) && faults.contains("95"), "{faults}");
    }

    #[test]
    fn what_is_not_on_offer_is_refused_with_what_is() {
        let routes: Vec<String> = catalog()
            .into_iter()
            .filter(|entry| entry.kind == "route")
            .map(|entry| entry.name)
            .take(7)
            .collect();
        let many: Vec<(&str, &str)> = routes.iter().map(|name| ("route", name.as_str())).collect();
        for (typed, said) in [
            (vec![("zone", "../ours/zone.toml")], "allowed are 1-2-2, 3-2"),
            (vec![("route", "hold-wing")], "1 ticked, allowed are 2 to 6"),
            (many, "7 ticked, allowed are 2 to 6"),
            (vec![("route", "hold-wing"), ("route", "mine.toml")], "1 ticked"),
            ([&ROUTES[..], &[("sink_ft", "deep")]].concat(), "sink_ft: found \"deep\", allowed is a number"),
            ([&ROUTES[..], &[("sink_ft", "inf")]].concat(), "allowed is a number"),
            ([&ROUTES[..], &[("possessions", "1e9")]].concat(), "allowed is a whole number from 64 to 65536"),
            ([&ROUTES[..], &[("their_level", "moon")]].concat(), "allowed are high-school"),
            ([&ROUTES[..], &[("long", "ever")]].concat(), "long: found \"ever\", allowed are sure, set"),
            (
                [&ROUTES[..], &[("margin", "11")]].concat(),
                "margin: found 11, allowed is a number from 0 to 10",
            ),
            ([&ROUTES[..], &[("budget", "1024")]].concat(), "allowed is a whole number from 2048 to 65536"),
        ] {
            let fields = Fields::of(&typed);
            let refused = files(&fields).and_then(|_| fields.until()).unwrap_err();
            assert!(refused.contains(said), "{refused}");
        }
        let deep = loaded(&[&ROUTES[..], &[("sink_ft", "50")]].concat()).unwrap_err();
        assert!(deep.contains("sink_back_ft"), "{deep}");
    }
}
