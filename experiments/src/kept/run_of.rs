//! `run.json`: what run it is of which blocks are kept, so that blocks of another are never mixed in.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::{Build, Input, Shard};
use crate::columns::ratios;
use crate::output::hex;
use crate::records::Records;
use crate::row;

/// The form in which blocks are kept; one of another form is not read.
pub const FORMAT: u32 = 1;

/// A run, and the part of it that is played here.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RunOf {
    /// [`FORMAT`].
    pub format: u32,
    /// Always `zoneprobe`.
    pub program: String,
    /// Its version.
    pub version: String,
    /// With what that was built.
    pub build: Build,
    /// The command that makes the whole result.
    pub command: String,
    /// Master seed.
    pub seed: u64,
    /// Possessions for each variant in the whole run.
    pub possessions: u64,
    /// The part that is played here; None: all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shard: Option<Shard>,
    /// What is recorded of each possession.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub records: Option<Records>,
    /// The variants, in plan order.
    pub variants: Vec<String>,
    /// Every text that was read.
    pub inputs: Vec<Input>,
}

impl RunOf {
    /// What tells runs apart of which no blocks may be mixed: a digest of everything that a block depends on.
    #[must_use]
    pub fn id(&self) -> String {
        let shas: Vec<&str> = self.inputs.iter().map(|input| input.sha256.as_str()).collect();
        let all = (
            (self.format, &self.program, &self.version, &self.build.commit, &self.build.play),
            (self.seed, self.possessions, &self.variants, row::WIDTH, ratios()),
            shas,
            self.records,
        );
        let text = serde_json::to_vec(&all).unwrap_or_default();
        hex(&Sha256::digest(text))
    }

    /// In what another run is not this one, in words; None where their blocks belong together.
    #[must_use]
    pub fn differs(&self, other: &Self) -> Option<String> {
        if self.id() == other.id() {
            return None;
        }
        let told = |what: &str, one: &dyn std::fmt::Display, two: &dyn std::fmt::Display| {
            let (one, two) = (one.to_string(), two.to_string());
            (one != two).then(|| format!("{what} {two}, not {one}"))
        };
        let commit = |run: &Self| run.build.commit.clone().unwrap_or_else(|| "unknown".into());
        let recorded =
            |run: &Self| run.records.map_or_else(|| "nothing".into(), |records| records.to_string());
        told("the form", &self.format, &other.format)
            .or_else(|| told("zoneprobe", &self.version, &other.version))
            .or_else(|| told("commit", &commit(self), &commit(other)))
            .or_else(|| {
                let is_other = self.build.play != other.build.play;
                is_other.then(|| "a build that plays otherwise".into())
            })
            .or_else(|| told("seed", &self.seed, &other.seed))
            .or_else(|| told("possessions", &self.possessions, &other.possessions))
            .or_else(|| told("records of", &recorded(self), &recorded(other)))
            .or_else(|| self.other_input(other))
            .or_else(|| told("variants", &self.variants.join(", "), &other.variants.join(", ")))
            .or_else(|| Some("another set of measures".into()))
    }

    /// The first input that is another there, or is not there.
    fn other_input(&self, other: &Self) -> Option<String> {
        let has = |run: &Self, input: &Input| run.inputs.iter().any(|own| own.sha256 == input.sha256);
        let own = self.inputs.iter().find(|input| !has(other, input));
        let input = own.or_else(|| other.inputs.iter().find(|input| !has(self, input)))?;
        Some(format!("another text of {}", input.name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run() -> RunOf {
        let input =
            |name: &str| serde_json::from_value(serde_json::json!({ "name": name, "sha256": name })).unwrap();
        RunOf {
            format: FORMAT,
            program: "zoneprobe".into(),
            version: "1.0.0".into(),
            build: Build { commit: Some("abc".into()), ..Build::own() },
            command: "zoneprobe compare".into(),
            seed: 1,
            possessions: 64,
            shard: None,
            records: None,
            variants: vec!["a".into(), "b".into()],
            inputs: vec![input("q.toml"), input("night.toml")],
        }
    }

    #[test]
    fn what_a_block_depends_on_is_named_and_nothing_else_tells_runs_apart() {
        let changed = |change: fn(&mut RunOf)| {
            let mut other = run();
            change(&mut other);
            run().differs(&other)
        };
        let same: [fn(&mut RunOf); 4] = [
            |run| run.command = "zoneprobe compare --rank-by drives".into(),
            |run| run.build.compiler = "another".into(),
            |run| run.shard = Some(Shard { nth: 1, of: 2 }),
            |run| run.inputs[0].name = "elsewhere/q.toml".into(),
        ];
        assert!(same.into_iter().all(|change| changed(change).is_none()));
        let others: [(fn(&mut RunOf), &str); 9] = [
            (|run| run.version = "1.0.1".into(), "zoneprobe 1.0.1, not 1.0.0"),
            (|run| run.build.commit = None, "commit unknown, not abc"),
            (|run| run.build.play = "0".into(), "a build that plays otherwise"),
            (|run| run.seed = 2, "seed 2, not 1"),
            (|run| run.possessions = 65, "possessions 65, not 64"),
            (|run| run.records = Some(Records::Events), "records of events, not nothing"),
            (|run| run.inputs[1].sha256 = "other".into(), "another text of night.toml"),
            (|run| run.inputs.truncate(1), "another text of night.toml"),
            (|run| run.variants.reverse(), "variants b, a, not a, b"),
        ];
        for (change, told) in others {
            assert_eq!(changed(change).as_deref(), Some(told));
        }
    }
}
