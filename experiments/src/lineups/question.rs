//! Line-ups as a question that `compare` plays: an experiment, and a roster for each.

use std::path::Path;

use scenarios::{Source, Squad};

use super::Lineup;

/// Name of its file.
pub(crate) const QUESTION: &str = "who.toml";

/// The file of the roster of a line-up, counted from 1.
pub(crate) fn roster(number: usize) -> String {
    format!("line-up-{number}.csv")
}

/// The question over a scenario, and the rosters, each by its name and as a text that stands for that file.
pub(crate) fn question(
    scenario: &str,
    squad: &Squad,
    lineups: &[(usize, Lineup)],
    folder: &Path,
) -> (String, Vec<(String, Source)>) {
    let mut text = format!(
        "# Made by `zoneprobe who`: line-ups of a squad, the same in everything else.\n\
         question = \"Who should play where?\"\nscenario = {}\n\n",
        toml::Value::String(scenario.to_owned())
    );
    let mut rosters = Vec::new();
    for (number, lineup) in lineups {
        let file = roster(*number);
        text.push_str(&format!(
            "# {}\n[[variant]]\nname = \"line-up {number}\"\nset = {{ roster = \"{file}\" }}\n\n",
            lineup.words(&squad.candidates)
        ));
        let source = squad.roster(&lineup.roles(), &folder.join(&file));
        rosters.push((file, source));
    }
    (text, rosters)
}
