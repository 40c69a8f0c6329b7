//! Time of each of the eight stages of a step, a world of possessions of the bundled question, one thread.
//!
//! Criterion's figure is the time of one stage for the whole world; its throughput counts player-steps.

use std::time::{Duration, Instant};

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use engine::{Arena, step::STAGES};

/// Possessions in the world.
const WIDTH: usize = Arena::WIDTH;
/// Steps after which the world is filled anew: before the first possessions end in numbers.
const STEPS: u64 = 80;

fn stages(criterion: &mut Criterion) {
    let experiment = scenarios::bundled_question().expect("the bundled question loads");
    let setup = &experiment.variants[1].setup;
    let mut arena = Arena::new(WIDTH);
    let mut seed = 0;
    let mut group = criterion.benchmark_group("stage");
    group.sample_size(10).measurement_time(Duration::from_secs(2));
    group.throughput(Throughput::Elements(WIDTH as u64 * 10));
    for (timed, name) in STAGES.iter().enumerate() {
        group.bench_function(*name, |bencher| {
            bencher.iter_custom(|steps| {
                let mut spent = Duration::ZERO;
                for step in 0..steps {
                    if step % STEPS == 0 {
                        seed += 1;
                        arena.fill(setup, seed);
                    }
                    for stage in 0..STAGES.len() {
                        let start = Instant::now();
                        arena.run_stage(stage);
                        if stage == timed {
                            spent += start.elapsed();
                        }
                    }
                }
                spent
            });
        });
    }
    group.finish();
}

criterion_group!(benches, stages);
criterion_main!(benches);
