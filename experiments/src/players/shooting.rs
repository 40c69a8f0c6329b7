//! `shooting.csv`: made and attempted by position, place and space, beside what was to be made at the chances of the shots.

use engine::Places;
use engine::shots::{ShotCount, ShotKind, ShotPlace, ShotSpace, Shots};
use serde::Serialize;

use crate::output::{Decimal, FileLine};
use crate::places::ATTACKERS;
use crate::stats::{normal::two_sided_z, wilson_interval};

/// One row of `shooting.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct ShootingLine {
    pub variant: String,
    pub position: &'static str,
    pub place: &'static str,
    pub space: &'static str,
    pub made: i64,
    pub attempted: i64,
    pub made_share: Decimal,
    pub made_share_low: Decimal,
    pub made_share_high: Decimal,
    pub expected_share: Decimal,
}

impl FileLine for ShootingLine {
    const FILE: &'static str = "shooting.csv";
}

/// The places of a shot as the file names them, with those that each takes together.
const PLACES: [(&str, &[ShotPlace]); 6] = [
    ("rim", &[ShotPlace::Rim]),
    ("short", &[ShotPlace::Short]),
    ("mid-range", &[ShotPlace::MidRange]),
    ("corner-three", &[ShotPlace::CornerThree]),
    ("other-three", &[ShotPlace::Three]),
    ("three", &[ShotPlace::CornerThree, ShotPlace::Three]),
];
/// The same of the space.
const SPACES: [(&str, &[ShotSpace]); 4] = [
    ("guarded", &[ShotSpace::Guarded]),
    ("open", &[ShotSpace::Open]),
    ("wide-open", &[ShotSpace::WideOpen]),
    ("all", &ShotSpace::ALL),
];

/// A row for each variant, position, place and space in which there were attempts, and one for free throws.
pub(crate) fn shooting_lines(variants: &[String], places: &[Places]) -> Vec<ShootingLine> {
    let mut lines = Vec::new();
    for (variant, places) in variants.iter().zip(places) {
        let shots = places.shots();
        for (role, position) in ATTACKERS.into_iter().enumerate() {
            let line = |place, space, count| of_count((variant, position), (place, space), count);
            for (place, places) in PLACES {
                let of = |(space, spaces): (&'static str, &[ShotSpace])| {
                    line(place, space, together(shots, role, places, spaces))
                };
                lines.extend(SPACES.into_iter().map(of));
            }
            lines.push(line("free-throw", "all", shots.free_throws(role)));
        }
    }
    lines.retain(|line| line.attempted > 0);
    lines
}

fn together(shots: &Shots, role: usize, places: &[ShotPlace], spaces: &[ShotSpace]) -> ShotCount {
    let mut sum = ShotCount::default();
    for &place in places {
        spaces.iter().for_each(|&space| sum.add(&shots.of(role, ShotKind { place, space })));
    }
    sum
}

fn of_count(
    (variant, position): (&str, &'static str),
    (place, space): (&'static str, &'static str),
    count: ShotCount,
) -> ShootingLine {
    let whole = |n: i64| u64::try_from(n).unwrap_or(0);
    let made = wilson_interval(whole(count.made), whole(count.attempted), two_sided_z(0.95));
    let [made_share, made_share_low, made_share_high] = Decimal::of(made);
    let expected = count.expected_millionths as f64 / 1e6 / count.attempted as f64;
    ShootingLine {
        variant: variant.to_owned(),
        position,
        place,
        space,
        made: count.made,
        attempted: count.attempted,
        made_share,
        made_share_low,
        made_share_high,
        expected_share: Decimal(Some(expected)),
    }
}
