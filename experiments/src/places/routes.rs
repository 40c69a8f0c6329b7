//! `paths.csv`: each route as it was really run, a quarter of a second at a time.

use engine::Places;
use engine::places::{BIN_S, BINS, FINE_M, LEFT_M, LOW_M, RouteRuns};
use engine::setup::Setup;
use serde::{Deserialize, Serialize};

use crate::output::{Decimal, FileLine, Hundredths};

/// Quartiles of one coordinate, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// A quarter lies below.
    pub low: f64,
    /// Half lies below.
    pub median: f64,
    /// Three quarters lie below.
    pub high: f64,
}

/// Where the rover was so long after the start of a route.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathBin {
    /// Time since the route's start, s.
    pub time_s: f64,
    /// Runs that lasted so long.
    pub count: u64,
    /// Across, the side on which he began being +.
    pub x: Spread,
    /// Along, from the rim toward midcourt.
    pub y: Spread,
}

/// One route of one variant.
#[derive(Clone, Debug, PartialEq)]
pub struct RoutePath {
    /// Its name.
    pub route: String,
    /// Which of the programs of its file, from 1.
    pub program: usize,
    /// Its bins, as far as any run lasted.
    pub bins: Vec<PathBin>,
}

/// The routes of a variant that were run at least once.
pub fn route_paths(places: &Places, setup: &Setup) -> Vec<RoutePath> {
    let name =
        |runs: &RouteRuns| setup.attack.programs.get(usize::from(runs.program)).map(|p| p.name.clone());
    let mut paths: Vec<RoutePath> = Vec::new();
    let mut seen: Vec<String> = Vec::new();
    for runs in places.routes() {
        let Some(route) = name(runs) else { continue };
        let program = 1 + seen.iter().filter(|other| **other == route).count();
        seen.push(route.clone());
        let bins: Vec<PathBin> = (0..BINS).map_while(|bin| path_bin(runs, bin)).collect();
        if !bins.is_empty() {
            paths.push(RoutePath { route, program, bins });
        }
    }
    paths
}

fn path_bin(runs: &RouteRuns, bin: usize) -> Option<PathBin> {
    let (xs, ys) = runs.bin(bin);
    let count = xs.iter().map(|n| u64::from(*n)).sum();
    Some(PathBin {
        time_s: bin as f64 * f64::from(BIN_S),
        count,
        x: spread(xs, LEFT_M)?,
        y: spread(ys, LOW_M)?,
    })
}

fn spread(counts: &[u32], from: f32) -> Option<Spread> {
    let at = |share| quantile(counts, share).map(|bins| f64::from(from) + bins * f64::from(FINE_M));
    Some(Spread { low: at(0.25)?, median: at(0.5)?, high: at(0.75)? })
}

/// Quantile of a histogram in bins from its left edge, even within a bin; `None` if it is empty.
fn quantile(counts: &[u32], share: f64) -> Option<f64> {
    let whole: u64 = counts.iter().map(|n| u64::from(*n)).sum();
    let wanted = share * whole as f64;
    let mut below = 0.0;
    for (bin, n) in counts.iter().enumerate().filter(|(_, n)| **n > 0) {
        let inside = f64::from(*n);
        if below + inside >= wanted {
            return Some(bin as f64 + (wanted - below) / inside);
        }
        below += inside;
    }
    None
}

/// One row of `paths.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct PathLine {
    pub variant: String,
    route: String,
    program: usize,
    time_s: Hundredths,
    runs: u64,
    x_m: Decimal,
    x_m_low: Decimal,
    x_m_high: Decimal,
    y_m: Decimal,
    y_m_low: Decimal,
    y_m_high: Decimal,
}

impl FileLine for PathLine {
    const FILE: &'static str = "paths.csv";
}

/// One row for each variant, route and time.
pub(crate) fn path_lines(variants: &[String], paths: &[Vec<RoutePath>]) -> impl Iterator<Item = PathLine> {
    variants.iter().zip(paths).flat_map(|(variant, paths)| {
        paths.iter().flat_map(move |path| {
            path.bins.iter().map(move |bin| PathLine {
                variant: variant.clone(),
                route: path.route.clone(),
                program: path.program,
                time_s: Hundredths(bin.time_s),
                runs: bin.count,
                x_m: bin.x.median.into(),
                x_m_low: bin.x.low.into(),
                x_m_high: bin.x.high.into(),
                y_m: bin.y.median.into(),
                y_m_low: bin.y.low.into(),
                y_m_high: bin.y.high.into(),
            })
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_of_a_histogram_match_a_hand_example() {
        // Four in the second bin and four in the fourth: half lie below the second bin's end.
        let counts = [0, 4, 0, 4];
        assert_eq!(quantile(&counts, 0.25), Some(1.5));
        assert_eq!(quantile(&counts, 0.5), Some(2.0));
        assert_eq!(quantile(&counts, 0.75), Some(3.5));
        assert_eq!(quantile(&[0, 0], 0.5), None);
    }
}
