//! One file for each kind of data file: what its keys are, and what they become.

pub(crate) mod alone;
pub(crate) mod attack;
pub(crate) mod experiment;
pub(crate) mod fit;
pub(crate) mod level;
pub(crate) mod program;
pub(crate) mod route;
pub(crate) mod rules;
pub(crate) mod scenario;
pub(crate) mod worth;
pub(crate) mod zone;
