//! What a result predicts of a chart: its possessions, as a helper would have written them down.

use engine::Places;
use engine::ends::Ended;
use scenarios::{Charted, ENDS, SPACES, SPOTS};

use super::ends::EndLine;
use super::rate::Rate;
use crate::error::Error;
use crate::output::ResultFolder;
use crate::places::ATTACKERS;
use crate::verdict::{VERDICT, Verdict};

/// The possessions of one variant.
#[derive(Clone, Debug, PartialEq)]
pub struct Predicted {
    /// Its name.
    pub variant: String,
    /// The name of its zone.
    pub zone: String,
    /// Ways to end with how many possessions did.
    pub ends: Vec<(Charted, u64)>,
}

impl Predicted {
    /// All variants of a result, in its order.
    ///
    /// # Errors
    /// The result lacks the file, or it cannot be read.
    pub fn all(folder: &ResultFolder) -> Result<Vec<Self>, Error> {
        let mut found: Vec<Self> = Vec::new();
        for line in folder.lines::<EndLine>()? {
            let ended = (charted_of(&line), line.count);
            match found.iter_mut().find(|own| own.variant == line.variant) {
                Some(own) => own.ends.push(ended),
                None => found.push(Self { variant: line.variant, zone: line.zone, ends: vec![ended] }),
            }
        }
        Ok(found)
    }

    /// What was counted of possessions that were just played.
    pub fn of(variant: &str, zone: &str, places: &Places) -> Self {
        let ends =
            places.ends().all().map(|(ended, count)| (charted(ended), u64::try_from(count).unwrap_or(0)));
        Self { variant: variant.to_owned(), zone: zone.to_owned(), ends: ends.collect() }
    }

    /// Of how many possessions or shots a rate speaks, and how many of them it counts: `(counted, of)`.
    pub fn count(&self, rate: Rate) -> (u64, u64) {
        let mut sum = (0, 0);
        for (charted, count) in &self.ends {
            if let Some(yes) = rate.of(charted) {
                sum.0 += if yes { *count } else { 0 };
                sum.1 += count;
            }
        }
        sum
    }

    /// Possessions.
    pub fn possessions(&self) -> u64 {
        self.ends.iter().map(|(_, count)| count).sum()
    }
}

/// A possession of the model as a helper who has seen all of it writes it down.
fn charted(ended: Ended) -> Charted {
    Charted {
        end: Some(ended.end),
        who: ended.who,
        spot: ended.spot,
        space: ended.space,
        high_post: Some(ended.high_post),
        low_post: Some(ended.low_post),
        ..Charted::default()
    }
}

fn charted_of(line: &EndLine) -> Charted {
    Charted {
        end: ENDS.iter().find(|(key, _)| *key == line.end).map(|(_, end)| *end),
        who: ATTACKERS.iter().position(|key| *key == line.position),
        spot: SPOTS.iter().find(|(key, _)| *key == line.place).map(|(_, spot)| *spot),
        space: SPACES.iter().find(|(key, _)| *key == line.space).map(|(_, space)| *space),
        high_post: Some(line.high_post),
        low_post: Some(line.low_post),
        ..Charted::default()
    }
}

/// The variant that the cards of a result are of.
///
/// # Errors
/// The result cannot be read, or has no possessions.
pub fn leader(folder: &ResultFolder) -> Result<String, Error> {
    let verdict: Verdict = folder.document(VERDICT)?;
    let first = verdict.main().map(str::to_owned);
    first.ok_or_else(|| Error::Option("the result has no possessions to hold a chart against".into()))
}
