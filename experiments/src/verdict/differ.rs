//! What differs between the variants of an experiment: what one teaches and whom one plays (a *choice*), what one meets (a
//! *setting*), or both. Nobody can choose what he meets, so the best is named for each of it.

use scenarios::{Experiment, Variant};
use serde::{Deserialize, Serialize};

use crate::wording::listed;

/// What differs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Differ {
    /// Only what the attack is taught, or who plays it: one of them can be advised.
    #[default]
    Choices,
    /// Only what it meets: none can be.
    Settings,
    /// Both: the best can be named for each setting.
    Both,
}

impl Differ {
    /// Of an experiment.
    pub fn of(experiment: &Experiment) -> Self {
        let choice = experiment.varied.iter().any(|path| is_choice(path));
        match (choice, met(experiment).len() > 1) {
            (_, false) => Self::Choices,
            (false, true) => Self::Settings,
            (true, true) => Self::Both,
        }
    }
}

/// Whether a key says what the attack is taught or who plays it: all that stands under `attack`, and one's own players.
pub fn is_choice(path: &str) -> bool {
    let under =
        |start: &str| path.strip_prefix(start).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
    path == "roster" || under("attack") || under("player")
}

/// Variants that meet the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Met {
    /// What that is, as a clause: `they play 3-2`.
    pub words: String,
    /// The variants, in plan order.
    pub variants: Vec<usize>,
}

/// The variants of an experiment by what they meet, in plan order.
pub fn met(experiment: &Experiment) -> Vec<Met> {
    let mut found: Vec<(Vec<(&str, &str)>, Met)> = Vec::new();
    for (v, variant) in experiment.variants.iter().enumerate() {
        let own = settings(experiment, variant);
        match found.iter_mut().find(|(known, _)| *known == own) {
            Some((_, met)) => met.variants.push(v),
            None => {
                let words: Vec<String> = own.iter().map(|(path, value)| clause(path, value)).collect();
                let words = if words.is_empty() { "nothing is changed".into() } else { listed(&words) };
                found.push((own, Met { words, variants: vec![v] }));
            }
        }
    }
    found.into_iter().map(|(_, met)| met).collect()
}

/// The settings of a variant at which the variants differ, with their values as written.
fn settings<'e>(experiment: &'e Experiment, variant: &'e Variant) -> Vec<(&'e str, &'e str)> {
    let paths = experiment.varied.iter().filter(|path| !is_choice(path));
    let value = |path: &'e String| variant.settings.iter().find(|(own, _)| own == path);
    paths.filter_map(value).map(|(path, value)| (path.as_str(), value.as_str())).collect()
}

/// A setting in words.
fn clause(path: &str, value: &str) -> String {
    let value = value.trim_matches('"');
    let none = value.parse().is_ok_and(|metres: f64| metres == 0.0);
    match path {
        "zone.sink_back_m" if none => "their back line does not sink".into(),
        "zone.sink_front_m" if none => "their front line does not sink".into(),
        "zone.use" => format!("they play {value}"),
        "zone.sink_back_m" => format!("their back line sinks {value} m"),
        "zone.sink_front_m" => format!("their front line sinks {value} m"),
        "zone.post_help_rule" => format!("their post help rule is {value}"),
        "zone.corner_rule" => format!("their corner rule is {value}"),
        "rules" => format!("the rules are {value}"),
        "level.attack" => format!("you are {value}"),
        "level.defence" => format!("they are {value}"),
        _ => format!("{path} is {value}"),
    }
}

/// The name of a variant without the factors that are settings: what the attack is taught.
pub fn taught(experiment: &Experiment, variant: usize) -> String {
    let name = &experiment.variants[variant].name;
    let is_setting = |part: &&str| {
        let Some((label, _)) = part.split_once('=') else { return false };
        let mut paths = experiment.varied.iter().filter(|path| !is_choice(path));
        paths.any(|path| path.ends_with(label))
    };
    let parts: Vec<&str> = name.split(" / ").filter(|part| !is_setting(part)).collect();
    if parts.is_empty() { name.clone() } else { parts.join(" / ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(name: &str) -> Experiment {
        scenarios::experiment(std::path::Path::new(name)).unwrap()
    }

    #[test]
    fn ones_own_players_are_chosen_and_theirs_are_met() {
        assert!(
            ["roster", "attack", "attack.use", "player.1.open_threes"].iter().all(|path| is_choice(path))
        );
        assert!(!["zone.use", "level.attack", "rosters", "attackers"].iter().any(|path| is_choice(path)));
    }

    #[test]
    fn what_was_scouted_of_a_line_is_met() {
        let home = tempfile::tempdir().unwrap();
        let file = home.path().join("q.toml");
        let variant = |name: &str, set: &str| format!("[[variant]]\nname = \"{name}\"\nset = {{ {set} }}\n");
        let (stays, loops) =
            ("\"attack.rover.route\" = \"hold-wing\"", "\"attack.rover.route\" = \"seam-loop\"");
        let late = "\"opponent.back-line.late\" = \"often\"";
        let text = format!(
            "question = \"Q?\"\nscenario = \"sunken-122\"\n{}{}{}{}",
            variant("a", stays),
            variant("b", loops),
            variant("c", &format!("{stays}, {late}")),
            variant("d", &format!("{loops}, {late}"))
        );
        std::fs::write(&file, text).unwrap();
        let experiment = scenarios::experiment(&file).unwrap();
        assert_eq!(Differ::of(&experiment), Differ::Both);
        let met: Vec<Vec<usize>> = met(&experiment).into_iter().map(|own| own.variants).collect();
        assert_eq!(met, [[0, 1], [2, 3]]);
    }

    #[test]
    fn a_sink_is_met_and_a_route_is_taught() {
        let kinds = ["routes-against-sink", "post-options", "routes-by-zone", "attacks-by-zone"]
            .map(|name| Differ::of(&of(name)));
        assert_eq!(kinds, [Differ::Choices, Differ::Choices, Differ::Both, Differ::Both]);
        let zones = of("routes-by-zone");
        let met = met(&zones);
        assert_eq!(met.len(), 4);
        assert_eq!(met[1].words, "they play 1-2-2 and their back line sinks 1.2 m");
        let names: Vec<String> = met[1].variants.iter().map(|&v| taught(&zones, v)).collect();
        assert_eq!(names[..2], ["hold-wing", "seam-cross"]);
        let home = tempfile::tempdir().unwrap();
        let file = home.path().join("sinks.toml");
        std::fs::write(&file, "scenario = \"plain-122\"\n[factors]\n\"zone.sink_back_m\" = [0.0, 1.2]\n")
            .unwrap();
        let sinks = scenarios::experiment(&file).unwrap();
        assert_eq!(Differ::of(&sinks), Differ::Settings);
        assert_eq!(super::met(&sinks)[0].words, "their back line does not sink");
        assert_eq!(taught(&sinks, 1), sinks.variants[1].name, "nothing else is left of it");
    }
}
