//! The key reference: every key of every kind of file, as the loader's own declarations ([`crate::declared`]) have it.

mod bundled_values;
mod markdown;
mod rows;
mod schema;
mod tree;

pub use markdown::key_reference_markdown;
pub use rows::{KeyEntry, key_reference};
pub use schema::json_schema;
pub(crate) use tree::paths;
