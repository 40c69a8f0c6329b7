//! Tables beside the comparison: where things happen, how routes are run, who passes to whom, what each of the
//! zone's answers changes, and which possessions are worth a film.
//!
//! Everything that a picture or the report shows stands in one of these tables or in the comparison.

mod answers;
mod calls;
mod claims;
mod films;
mod floor;
#[cfg(test)]
pub(crate) mod made_up;
mod names;
mod passes;
mod reads;
mod routes;
mod tables;
mod tears;

pub use answers::{Answered, AnswersTable, MOST_OF_OPTIONS, MOST_POSSESSIONS, Measured, answers_csv};
pub use calls::{CallRow, calls_csv};
pub use claims::{Claim, Field, Lead, Verdict};
pub use films::{Choice, Still, chosen, films_csv};
pub use floor::{FloorTable, Grid, defenders_csv, places_csv};
pub use names::{ATTACKERS, column_letter, column_name, position_words};
pub use passes::{PassPair, PassRow, pass_pairs, pass_pairs_csv, pass_rows, passes_csv};
pub use reads::Read;
pub use routes::{PathBin, RoutePath, Spread, paths_csv, route_paths};
pub use tables::{MOST_ANSWERED, Tables, answered, shown};
pub use tears::{Tears, tears_csv};
