//! What the coach's sheet needs besides the other tables, as files of a result: the ranking by net points, looks and
//! passes by position, starting places, duties.

use std::sync::Arc;

use engine::setup::Setup;
use engine::{Places, starting_places};

use crate::columns::Column;
use crate::compare::{Comparison, Question};
use crate::duties::duties;
use crate::output::{cell, written};
use crate::places::{ATTACKERS, PassRow, Tables, column_name, pass_pairs};
use crate::run::Played;
use crate::stats::Totals;

/// The column by which a sheet ranks, whatever the run was ranked by.
pub const NET: &str = "expected_net_points";

/// The run ranked by net points.
pub fn by_net(question: &Question, totals: &Totals) -> Comparison {
    let rank_by = Column::named(NET).unwrap_or(question.rank_by);
    Comparison::new(Question { rank_by, ..question.clone() }, totals)
}

/// All files of a result that only the sheet needs.
pub fn tables(comparison: &Comparison, tables: &Tables, played: &Played) -> Vec<(String, Vec<u8>)> {
    let (names, possessions) = (&comparison.question.variants, comparison.possessions);
    vec![
        ("best_by_net.csv".into(), best_by_net_csv(&tables.by_net)),
        ("positions.csv".into(), positions_csv(names, &all_positions(tables, played), possessions)),
        ("starts.csv".into(), starts_csv(names, &tables.setups)),
        ("duties.csv".into(), duties_csv(names, &tables.setups)),
    ]
}

fn all_positions(tables: &Tables, played: &Played) -> Vec<[PositionRow; 5]> {
    let both = played.places.iter().zip(&tables.passes).zip(&tables.setups);
    both.map(|((places, passes), setup)| positions(places, passes, setup)).collect()
}

/// `best_by_net.csv`: all variants, most net points first; the differences are the best one's lead over each, with
/// the interval that holds for all pairs of variants together.
pub fn best_by_net_csv(by_net: &Comparison) -> Vec<u8> {
    let column = by_net.question.rank_by;
    let best = by_net.leader();
    let header =
        ["rank", "variant", NET, "low", "high", "lead", "lead_together_low", "lead_together_high", "settled"];
    let rows = by_net.order.iter().enumerate().map(|(place, &v)| {
        let figure = by_net.figure(v, column);
        let gap = by_net.contrast(v, best, column);
        let lead = gap.map(|gap| gap.difference.interval.turned());
        let together = gap.and_then(|gap| gap.together).map(|interval| interval.turned());
        let settled = together.is_some_and(|interval| !interval.contains(0.0));
        vec![
            (place + 1).to_string(),
            by_net.question.variants[v].clone(),
            cell(figure.map(|figure| figure.estimate)),
            cell(figure.map(|figure| figure.low)),
            cell(figure.map(|figure| figure.high)),
            cell(lead.map(|lead| lead.estimate)),
            cell(together.map(|interval| interval.low)),
            cell(together.map(|interval| interval.high)),
            settled.to_string(),
        ]
    });
    written(header.map(String::from).to_vec(), rows)
}

/// Open looks and passes of one position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PositionRow {
    /// Slot.
    pub role: usize,
    /// Open looks that he took.
    pub open_looks: i64,
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
        PositionRow { role, open_looks: looks[role], passes: [own.next(), own.next()] }
    })
}

/// `positions.csv`: a row a variant and position.
pub fn positions_csv(variants: &[String], rows: &[[PositionRow; 5]], possessions: u64) -> Vec<u8> {
    let header = [
        "variant",
        "position",
        "open_looks",
        "open_looks_per_100",
        "first_look",
        "first_per_100",
        "first_caught_share",
        "second_look",
        "second_per_100",
        "second_caught_share",
    ];
    let per_100 = |count: i64| cell(Some(100.0 * count as f64 / possessions as f64));
    let rows = variants.iter().zip(rows).flat_map(|(variant, rows)| {
        rows.iter().map(move |row| {
            let mut cells = vec![
                variant.clone(),
                ATTACKERS[row.role].to_owned(),
                row.open_looks.to_string(),
                per_100(row.open_looks),
            ];
            for pass in row.passes {
                match pass {
                    Some((to, thrown, caught)) => cells.extend([
                        ATTACKERS[to].to_owned(),
                        per_100(thrown),
                        cell(Some(caught as f64 / thrown as f64)),
                    ]),
                    None => cells.extend([const { String::new() }; 3]),
                }
            }
            cells
        })
    });
    written(header.map(String::from).to_vec(), rows)
}

/// `starts.csv`: where everyone starts, the rover's side being +x.
pub fn starts_csv(variants: &[String], setups: &[Arc<Setup>]) -> Vec<u8> {
    let header = ["variant", "who", "x_m", "y_m"];
    let rows = variants.iter().zip(setups).flat_map(|(variant, setup)| {
        starting_places(setup).into_iter().enumerate().map(move |(player, at)| {
            let who = match player {
                0..5 => ATTACKERS[player].to_owned(),
                _ => column_name(&setup.zone, player - 5),
            };
            vec![variant.clone(), who, format!("{:.2}", at.x), format!("{:.2}", at.y)]
        })
    });
    written(header.map(String::from).to_vec(), rows)
}

/// `duties.csv`: what each position is to do, in words.
pub fn duties_csv(variants: &[String], setups: &[Arc<Setup>]) -> Vec<u8> {
    let header = ["variant", "position", "from", "share_of_chances", "duty"];
    let rows = variants.iter().zip(setups).flat_map(|(variant, setup)| {
        duties(setup).into_iter().map(move |duty| {
            let share = format!("{:.2}", f64::from(duty.share) / 100.0);
            vec![variant.clone(), ATTACKERS[duty.role].to_owned(), duty.from, share, duty.words]
        })
    });
    written(header.map(String::from).to_vec(), rows)
}
