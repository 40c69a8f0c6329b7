//! The answer with which the page begins: the bundled question, played when this version was made and kept in the program,
//! so that it is there at once.

use super::outcome::Outcome;
use crate::commands::open::{Asking, Size};
use crate::error::Error;
use crate::kept::part;
use crate::run::First;
use crate::stats::Totals;

/// Possessions of each. (a choice: what it comes to is small enough to be kept)
const POSSESSIONS: u64 = 512;
/// What it is called in its own file.
const NAME: &str = "the bundled question";
/// What they came to. `ZONEPROBE_BLESS=1 cargo test -p zoneprobe the_first_answer` writes it anew.
const KEPT: &[u8] = include_bytes!("first.json.gz");

/// The question, to be played by so many threads if it is played.
fn asking(threads: usize) -> Result<Asking, Error> {
    Asking::new(None, Size { possessions: POSSESSIONS, seed: 1, threads, until: None })
}

/// The bundled question with its answer.
///
/// # Errors
/// The answer is of another build.
pub fn answer(threads: usize) -> Result<(Asking, Outcome), Error> {
    let asking = asking(threads)?;
    let kept: Option<(Totals, Vec<First>)> = part::opened(KEPT, NAME, &(0..POSSESSIONS));
    let (totals, first) = kept
        .filter(|(totals, _)| totals.is_well_formed() && totals.variants() == asking.all().len())
        .ok_or_else(|| Error::Bug("the first answer of the page is of another build".into()))?;
    let outcome = Outcome::new(&asking, &totals, &first);
    Ok((asking, outcome))
}

#[cfg(test)]
mod tests {
    use super::super::play::Reins;
    use super::*;

    #[test]
    fn the_first_answer_is_what_playing_it_comes_to() {
        let asking = asking(2).unwrap();
        let played = asking.play(&asking.all(), 0..POSSESSIONS, &Reins::default()).unwrap();
        let fresh = (played.totals, played.first);
        if std::env::var_os("ZONEPROBE_BLESS").is_some() {
            let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/open/first.json.gz");
            std::fs::write(path, part::bytes(NAME, &(0..POSSESSIONS), &fresh).unwrap()).unwrap();
            return;
        }
        let kept = part::opened::<(Totals, Vec<First>)>(KEPT, NAME, &(0..POSSESSIONS));
        assert!(
            kept.as_ref() == Some(&fresh),
            "the page would begin with an answer that this version does not give; renew it with ZONEPROBE_BLESS=1 cargo test \
             -p zoneprobe the_first_answer"
        );
        let (asking, outcome) = answer(1).unwrap();
        assert_eq!(
            (outcome.possessions, outcome.chart.inline().into_string().is_empty()),
            (POSSESSIONS, false)
        );
        assert!(asking.question.variants.contains(&outcome.names[0]) && !outcome.sentence.is_empty());
        assert!(KEPT.len() < 100_000, "{} bytes in every program", KEPT.len());
    }
}
