//! A filter over records: which possessions are meant, by what they came to and what happened in them.
//!
//! It is the expression behind WHERE in SQL, over the columns of `possessions.parquet`: comparisons, AND, OR, NOT, IN, BETWEEN,
//! LIKE, IS NULL. Two words look into the events of the possession: `happened(...)`, whether there is one, and `count(...)`, how
//! many there are; what stands in them is an expression over the columns of `events.parquet`.

mod compiled;
mod parsed;
mod query;
mod search;

pub use compiled::{Column, Columns, Kind};
pub use parsed::Filter;
pub use search::{Found, search};
