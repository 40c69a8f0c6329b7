//! `ends.csv`: how the possessions of each variant ended, as a helper on the bench would write them down.

use std::sync::Arc;

use engine::Places;
use engine::ends::Ended;
use engine::setup::Setup;
use scenarios::{ENDS, SPACES, SPOTS};
use serde::{Deserialize, Serialize};

use crate::output::FileLine;
use crate::places::ATTACKERS;

/// One row of `ends.csv`. What does not belong to an end is empty.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct EndLine {
    pub variant: String,
    pub zone: String,
    pub end: String,
    pub position: String,
    pub place: String,
    pub space: String,
    pub high_post: bool,
    pub low_post: bool,
    pub count: u64,
}

impl FileLine for EndLine {
    const FILE: &'static str = "ends.csv";
}

/// A row for each variant and way to end in which any possession ended.
pub(crate) fn end_lines(variants: &[String], setups: &[Arc<Setup>], places: &[Places]) -> Vec<EndLine> {
    let of = |((variant, setup), places): ((&String, &Arc<Setup>), &Places)| {
        let line = |(ended, count): (Ended, i64)| EndLine {
            variant: variant.clone(),
            zone: setup.zone.name.clone(),
            end: ENDS[ended.end as usize].0.to_owned(),
            position: ended.who.map_or("", |who| ATTACKERS[who]).to_owned(),
            place: ended.spot.map_or("", |spot| SPOTS[spot as usize].0).to_owned(),
            space: ended.space.map_or("", |space| SPACES[space as usize].0).to_owned(),
            high_post: ended.high_post,
            low_post: ended.low_post,
            count: u64::try_from(count).unwrap_or(0),
        };
        places.ends().all().map(line).collect::<Vec<_>>()
    };
    variants.iter().zip(setups).zip(places).flat_map(of).collect()
}
