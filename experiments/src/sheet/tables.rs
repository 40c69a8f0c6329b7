//! What the coach's sheet needs besides the other tables, as files of a result: the ranking by net points, looks and
//! passes by position, starting places, duties.

use std::sync::Arc;

use engine::setup::Setup;
use engine::{Places, starting_places};
use serde::{Deserialize, Serialize};

use crate::columns::Column;
use crate::compare::{Comparison, Question};
use crate::duties::{SETS_OFF, duties, sets_off};
use crate::output::{Decimal, FileLine, Hundredths, file};
use crate::places::{ATTACKERS, PassRow, Runs, Tables, pass_pairs, player_name, sideless};
use crate::run::Played;
use crate::stats::Totals;
use crate::verdict::NET;

/// The run ranked by net points.
pub fn by_net(question: &Question, totals: &Totals) -> Comparison {
    let rank_by = Column::named(NET).unwrap_or(question.rank_by);
    Comparison::new(Question { rank_by, ..question.clone() }, totals)
}

/// All files of a result that only the sheet needs.
pub fn tables(comparison: &Comparison, tables: &Tables, played: &Played) -> Vec<(String, Vec<u8>)> {
    let (names, possessions) = (&comparison.question.variants, comparison.possessions);
    vec![
        file(best_lines(&tables.beside.by_net)),
        file(position_lines(names, &all_positions(tables, played), possessions)),
        file(start_lines(names, &tables.setups)),
        file(duty_lines(names, &tables.setups, &tables.beside.runs)),
    ]
}

fn all_positions(tables: &Tables, played: &Played) -> Vec<[PositionRow; 5]> {
    let both = played.places.iter().zip(&tables.passes).zip(&tables.setups);
    both.map(|((places, passes), setup)| positions(places, passes, setup)).collect()
}

/// One row of `best_by_net.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct BestLine {
    pub rank: usize,
    pub variant: String,
    pub expected_net_points: Decimal,
    pub low: Decimal,
    pub high: Decimal,
    pub lead: Decimal,
    pub lead_together_low: Decimal,
    pub lead_together_high: Decimal,
    pub settled: bool,
}

impl FileLine for BestLine {
    const FILE: &'static str = "best_by_net.csv";
}

/// All variants, most net points first; the differences are the best one's lead over each, with the interval that
/// holds for all pairs of variants together.
pub(crate) fn best_lines(by_net: &Comparison) -> impl Iterator<Item = BestLine> {
    let column = by_net.question.rank_by;
    let best = by_net.leader();
    by_net.order.iter().enumerate().map(move |(place, &v)| {
        let gap = by_net.contrast(v, best, column);
        let together = gap.and_then(|gap| gap.together).map(|interval| interval.turned());
        let [expected_net_points, low, high] = Decimal::of(by_net.figure(v, column));
        let [_, lead_together_low, lead_together_high] = Decimal::of(together);
        BestLine {
            rank: place + 1,
            variant: by_net.question.variants[v].clone(),
            expected_net_points,
            low,
            high,
            lead: Decimal(gap.map(|gap| gap.difference.interval.turned().estimate)),
            lead_together_low,
            lead_together_high,
            settled: together.is_some_and(|interval| !interval.contains(0.0)),
        }
    })
}

/// Open looks and passes of one position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PositionRow {
    /// Slot.
    pub role: usize,
    /// Open looks that he took.
    pub open_looks: i64,
    /// Good looks that he took, or was fouled on.
    pub good_looks: i64,
    /// The two team-mates to whom he passed most, with passes thrown and caught.
    pub passes: [Option<(usize, i64, i64)>; 2],
}

/// The positions of a variant.
pub fn positions(places: &Places, passes: &[PassRow], setup: &Setup) -> [PositionRow; 5] {
    let reads = (0..setup.attack.programs.len()).map(Some).chain([None]);
    let looks = reads.fold([0; 5], |mut sum: [i64; 5], read| {
        sum.iter_mut().zip(places.looks(read)).for_each(|(sum, more)| *sum += more);
        sum
    });
    let pairs = pass_pairs(passes);
    core::array::from_fn(|role| {
        let mut own =
            pairs.iter().filter(|pair| pair.from == role).map(|pair| (pair.to, pair.thrown, pair.completed));
        PositionRow {
            role,
            open_looks: looks[role],
            good_looks: places.good_looks()[role],
            passes: [own.next(), own.next()],
        }
    })
}

/// One row of `positions.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct PositionLine {
    pub variant: String,
    pub position: String,
    pub open_looks: i64,
    pub open_looks_per_100: Decimal,
    /// Empty in the rows of a result that was made before there was any, as the next.
    #[serde(default)]
    pub good_looks: Option<i64>,
    #[serde(default)]
    pub good_looks_per_100: Decimal,
    pub first_look: String,
    pub first_per_100: Decimal,
    pub first_caught_share: Decimal,
    pub second_look: String,
    pub second_per_100: Decimal,
    pub second_caught_share: Decimal,
}

impl FileLine for PositionLine {
    const FILE: &'static str = "positions.csv";
}

