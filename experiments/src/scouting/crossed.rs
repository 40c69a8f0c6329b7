//! A question in which attacks meet zones: one variant for each pair, so that the best attack can be named for each zone.

use crate::verdict::is_choice;

/// Variants of one run. (as many as an experiment may have)
pub const MOST: usize = 64;
/// Possessions of each of them. (a choice: a minute or two for a few attacks)
const POSSESSIONS: u64 = 2048;
/// Characters of a variant's name at most.
const NAME_MOST: usize = 64;

/// An attack, or a zone: a name, and what it sets as it stands in a file, by dotted path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// What it sets.
    pub settings: Vec<(String, String)>,
    /// A line of comment.
    pub note: Option<String>,
}

/// What is said above the variants.
pub struct Words {
    /// Lines of comment.
    pub head: &'static str,
    /// The question.
    pub question: &'static str,
}

/// The attacks of variants: what they choose without what they meet, each once, the `first` before the others.
pub fn attacks(variants: &[(String, Vec<(String, String)>)], first: usize) -> Vec<Row> {
    let own = variants.get(first).into_iter().chain(variants);
    let mut found: Vec<Row> = Vec::new();
    for (name, settings) in own {
        let settings: Vec<(String, String)> =
            settings.iter().filter(|(path, _)| is_choice(path)).cloned().collect();
        if !found.iter().any(|known| known.settings == settings) {
            found.push(Row { name: name.clone(), settings, note: None });
        }
    }
    found
}

/// The text of the question; the baseline is the first attack against the first zone.
pub fn crossed(words: &Words, scenario: &str, attacks: &[Row], zones: &[Row]) -> String {
    let longest = zones.iter().map(|zone| zone.name.chars().count()).max().unwrap_or(0);
    let called = |nth: usize, attack: &Row| {
        let fits = attack.name.chars().count() + longest + 3 <= NAME_MOST;
        if fits { attack.name.clone() } else { format!("attack {}", nth + 1) }
    };
    let name = |attack: &str, zone: &str| toml::Value::String(format!("{attack} / {zone}")).to_string();
    let names: Vec<String> = attacks.iter().enumerate().map(|(nth, attack)| called(nth, attack)).collect();
    let first =
        names.first().zip(zones.first()).map_or_else(String::new, |(attack, zone)| name(attack, &zone.name));
    let mut text = format!(
        "{}question = {}\nscenario = {}\npossessions = {POSSESSIONS}\nbaseline = {first}\n\n",
        words.head,
        toml::Value::String(words.question.to_owned()),
        toml::Value::String(scenario.to_owned())
    );
    for zone in zones {
        text.extend(zone.note.iter().map(|note| format!("# {note}\n")));
        for (attack, called) in attacks.iter().zip(&names) {
            // What a zone sets lies over an attack's.
            let under =
                attack.settings.iter().filter(|(path, _)| zone.settings.iter().all(|own| own.0 != *path));
            let set: Vec<String> =
                under.chain(&zone.settings).map(|(path, value)| format!("\"{path}\" = {value}")).collect();
            text.push_str(&format!(
                "[[variant]]\nname = {}\nset = {{ {} }}\n\n",
                name(called, &zone.name),
                set.join(", ")
            ));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(name: &str, settings: &[(&str, &str)]) -> Row {
        let settings = settings.iter().map(|(path, value)| ((*path).to_owned(), (*value).to_owned()));
        Row { name: name.into(), settings: settings.collect(), note: None }
    }

    #[test]
    fn every_attack_meets_every_zone_and_what_is_met_is_no_attack() {
        let set = |route: &str, sink: &str| {
            vec![
                ("attack.rover.route".to_owned(), route.to_owned()),
                ("zone.sink_back_m".to_owned(), sink.to_owned()),
            ]
        };
        let variants = [("a", "1", "0.0"), ("b", "1", "0.6"), ("c", "2", "0.6")]
            .map(|(name, route, sink)| (name.to_owned(), set(route, sink)));
        let found = attacks(&variants, 2);
        assert_eq!(
            found,
            [row("c", &[("attack.rover.route", "2")]), row("a", &[("attack.rover.route", "1")])]
        );
        let words = Words { head: "# h\n", question: "Q?" };
        let zones = [row("as-scouted", &[]), row("drawn-1", &[("zone.sink_back_m", "1.0")])];
        let text = crossed(&words, "s.toml", &found, &zones);
        let read: toml::Table = text.parse().unwrap();
        let names: Vec<&str> =
            read["variant"].as_array().unwrap().iter().map(|own| own["name"].as_str().unwrap()).collect();
        assert_eq!(names, ["c / as-scouted", "a / as-scouted", "c / drawn-1", "a / drawn-1"]);
        assert_eq!(read["baseline"].as_str(), Some("c / as-scouted"));
    }
}
