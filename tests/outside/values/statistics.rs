//! Intervals, differences and adjusted p-values, each with the data they were computed from.

use experiments::stats::{
    Against, Better, Figure, Generator, Interval, Joint, Predictive, Totals, after_count, benjamini_hochberg,
    beta, bootstrap, holm, newcombe_interval, normal, normal_interval, paired_difference, pairing_gain,
    possessions_for_two_shares, possessions_needed, share_interval, simultaneous, wilson_interval,
};
use serde_json::{Value, json};

const CONFIDENCES: [f64; 3] = [0.8, 0.95, 0.999];
/// Measures of the made-up possessions: a yes or no, rebounds, misses.
const MEASURES: usize = 3;
const FIGURES: [(&str, Figure); 3] =
    [("rate", Figure::Mean(0)), ("mean", Figure::Mean(2)), ("ratio", Figure::Ratio(0))];

fn ends(interval: Option<Interval>) -> Value {
    interval.map_or(Value::Null, |i| json!([i.estimate, i.low, i.high]))
}

fn counts(trials: u64) -> Vec<u64> {
    let mut counts = vec![0, 1, trials / 7, trials / 3, trials / 2, trials - 1, trials];
    counts.dedup();
    counts
}

fn wilson() -> Vec<Value> {
    let mut rows = Vec::new();
    for trials in [1, 2, 7, 20, 263, 8192, 1_000_003] {
        for successes in counts(trials) {
            for confidence in CONFIDENCES {
                let interval = wilson_interval(successes, trials, normal::two_sided_z(confidence));
                rows.push(json!([successes, trials, confidence, ends(interval)]));
            }
        }
    }
    rows
}

/// The beta distribution at some places: x, parameters, chance below, and the quantile at that chance.
fn betas() -> Vec<Value> {
    let mut rows = Vec::new();
    for (a, b) in [(0.5, 0.5), (1.0, 3.0), (9.9, 25.1), (47.8, 77.2), (400.0, 9_600.0), (30_000.0, 60_000.0)]
    {
        for x in [0.001, 0.02, 0.04, 0.3, 0.335, 0.5, 0.9, 0.999] {
            let below = beta::cdf(x, a, b);
            rows.push(json!([x, a, b, below, beta::quantile(0.025, a, b)]));
        }
    }
    rows
}

/// What is believed of a share after a count: made, attempted, share and attempts before, and the interval after.
fn counted() -> Vec<Value> {
    let mut rows = Vec::new();
    for (made, attempted) in [(0, 0), (0, 3), (2, 5), (38, 95), (400, 1000)] {
        for prior in [(0.327, 30.0), (0.55, 5.0)] {
            let after = after_count(f64::from(made), f64::from(attempted), prior, 0.95);
            rows.push(json!([made, attempted, prior.0, prior.1, ends(after)]));
        }
    }
    rows
}

/// The shares that players of a loaded roster play with: made, attempted, the level's share and its attempts, and the share.
fn played() -> Vec<Value> {
    const SCENARIO: &str = "name = \"outside\"\nrules = \"us-high-school\"\nroster = \"our.csv\"\nzone = { use = \"1-2-2\" }\n\
        level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\", plan = \"free\" }\n";
    const ROSTER: &str = "role,open_threes,rim,free_throws\nrover,38 of 95,2 of 5,9 of 12\nlead-guard,1 of 6,,0 of 3\n\
        other-post,,400 of 1000,28 of 55\n";
    let folder = tempfile::tempdir().expect("a temporary folder");
    let file = folder.path().join("outside.toml");
    std::fs::write(&file, SCENARIO).expect("a written file");
    std::fs::write(folder.path().join("our.csv"), ROSTER).expect("a written file");
    let setup = scenarios::scenario(&file).unwrap_or_else(|faults| panic!("{faults}")).setup;
    let known = setup.individuals.iter().flatten().flat_map(|player| &player.known);
    let real = |value: f32| f64::from(value);
    known
        .map(|own| {
            let (made, attempted) = own.counted.expect("a count");
            json!([made, attempted, real(own.level), real(own.prior_attempts), real(own.played)])
        })
        .collect()
}