/// One row for each variant and position.
pub(crate) fn position_lines(
    variants: &[String],
    rows: &[[PositionRow; 5]],
    possessions: u64,
) -> impl Iterator<Item = PositionLine> {
    let per_100 = move |count: i64| Decimal::from(100.0 * count as f64 / possessions as f64);
    variants.iter().zip(rows).flat_map(move |(variant, rows)| {
        rows.iter().map(move |row| {
            let look = |pass: Option<(usize, i64, i64)>| {
                pass.map_or_else(Default::default, |(to, thrown, caught)| {
                    let share = Decimal::from(caught as f64 / thrown as f64);
                    (ATTACKERS[to].to_owned(), per_100(thrown), share)
                })
            };
            let [first, second] = row.passes.map(look);
            PositionLine {
                variant: variant.clone(),
                position: ATTACKERS[row.role].to_owned(),
                open_looks: row.open_looks,
                open_looks_per_100: per_100(row.open_looks),
                good_looks: Some(row.good_looks),
                good_looks_per_100: per_100(row.good_looks),
                first_look: first.0,
                first_per_100: first.1,
                first_caught_share: first.2,
                second_look: second.0,
                second_per_100: second.1,
                second_caught_share: second.2,
            }
        })
    })
}

/// One row of `starts.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct StartLine {
    variant: String,
    who: String,
    x_m: Hundredths,
    y_m: Hundredths,
}

impl FileLine for StartLine {
    const FILE: &'static str = "starts.csv";
}

/// Where everyone starts, the rover's side being +x.
pub(crate) fn start_lines(variants: &[String], setups: &[Arc<Setup>]) -> impl Iterator<Item = StartLine> {
    variants.iter().zip(setups).flat_map(|(variant, setup)| {
        starting_places(setup).into_iter().enumerate().map(move |(player, at)| StartLine {
            variant: variant.clone(),
            who: player_name(setup, player),
            x_m: at.x.into(),
            y_m: at.y.into(),
        })
    })
}

/// One row of `duties.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct DutyLine {
    pub variant: String,
    pub position: String,
    pub from: String,
    pub share_of_chances: Hundredths,
    pub duty: String,
    /// Empty in the rows of a result that was made before there was any, as the next.
    #[serde(default)]
    pub in_short: String,
    /// Where on the floor his last move leads him, without its side.
    #[serde(default)]
    pub ends_at: String,
    /// How long he is in the lane at a stretch on the usual run, s, and all in all; empty of what is no run.
    #[serde(default)]
    pub longest_in_lane_s: Decimal,
    #[serde(default)]
    pub in_lane_s: Decimal,
    /// Places of the floor to which it leads him without their sides, that at which he starts the last of them.
    #[serde(default)]
    pub leads_to: String,
}

/// Between the places of a list.
const PLACES_PART: &str = "; ";

impl DutyLine {
    /// As a card tells it.
    pub fn in_full(&self) -> &str {
        &self.duty
    }

    /// The places to which it leads him.
    pub fn places(&self) -> impl Iterator<Item = &str> {
        self.leads_to.split(PLACES_PART).filter(|place| !place.is_empty())
    }

    /// As the sheet does.
    pub fn shortened(&self) -> &str {
        if self.in_short.is_empty() { &self.duty } else { &self.in_short }
    }
}

impl FileLine for DutyLine {
    const FILE: &'static str = "duties.csv";
}

/// What each position is to do, in words.
pub(crate) fn duty_lines(
    variants: &[String],
    setups: &[Arc<Setup>],
    runs: &[Runs],
) -> impl Iterator<Item = DutyLine> {
    variants.iter().zip(setups).zip(runs).flat_map(|((variant, setup), runs)| {
        let starts = starting_places(setup);
        let mut all = duties(setup);
        // Who sets off a run by his pass is told so, before he is told where he goes himself.
        for way in runs.set_off(setup) {
            let Some((from, to, share)) = way.set_off else { continue };
            if let Some(place) = all.iter().position(|duty| duty.role == from && duty.from != SETS_OFF) {
                all.insert(place, sets_off(way.runner, (from, to, share)));
            }
        }
        all.into_iter().map(move |duty| {
            let way = runs.ways.iter().find(|way| Some(way.program) == duty.program);
            let [longest_in_lane_s, in_lane_s] =
                way.map_or_else(Default::default, |way| way.in_lane_s.map(Decimal::from));
            let by = way.into_iter().flat_map(|way| way.by(setup));
            let mut leads_to: Vec<String> = Vec::new();
            for place in duty.leads_to.into_iter().chain(by).chain([sideless(setup, starts[duty.role])]) {
                if !leads_to.contains(&place) {
                    leads_to.push(place);
                }
            }
            DutyLine {
                longest_in_lane_s,
                in_lane_s,
                leads_to: leads_to.join(PLACES_PART),
                variant: variant.clone(),
                position: ATTACKERS[duty.role].to_owned(),
                from: duty.from,
                share_of_chances: Hundredths(f64::from(duty.share) / 100.0),
                duty: duty.words,
                in_short: duty.in_short,
                ends_at: duty.ends_at,
            }
        })
    })
}
