//! `regions.csv` and `free.csv`: the regions that a coach names, with what happens in each and what it is worth, and how
//! much of the time somebody is free while the ball is there.
//!
//! A cell of half a metre belongs to the region in which its middle lies.

use std::sync::Arc;

use engine::Places;
use engine::names;
use engine::places::{Cell, Mark, Stand};
use engine::setup::{Region, Setup};
use serde::Serialize;

use crate::output::{Decimal, FileLine};
use crate::stats::normal::two_sided_z;
use crate::wording::per_twenty;

/// Regions of a floor.
pub const REGIONS: usize = Region::COUNT;

/// What is counted by region: name in the files, its counts, and the expected points summed over them.
const COUNTED: [(&str, Mark, Option<Mark>); 6] = [
    ("shots", Mark::Shot, Some(Mark::ShotPoints)),
    ("open_look", Mark::OpenLook, Some(Mark::OpenLookPoints)),
    ("good_look", Mark::GoodLook, Some(Mark::GoodLookPoints)),
    ("good_shot", Mark::GoodShot, Some(Mark::GoodShotPoints)),
    ("paint_touch", Mark::PaintTouch, Some(Mark::PaintPoints)),
    ("turnover", Mark::Turnover, None),
];

/// One measure of one variant by region.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// Its name in the files.
    pub measure: &'static str,
    /// How often, by region.
    pub counts: [i64; REGIONS],
    /// Expected points of all of them, by region; None where a point is nothing of it.
    points: Option<[f64; REGIONS]>,
}

impl Counted {
    /// How often over the whole floor.
    pub fn total(&self) -> i64 {
        self.counts.iter().sum()
    }

    /// Which part of all of them a region has.
    pub fn share(&self, region: Region) -> f64 {
        self.counts[region as usize] as f64 / self.total().max(1) as f64
    }

    /// What one of a region is worth on average, expected points; None without one.
    pub fn worth(&self, region: Region) -> Option<f64> {
        let count = self.counts[region as usize];
        self.points.filter(|_| count > 0).map(|points| points[region as usize] / count as f64)
    }

    /// Regions in which there are clearly more or fewer than in another variant over as many possessions, with how many more
    /// of each possession, the largest difference first.
    ///
    /// Clearly: by more than luck has in one of 20 pictures, all regions of one taken together (Bonferroni). Counts vary like
    /// rare events (Poisson), so the variance of a difference is their sum; that both variants have the same luck makes it
    /// smaller, which is left aside.
    pub fn against(&self, other: &Self, possessions: u64) -> Vec<(Region, f64)> {
        let least = two_sided_z(1.0 - 0.05 / REGIONS as f64);
        let differs = |region: Region| {
            let (own, other) = (self.counts[region as usize], other.counts[region as usize]);
            let by = (own - other) as f64;
            let clear = by.abs() > least * ((own + other) as f64).sqrt();
            clear.then(|| (region, by / possessions as f64))
        };
        let mut all: Vec<(Region, f64)> = Region::ALL.into_iter().filter_map(differs).collect();
        all.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
        all
    }

    /// The regions that have any, most first.
    pub fn most(&self) -> Vec<Region> {
        let mut regions: Vec<Region> =
            Region::ALL.into_iter().filter(|region| self.counts[*region as usize] > 0).collect();
        regions.sort_by_key(|region| -self.counts[*region as usize]);
        regions
    }
}

/// One variant by region.
#[derive(Clone, Debug, PartialEq)]
pub struct Regions {
    /// What is counted.
    pub counted: Vec<Counted>,
    /// Steps with the ball there.
    steps: [i64; REGIONS],
    /// Those of them in which somebody was free.
    free: [i64; REGIONS],
    /// Where the defenders stood then.
    stands: [Stand; REGIONS],
}

