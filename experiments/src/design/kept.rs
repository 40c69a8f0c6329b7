//! The parts of a design, kept in the folder of its result while it plays, and found again.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use sha2::{Digest, Sha256};

use super::plan::{Part, Sketch};
use super::sums::{PartSums, Sums};
use crate::error::Error;
use crate::kept::{RunOf, part};
use crate::output::{PARTS, Reservation, hex, parts_are_in};

/// What tells designs apart of which no parts may be mixed: the run, and of what effects are told.
#[must_use]
pub fn id(run: &RunOf, sketch: &Sketch<'_>) -> String {
    let parts = (super::BLOCK, sketch.parts().len(), sketch.own_draws);
    let all = (run.id(), "design", parts, &sketch.measures, &sketch.weights);
    hex(&Sha256::digest(serde_json::to_vec(&all).unwrap_or_default()))
}

/// The name of a part's file.
#[must_use]
pub fn name(part: &Part) -> String {
    part::name(&(part.nth..part.nth + 1))
}

/// Keeps parts in a folder that is held, in which so many are kept already.
pub fn keeper<'a>(
    place: &'a Reservation,
    id: &'a str,
    sketch: &'a Sketch<'a>,
    there: u64,
) -> impl Fn(&Part, &PartSums) -> Result<(), Error> + Sync + 'a {
    // A stop tells of possessions of each variant: that part of them that the parts are of the whole.
    let parts = sketch.parts().len() as u64;
    let of_each = move |kept: u64| sketch.possessions * kept / parts.max(1);
    if parts_are_in(place.folder()) {
        place.has_kept(of_each(there));
    }
    let count = Mutex::new(there);
    move |part, sums| {
        let name = name(part);
        let bytes = part::bytes(id, &(part.nth..part.nth + 1), sums)
            .map_err(|source| Error::Keep { path: place.folder().join(PARTS).join(&name), source })?;
        let mut count = count.lock().unwrap_or_else(PoisonError::into_inner);
        let before = of_each(*count);
        *count += 1;
        place.keep(&name, &bytes, of_each(*count) - before)
    }
}

/// Adds to the sums what is kept in a folder of some parts; those that are missing, and files that are not as they were written.
#[must_use]
pub fn kept(
    folder: &Path,
    id: &str,
    (sketch, parts): (&Sketch<'_>, Vec<Part>),
    sums: &mut Sums,
) -> (Vec<Part>, Vec<PathBuf>) {
    let (mut missing, mut damaged) = (Vec::new(), Vec::new());
    for part in parts {
        let path = folder.join(PARTS).join(name(&part));
        let bytes = scenarios::read_once(&path, part::MOST).ok();
        let found = bytes.as_ref().and_then(|entered| {
            part::opened::<PartSums>(&entered.bytes, id, &(part.nth..part.nth + 1))
                .filter(|own| own.fits(sketch, &part))
        });
        match found {
            Some(own) => sums.take(sketch, &part, &own),
            None => {
                if path.exists() {
                    damaged.push(path);
                }
                missing.push(part);
            }
        }
    }
    (missing, damaged)
}
