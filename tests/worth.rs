//! Continuation values are computed from possessions: the same for any number of threads, by who the players are
//! and what the clock says, and in a file that the loader takes.
//!
//! What it has caught: entries late on the clock were empty while possessions began with a full one.

use engine::setup::{BallPlace, CLOCK_S, Continuation, Moved, State};
use experiments::error::Exit;

use crate::support::{argument, folder, zoneprobe};

const SCENARIO: &str = "name = \"s\"\nrules = \"us-high-school\"\nzone = { use = \"1-2-2\" }\n\
    clock = { shot_clock_s = 35.0 }\nlevel = { attack = \"high-school\", defence = \"high-school\" }\n\
    attack = { use = \"rover\" }\n";
const COLD: &str = "[players.attack.skill.shot.three]\na = -1.5\n[players.attack.skill.shot.rim]\na = -1.8\n\
    [players.attack.skill.shot.short]\na = -1.2\n[players.attack.skill.shot.mid]\na = -2.0\n";

/// The table that so many of a scenario's possessions make, and its text.
fn computed(scenario: &str, possessions: &str, threads: &str) -> (Continuation, String) {
    let home = folder(&[("s.toml", scenario)]);
    let file = home.path().join("s.toml");
    let told = zoneprobe(&[
        "worth",
        argument(&file),
        "--sweeps",
        "2",
        "--possessions",
        possessions,
        "--threads",
        threads,
        "--quiet",
    ]);
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let table = home.path().join("table.toml");
    std::fs::write(&table, &told.out).expect("written");
    let judged = zoneprobe(&["check", argument(&table)]);
    assert_eq!(judged.exit, Exit::Done, "{}", judged.err);
    let user = home.path().join("user.toml");
    let names = "[players.attack.skill.continuation]\ntable = \"table.toml\"\n";
    std::fs::write(&user, format!("{scenario}{names}")).expect("written");
    let loaded = scenarios::scenario(&user).expect("a scenario that names the table");
    (loaded.setup.attackers.skill.continuation.clone(), told.out)
}

/// Mean worth over places and moves of a fresh catch with so much time left.
fn fresh(table: &Continuation, left_s: f32) -> f32 {
    let states = BallPlace::ALL.into_iter().flat_map(|place| Moved::ALL.map(|moved| (place, moved)));
    let worths: Vec<f32> =
        states.map(|(place, moved)| table.worth(State { place, moved, held_s: 0.25, left_s })).collect();
    worths.iter().sum::<f32>() / worths.len() as f32
}

#[test]
fn a_table_is_the_same_for_any_number_of_threads() {
    assert_eq!(computed(SCENARIO, "256", "1").1, computed(SCENARIO, "256", "3").1);
}

#[test]
fn a_table_follows_the_shooters_and_the_clock() {
    let (warm, _) = computed(SCENARIO, "3072", "2");
    let (cold, _) = computed(&format!("{SCENARIO}{COLD}"), "3072", "2");
    for left_s in CLOCK_S {
        assert!(fresh(&cold, left_s) < fresh(&warm, left_s), "colder shooters, {left_s} s left");
    }
    // Hardly anything comes of half a second; ten more seconds are worth little once there is time for a pass or two.
    assert!(fresh(&warm, 0.5) < 0.7 * fresh(&warm, 12.0), "{} and {}", fresh(&warm, 0.5), fresh(&warm, 12.0));
    assert!((fresh(&warm, 23.0) - fresh(&warm, 12.0)).abs() < 0.2);
    // A break costs what it adds to an ordinary possession.
    assert!(warm.after_loss < -0.02 && warm.after_miss.iter().all(|points| (0.0..0.6).contains(points)));
}