/// What is predicted of a count after a count: trials, made, of, and the mean, the interval, and the p of every tenth count.
fn predicted() -> Vec<Value> {
    let mut rows = Vec::new();
    for (trials, made, of) in
        [(1, 0, 0), (7, 2, 5), (40, 512, 2_048), (100, 0, 4_096), (250, 900_000, 1_000_000)]
    {
        let own = Predictive::new(trials, made, of);
        let p: Vec<f64> = (0..=trials).step_by(10).map(|seen| own.two_sided_p(seen)).collect();
        rows.push(json!([trials, made, of, own.mean(), own.interval(0.95), p]));
    }
    rows
}

fn newcombe() -> Vec<Value> {
    let mut rows = Vec::new();
    for (first, second) in [(7, 20), (20, 20), (56, 29), (8192, 4096)] {
        for a in counts(first) {
            for b in counts(second) {
                for confidence in CONFIDENCES {
                    let z = normal::two_sided_z(confidence);
                    let interval = newcombe_interval((a, first), (b, second), z);
                    rows.push(json!([a, first, b, second, confidence, ends(interval)]));
                }
            }
        }
    }
    rows
}

fn adjusted(raw: Vec<f64>) -> Value {
    json!({ "holm": holm(&raw), "benjamini_hochberg": benjamini_hochberg(&raw), "raw": raw })
}

/// Five evenly spaced values, then made-up ones.
fn families(random: &mut Generator) -> Vec<Value> {
    let even = vec![0.01, 0.02, 0.03, 0.04, 0.05];
    let made_up = (0..60)
        .map(|n| {
            (0..1 + n % 14)
                .map(|_| {
                    let u = random.uniform();
                    // Small ones, large ones, and some that are equal.
                    if u < 0.2 { 0.01 } else { u * u * u }
                })
                .collect()
        })
        .collect::<Vec<Vec<f64>>>();
    std::iter::once(even).chain(made_up).map(adjusted).collect()
}

/// Bootstrap intervals with their data and the figures drawn: the example of scipy's documentation of `bootstrap`, the
/// standard deviation of 100 normal values around 2 that scatter by 4, and the mean of skewed ones.
fn bootstraps(random: &mut Generator) -> Vec<Value> {
    let normal: Vec<f64> = (0..100).map(|_| 2.0 + 4.0 * random.normal()).collect();
    let skewed: Vec<f64> = (0..40).map(|_| -random.uniform().ln()).collect();
    let mean = |data: &[f64], drawn: &[u32]| {
        drawn.iter().map(|&n| data[n as usize]).sum::<f64>() / drawn.len() as f64
    };
    let deviation = |data: &[f64], drawn: &[u32]| {
        let middle = mean(data, drawn);
        let squares = drawn.iter().map(|&n| (data[n as usize] - middle) * (data[n as usize] - middle));
        (squares.sum::<f64>() / drawn.len() as f64).sqrt()
    };
    let row = |name: &str,
               data: &[f64],
               confidence: f64,
               statistic: &(dyn Fn(&[f64], &[u32]) -> f64 + Sync)| {
        let of = |drawn: &[u32]| Some(statistic(data, drawn));
        let drawn = bootstrap(data.len(), &of, confidence, (9_999, 7)).expect("there are data");
        json!({ "statistic": name, "data": data, "confidence": confidence, "ends": ends(drawn.interval()), "drawn": drawn.figures })
    };
    vec![
        row("std", &normal, 0.9, &deviation),
        row("mean", &normal, 0.95, &mean),
        row("mean", &skewed, 0.95, &mean),
    ]
}

/// The first points of Sobol sequences as they are, without scrambling.
fn sobol_points() -> Value {
    let of = |(points, axes)| scenarios::design::points::sobol(points, axes, None);
    json!([(1024, 2), (500, 21), (64, 64)].map(of))
}

/// Possessions an arm that tell two shares, and those that tell a mean from 0: what they are of, and how many.
fn sizes() -> Value {
    let (mut shares, mut paired) = (Vec::new(), Vec::new());
    for confidence in CONFIDENCES {
        let z = normal::two_sided_z(confidence);
        for power in [0.5, 0.8, 0.95] {
            for (a, b) in [(0.50, 0.55), (0.35, 0.3), (0.0, 0.1), (0.9, 1.0), (0.201, 0.2)] {
                let needed = possessions_for_two_shares(a, b, z, power);
                shares.push(json!([a, b, confidence, power, needed]));
            }
            for (difference, deviation) in [(0.1, 1.0), (-0.02, 0.4), (3.0, 5.0)] {
                let needed = possessions_needed(difference, deviation, z, power);
                paired.push(json!([difference, deviation, confidence, power, needed]));
            }
        }
    }
    json!({ "shares": shares, "paired": paired })
}

