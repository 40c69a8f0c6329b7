//! The key reference: every key of every kind of file, as the loader's own declarations ([`crate::declared`]) have it.

pub(crate) mod bundled_values;
mod markdown;
mod rows;
mod schema;
pub(crate) mod tree;

pub use markdown::key_reference_markdown;
pub use rows::{KeyEntry, key_reference};
pub use schema::json_schema;
