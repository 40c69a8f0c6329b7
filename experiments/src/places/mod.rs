//! Tables beside the comparison: where things happen, how routes are run, who passes to whom, what each of the
//! zone's answers changes, and which possessions are worth a film.
//!
//! Everything that a picture or the report shows stands in one of these tables or in the comparison.

mod answers;
mod breakdowns;
mod calls;
mod choices;
mod claims;
mod films;
mod floor;
#[cfg(test)]
pub(crate) mod made_up;
mod names;
mod passes;
mod reads;
mod regions;
mod routes;
mod runs;
mod tables;
mod ways;

pub(crate) use answers::{AnswerLine, Change, Stands, answer_lines};
pub use answers::{Answered, AnswersTable, MOST_OF_OPTIONS, MOST_POSSESSIONS, Measured};
pub use breakdowns::Breakdowns;
pub(crate) use breakdowns::breakdown_lines;
pub use calls::CallRow;
pub(crate) use calls::{CallLine, call_lines};
pub use choices::{Choice as BallChoice, Doing, MOST_WATCHED, choices};
pub(crate) use choices::{ChoiceLine, choice_lines};
pub use claims::{Claim, Field, Lead, Verdict};
pub(crate) use films::film_lines;
pub use films::{Choice, Shows, Still, chosen};
pub use floor::{FloorTable, Grid};
pub(crate) use floor::{defender_lines, place_lines};
pub use names::{
    ATTACKERS, defender_letters, defender_name, letters_told, numbered, player_name, position_words, sideless,
};
pub use passes::{PassPair, PassRow, pass_pairs, pass_rows};
pub(crate) use passes::{pass_lines, pass_pair_lines};
pub use reads::{NONE, Read};
pub use regions::{Counted, Regions, region_key, top};
pub(crate) use regions::{free_lines, region_lines, stand_lines};
pub(crate) use routes::path_lines;
pub use routes::{PathBin, RoutePath, Spread, route_paths};
pub use runs::{Often, Runs, in_twenty, runs};
pub(crate) use runs::{run_lines, watched};
pub use tables::{Beside, MOST_ANSWERED, MOST_OF_MANY, Tables, answered, shown};
pub(crate) use ways::way_lines;
pub use ways::{Caught, Held, Moment, Scene, Way, braces};