impl Regions {
    /// Of a variant's counts.
    pub fn new(places: &Places, setup: &Setup) -> Self {
        let sum = |mark: Mark| {
            let mut sums = [0; REGIONS];
            for cell in Cell::all() {
                sums[Region::of(&setup.zone, cell.centre()) as usize] += places.count(mark, cell);
            }
            sums
        };
        let points = |mark| sum(mark).map(|millionths| millionths as f64 / 1e6);
        let counted = |(measure, mark, worth): (&'static str, Mark, Option<Mark>)| Counted {
            measure,
            counts: sum(mark),
            points: worth.map(points),
        };
        Self {
            counted: COUNTED.map(counted).into(),
            steps: sum(Mark::StressSteps),
            free: sum(Mark::FreeSteps),
            stands: Region::ALL.map(|region| places.stand(region)),
        }
    }

    /// One measure by its name in the files.
    pub fn of(&self, measure: &str) -> Option<&Counted> {
        self.counted.iter().find(|counted| counted.measure == measure)
    }

    /// The part of the possessions' time for which the ball is in a region.
    pub fn time(&self, region: Region) -> f64 {
        self.steps[region as usize] as f64 / self.steps.iter().sum::<i64>().max(1) as f64
    }

    /// The part of that time in which somebody is free; None where the ball never is.
    pub fn free(&self, region: Region) -> Option<f64> {
        let steps = self.steps[region as usize];
        (steps > 0).then(|| self.free[region as usize] as f64 / steps as f64)
    }

    /// Mean places (m) of the defenders, in the order of the zone's positions, with the ball in a region.
    pub fn defenders(&self, region: Region) -> Option<[(f64, f64); 5]> {
        let stand = self.stands[region as usize];
        let mean = |sum_um: i64| sum_um as f64 / 1e6 / stand.steps as f64;
        (stand.steps > 0).then(|| stand.sums_um.map(|[x, y]| (mean(x), mean(y))))
    }
}

/// The most of a measure that any region of any variant has, in 20 possessions: one scale makes their pictures comparable.
pub fn top(regions: &[Regions], measure: &str, possessions: u64) -> f64 {
    let most = regions.iter().filter_map(|own| own.of(measure)).flat_map(|counted| counted.counts).max();
    per_twenty(most.unwrap_or(0), possessions)
}

/// A region's name in the files.
pub fn region_key(region: Region) -> String {
    names::region(region).replace(' ', "-")
}

/// One row of `regions.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct RegionLine {
    variant: String,
    measure: String,
    region: String,
    count: i64,
    per_100_possessions: Decimal,
    share: Decimal,
    worth_points: Decimal,
}

impl FileLine for RegionLine {
    const FILE: &'static str = "regions.csv";
}

/// One row for each variant, measure and region.
pub(crate) fn region_lines(
    variants: &[String],
    tables: &[Regions],
    possessions: u64,
) -> impl Iterator<Item = RegionLine> {
    variants.iter().zip(tables).flat_map(move |(variant, own)| {
        own.counted.iter().flat_map(move |counted| {
            Region::ALL.into_iter().map(move |region| {
                let count = counted.counts[region as usize];
                RegionLine {
                    variant: variant.clone(),
                    measure: counted.measure.into(),
                    region: region_key(region),
                    count,
                    per_100_possessions: (100.0 * count as f64 / possessions as f64).into(),
                    share: counted.share(region).into(),
                    worth_points: Decimal(counted.worth(region)),
                }
            })
        })
    })
}

/// One row of `free.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct FreeLine {
    variant: String,
    ball_region: String,
    time_share: Decimal,
    free_share: Decimal,
}

impl FileLine for FreeLine {
    const FILE: &'static str = "free.csv";
}

/// One row for each variant and region of the ball.
pub(crate) fn free_lines(variants: &[String], tables: &[Regions]) -> impl Iterator<Item = FreeLine> {
    variants.iter().zip(tables).flat_map(|(variant, own)| {
        Region::ALL.into_iter().map(move |region| FreeLine {
            variant: variant.clone(),
            ball_region: region_key(region),
            time_share: own.time(region).into(),
            free_share: Decimal(own.free(region)),
        })
    })
}

