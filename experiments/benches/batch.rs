//! Possessions a second of the whole engine, on the bundled question.

use std::time::Duration;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use experiments::arena::EnginePlayer;
use experiments::columns::ratios;
use experiments::run::{Plan, Watch, run};

/// Possessions of each variant in one measurement.
const POSSESSIONS: u64 = 256;

struct Unwatched;

impl Watch for Unwatched {
    fn played(&self, _: u64) {}
}

fn batch(criterion: &mut Criterion) {
    let experiment = scenarios::bundled_question().expect("the bundled question loads");
    let setups = experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
    let player = EnginePlayer::new(setups, 1);
    let ratios = ratios();
    let mut group = criterion.benchmark_group("bundled question");
    group.sample_size(10).measurement_time(Duration::from_secs(10));
    group.throughput(Throughput::Elements(POSSESSIONS * experiment.variants.len() as u64));
    for threads in [1, 2] {
        let plan = Plan {
            variants: experiment.variants.iter().map(|variant| variant.name.clone()).collect(),
            possessions: 0..POSSESSIONS,
            batch: Some(64),
            threads,
            ratios: &ratios,
        };
        group.bench_function(BenchmarkId::new("threads", threads), |bencher| {
            bencher.iter(|| run(&plan, &player, &Unwatched).expect("the run ends well").digest);
        });
    }
    group.finish();
}

criterion_group!(benches, batch);
criterion_main!(benches);
