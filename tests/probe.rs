use std::time::Instant;
use std::sync::Arc;
#[test]
fn speed() {
    let q = scenarios::bundled_question().unwrap();
    let mut arena = engine::Arena::new(64);
    for v in &q.variants {
        let t = Instant::now();
        let mut n = 0; let mut passes = 0; let mut open=0; let mut fault=0; let mut secs=0;
        arena.play(&v.setup, 1, 0..512, &mut |r| { n += 1; passes += r.value(engine::Measure::Passes); open += r.value(engine::Measure::OpenLookAvailable); fault += r.value(engine::Measure::Fault); secs+=r.value(engine::Measure::SecondsUsed)/1000000; });
        println!("{} {n} {:?} passes {passes} open {open} fault {fault} secs {secs}", v.name, t.elapsed());
    }
    let t = Instant::now();
    for k in 0..50 { let f = engine::film_possession(&q.variants[1].setup, 1, k); assert!(f.frames.len() > 3); }
    println!("50 films {:?}", t.elapsed());
    let _: Arc<engine::setup::Setup>;
}
