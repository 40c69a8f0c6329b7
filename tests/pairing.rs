//! Draws of chance are shared by variants and used once: identical variants differ by exactly nothing, in every measure;
//! no key of a random draw is used twice; a purpose's draws never shift another's.
//!
//! What it has caught: nothing yet.

use std::fs;

use engine::random::{Purpose, Streams};
use engine::slots::Slot;
use experiments::error::Exit;

use crate::support::{argument, folder, loaded, records, zoneprobe};

const TWINS: &str = r#"
question = "Do twins differ?"
scenario = "sunken-122"
[[variant]]
name = "one"
set = { "attack.rover.route" = "seam-cross" }
[[variant]]
name = "other"
set = { "attack.rover.route" = "seam-cross" }
"#;

#[test]
fn identical_variants_have_identical_records() {
    let home = folder(&[("twins.toml", TWINS)]);
    let twins = loaded(scenarios::experiment(&home.path().join("twins.toml")));
    let [one, other] = [0, 1].map(|nth| records(&twins.variants[nth].setup, 3, 300));
    assert!(one == other);
}

#[test]
fn identical_variants_differ_by_exactly_nothing_in_the_table() {
    let home = folder(&[("twins.toml", TWINS)]);
    let (file, out) = (home.path().join("twins.toml"), home.path().join("out"));
    let told = zoneprobe(&["compare", argument(&file), "--possessions", "300", "--out", argument(&out)]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let text = fs::read_to_string(out.join("differences.csv")).expect("differences are written");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let head = rows.headers().expect("a header").clone();
    let place = |name: &str| head.iter().position(|own| own == name).expect("a column of this name");
    let exact = ["difference", "difference_low", "difference_high", "standard_error"].map(place);
    let mut count = 0;
    for row in rows.records() {
        let row = row.expect("rows of equal length");
        for column in exact {
            assert_eq!(&row[column], "0.000000", "{} of {}", &head[column], &row[place("measure")]);
        }
        count += 1;
    }
    assert!(count > 20, "only {count} differences were written");
}

/// The engine itself asserts that no key is used twice, wherever debug assertions are on, as they are in tests.
#[cfg(debug_assertions)]
#[test]
fn no_key_is_used_twice() {
    for variant in &crate::support::question().variants {
        assert_eq!(records(&variant.setup, 11, 200).len(), 200, "{}", variant.name);
    }
}

#[cfg(debug_assertions)]
#[test]
#[should_panic(expected = "random key used twice")]
fn a_key_used_twice_is_noticed() {
    let mut streams = Streams::new(1, 2);
    let event = streams.next_event(Slot::of(3), Purpose::Choice);
    streams.option_bits(Slot::of(3), Purpose::Choice, event, 0);
    streams.option_bits(Slot::of(3), Purpose::Choice, event, 0);
}

#[test]
fn one_purpose_or_role_never_shifts_another() {
    let drawn = |others: usize| -> Vec<u64> {
        let mut streams = Streams::new(7, 41);
        let mut own = Vec::new();
        for _ in 0..20 {
            for other in 0..others {
                streams.bits(Slot::of(2), Purpose::Notice);
                streams.bits(Slot::of(other % 10), Purpose::Talk);
            }
            own.push(streams.bits(Slot::of(4), Purpose::Make));
        }
        own
    };
    let alone = drawn(0);
    assert_eq!(drawn(1), alone);
    assert_eq!(drawn(13), alone);
    let mut distinct = alone.clone();
    distinct.sort_unstable();
    distinct.dedup();
    assert_eq!(distinct.len(), alone.len(), "a stream repeats itself");
}