/// One row of `stands.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct StandLine {
    variant: String,
    ball_region: String,
    defender: String,
    mean_x_m: Decimal,
    mean_y_m: Decimal,
}

impl FileLine for StandLine {
    const FILE: &'static str = "stands.csv";
}

/// One row for each variant, region that the ball was in, and defender.
pub(crate) fn stand_lines(
    variants: &[String],
    tables: &[Regions],
    setups: &[Arc<Setup>],
) -> impl Iterator<Item = StandLine> {
    variants.iter().zip(tables).zip(setups).flat_map(|((variant, own), setup)| {
        let known = Region::ALL.into_iter().filter_map(|region| Some((region, own.defenders(region)?)));
        known.flat_map(move |(region, places)| {
            (0..5).map(move |position| StandLine {
                variant: variant.clone(),
                ball_region: region_key(region),
                defender: super::defender_name(&setup.zone, position),
                mean_x_m: places[position].0.into(),
                mean_y_m: places[position].1.into(),
            })
        })
    })
}

#[cfg(test)]
impl Regions {
    /// A made-up variant: every region has more than the one before.
    pub(crate) fn sample(factor: i64) -> Self {
        let counts: [i64; REGIONS] = core::array::from_fn(|nth| factor * (nth as i64 * 7 % 11));
        let points = counts.map(|count| 1.1 * count as f64);
        let counted = |(measure, _, worth): (&'static str, Mark, Option<Mark>)| Counted {
            measure,
            counts,
            points: worth.map(|_| points),
        };
        let stand = |nth: i64| Stand {
            steps: 10,
            sums_um: core::array::from_fn(|d| {
                [10_000_000 * (d as i64 - 2), 5_000_000 * (1 + d as i64 % 3 + nth % 2)]
            }),
        };
        Self {
            counted: COUNTED.map(counted).into(),
            steps: counts.map(|count| 100 * count + 50),
            free: counts.map(|count| 20 * count),
            stands: core::array::from_fn(|nth| stand(nth as i64)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_region_differs_where_luck_would_hardly_do_that() {
        let counted = |counts| Counted { measure: "shots", counts, points: None };
        let mut counts = [100; REGIONS];
        let even = counted(counts);
        assert!(even.against(&even, 1000).is_empty());
        // The bar for 300 in all is 2.81 times 17.3.
        counts[3] = 200;
        counts[5] = 140;
        counts[7] = 20;
        let own = counted(counts);
        let told: Vec<(usize, f64)> =
            own.against(&even, 1000).into_iter().map(|(region, by)| (region as usize, by)).collect();
        assert_eq!(told, [(3, 0.1), (7, -0.08)]);
        assert_eq!(even.against(&own, 1000)[0].1, -0.1);
    }

    #[test]
    fn regions_hold_what_their_cells_hold_and_are_worth_what_they_sum_up_to() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let mut arena = engine::Arena::new(1);
        arena.play(&setup, 1, 0..40, &mut |_| {});
        let places = arena.places();
        let own = Regions::new(places, &setup);
        for (measure, mark, _) in COUNTED {
            assert_eq!(own.of(measure).unwrap().total(), places.total(mark), "{measure}");
        }
        let good = own.of("good_shot").unwrap();
        let worth: Vec<f64> = Region::ALL.into_iter().filter_map(|region| good.worth(region)).collect();
        assert!(!worth.is_empty() && worth.iter().all(|worth| (1.0..3.0).contains(worth)), "{worth:?}");
        let times: f64 = Region::ALL.into_iter().map(|region| own.time(region)).sum();
        assert!((times - 1.0).abs() < 1e-9, "{times}");
        assert!(
            Region::ALL
                .into_iter()
                .filter_map(|region| own.free(region))
                .all(|free| (0.0..=1.0).contains(&free))
        );
        // With the ball on one side the zone is on that side.
        let middle = |region| own.defenders(region).unwrap().iter().map(|at| at.0).sum::<f64>() / 5.0;
        assert!(middle(Region::RightWing) > middle(Region::LeftWing) + 1.0);
    }
}