/// Possessions of variants that share part of their draws; each variant a little better than the one before.
fn possessions(variants: usize, count: usize, random: &mut Generator) -> Vec<Vec<i64>> {
    let one = |random: &mut Generator| {
        let shared = random.uniform();
        let mut row = Vec::new();
        for variant in 0..variants {
            let own = random.uniform();
            let mixed = if random.uniform() < 0.5 { shared } else { own };
            let misses = (mixed * 4.0) as i64;
            let hands = 0.25 + 0.02 * variant as f64;
            let rebounds = (0..misses).filter(|_| random.uniform() < hands).count() as i64;
            row.extend([i64::from(mixed < 0.35 + 0.015 * variant as f64), rebounds, misses]);
        }
        row
    };
    (0..count).map(|_| one(random)).collect()
}

fn table(variants: usize, rows: &[Vec<i64>]) -> Value {
    let mut totals = Totals::new(variants, MEASURES, &[(1, 2)]);
    rows.iter().for_each(|row| totals.add(row));
    let z = normal::two_sided_z(0.95);
    let of = |figure| {
        let joint = Joint::new(&totals, figure, 1.0).expect("there are data");
        let pairs = (0..variants).flat_map(|v| (0..v).map(move |w| (v, w)));
        let differences: Vec<Value> = pairs
            .filter_map(|pair| Some((pair, paired_difference(&totals, figure, pair, 1.0, z)?)))
            .map(|(pair, d)| {
                json!({
                    "pair": pair,
                    "ends": ends(Some(d.interval)),
                    "error": d.standard_error,
                    "p": d.p,
                    "variance_ratio": pairing_gain(&totals, figure, pair.0, pair.1),
                })
            })
            .collect();
        let together = |against| {
            let all = simultaneous(&joint, against, 0.95, &[]);
            json!({
                "reference": all.reference,
                "critical": all.critical,
                "adjusted": all.contrasts.iter().map(|c| (c.variant, c.adjusted_p)).collect::<Vec<_>>(),
            })
        };
        json!({
            "intervals": (0..variants)
                .map(|v| ends(normal_interval(&totals, figure, v, 1.0, z)))
                .collect::<Vec<_>>(),
            "differences": differences,
            "baseline": together(Against::Baseline(0)),
            "leader": together(Against::Leader(Better::Higher)),
        })
    };
    let mut figures = serde_json::Map::new();
    for (name, figure) in FIGURES {
        figures.insert(name.to_owned(), of(figure));
    }
    let shares: Vec<Value> = (0..variants).map(|v| ends(share_interval(&totals, 0, v, z))).collect();
    json!({ "variants": variants, "rows": rows, "figures": figures, "shares": shares })
}

pub fn values() -> Value {
    let mut random = Generator::new(2024);
    let tables: Vec<Value> = [(3, 40), (4, 1000), (7, 3000)]
        .iter()
        .map(|&(variants, count)| table(variants, &possessions(variants, count, &mut random)))
        .collect();
    let chances = (1..400).map(|n| f64::from(n) / 400.0).chain([1e-300, 1e-20, 1e-9, 1e-4, 1.0 - 1e-9]);
    let places = (-300..=80).map(|n| f64::from(n) / 10.0);
    json!({
        "wilson": wilson(),
        "newcombe": newcombe(),
        "beta": betas(),
        "counted": counted(),
        "played": played(),
        "predicted": predicted(),
        "families": families(&mut random),
        "bootstraps": bootstraps(&mut Generator::new(2)),
        "sobol": sobol_points(),
        "sizes": sizes(),
        "quantile": chances.map(|p| [p, normal::quantile(p)]).collect::<Vec<_>>(),
        "cdf": places.map(|x| [x, normal::cdf(x), normal::two_sided_p(x)]).collect::<Vec<_>>(),
        "tables": tables,
    })
}
