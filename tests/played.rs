//! Possessions that a first look has played, a second one does not play again.
//!
//! Possessions are what their setup, seed and number make them (`tests/determinism.rs`), so that those kept are those that
//! would be played.

use std::cell::RefCell;
use std::ops::Range;
use std::sync::Arc;

use engine::PossessionRecord;
use engine::setup::Setup;

/// Records of possessions from one on, in order.
struct Kept {
    setup: Arc<Setup>,
    seed: u64,
    from: u64,
    records: Vec<PossessionRecord>,
}

thread_local! {
    /// What this test keeps, while it keeps anything.
    static KEPT: RefCell<Option<Vec<Kept>>> = const { RefCell::new(None) };
}

/// Does some work during which what is played is kept.
pub fn keeping<T>(work: impl FnOnce() -> T) -> T {
    let before = KEPT.replace(Some(Vec::new()));
    let result = work();
    KEPT.set(before);
    result
}

/// Records of these possessions; those that are kept are not played again.
pub fn or_play(
    setup: &Arc<Setup>,
    seed: u64,
    range: Range<u64>,
    play: impl Fn(Range<u64>) -> Vec<PossessionRecord>,
) -> Vec<PossessionRecord> {
    KEPT.with_borrow_mut(|kept| {
        let Some(kept) = kept else { return play(range) };
        let same = |one: &Kept| one.seed == seed && one.from == range.start && one.setup == *setup;
        let nth = kept.iter().position(same).unwrap_or_else(|| {
            kept.push(Kept { setup: setup.clone(), seed, from: range.start, records: Vec::new() });
            kept.len() - 1
        });
        let records = &mut kept[nth].records;
        let (have, wanted) = (records.len() as u64, range.end - range.start);
        if have < wanted {
            records.extend(play(range.start + have..range.end));
        }
        records[..wanted as usize].to_vec()
    })
}

#[test]
fn what_is_kept_is_what_would_be_played_and_is_played_once() {
    let setup = crate::support::matchup(&[]);
    let played = RefCell::new(Vec::new());
    let play = |range: Range<u64>| {
        played.borrow_mut().push(range.clone());
        crate::support::play(&mut engine::Arena::new(4), &setup, 3, range)
    };
    keeping(|| {
        let first = or_play(&setup, 3, 0..5, play);
        assert_eq!(or_play(&setup, 3, 0..12, play)[..5], first);
        assert_eq!(or_play(&setup, 3, 0..12, play), crate::support::records(&setup, 3, 12));
        or_play(&setup, 4, 0..2, play);
        or_play(&setup, 3, 2..4, play);
    });
    or_play(&setup, 3, 0..2, play);
    assert_eq!(played.into_inner(), [0..5, 5..12, 0..2, 2..4, 0..2]);
}
