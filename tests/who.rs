//! Who should play where: the better of two rovers is found where one truly is better, and no difference is told otherwise, at
//! the stated rates; line-ups come out of the squad as it was written, and go on into a question.
//!
//! What it has caught: nothing yet.

use experiments::error::Exit;
use experiments::stats::{Better, End, Figure, Generator, Joint, Race, Totals, UntilSure, wilson_interval};
use rayon::prelude::*;

use crate::looks::Z_3_ERRORS;
use crate::studied;
use crate::support::{Told, argument, folder, zoneprobe};

const STUDY: &str = "experiments/studies/until-sure.md";
const AROUND: [&str; 2] = ["## Two rovers\n", "Real outcomes depend on"];
const UNTIL: UntilSure = UntilSure { margin: 0.04, budget: 8192 };
const RACES: u64 = 400;

/// Of so many races of two, how many call the second clearly better, the first so, and neither: draws are shared with a chance of
/// one half.
fn races(chances: [f64; 2], many: u64) -> [u64; 3] {
    let race = |seed: u64| {
        let mut random = Generator::new(7_000_000 + seed);
        let mut race = Race::new(2, Better::Higher, 0.95, UNTIL);
        while let Some((_, possessions)) = race.to_play() {
            let mut totals = Totals::new(2, 1, &[]);
            for _ in possessions {
                let shared = random.uniform();
                let one = |chance: f64| {
                    let draw = if random.uniform() < 0.5 { shared } else { random.uniform() };
                    i64::from(draw < chance)
                };
                totals.add(&chances.map(one));
            }
            race.look(&totals, |totals| Joint::new(totals, Figure::Mean(0), 1.0));
        }
        match (race.end(), race.ahead()) {
            (Some(End::Clear), Some(1)) => [1, 0, 0],
            (Some(End::Clear), _) => [0, 1, 0],
            _ => [0, 0, 1],
        }
    };
    let add = |a: [u64; 3], b: [u64; 3]| std::array::from_fn(|nth| a[nth] + b[nth]);
    (0..many).into_par_iter().map(race).reduce(|| [0; 3], add)
}

#[test]
fn the_better_of_two_is_found_and_of_equals_neither_at_the_stated_rates() {
    let share = |count: u64| wilson_interval(count, RACES, Z_3_ERRORS).expect("races");
    let [second, first, neither] = races([0.35, 0.43], RACES);
    assert!(
        share(second).high >= 0.95,
        "the better one: {second} of {RACES}, the other: {first}, neither: {neither}"
    );
    assert!(share(first).low <= 0.05, "the worse one: {first} of {RACES}");
    let [second, first, neither] = races([0.35, 0.35], RACES);
    assert!(
        share(neither).high >= 0.95,
        "of equals {second} and {first} are called better, none of {neither}"
    );
    assert!(share(second + first).low <= 0.05);
}

#[test]
#[ignore = "draws a hundred million values; writes the second table of experiments/studies/until-sure.md"]
fn study_of_two_rovers() {
    const MANY: u64 = 2000;
    let mut table = String::from(
        "\n| the second is better by | it is called better | the first is | no difference |\n| --- | --- | --- | --- |\n",
    );
    let mut broken = Vec::new();
    for by in [0.0, 0.01, 0.02, 0.04, 0.06, 0.08] {
        let told = races([0.35, 0.35 + by], MANY).map(|count| 100.0 * count as f64 / MANY as f64);
        let row = format!("| {by} | {:.2} % | {:.2} % | {:.2} % |\n", told[0], told[1], told[2]);
        print!("{row}");
        table += &row;
        // Two standard errors of so many races beside the promised twentieth.
        if told[1] > 5.0 || by == 0.0 && told[0] + told[1] > 5.97 {
            broken.push((by, told));
        }
    }
    studied::write_tables(STUDY, AROUND, &table);
    assert!(broken.is_empty(), "{broken:?}");
}

const GAME: &str = "name = \"Ours\"\nrules = \"us-high-school\"\nzone = { use = \"1-2-2\" }\n\
    level = { attack = \"high-school\", defence = \"high-school\" }\nattack = { use = \"rover\", plan = \"inside-first\" }\n";
const HEAD: &str = "name,plays,open_threes,rim,handling,passing\n";
const OTHERS: &str = "Ada,guard,,,,\nBea,guard,,,,\nCyn,post,,,,\nDot,post,,,,\n";

fn who(rovers: &str, out: Option<&std::path::Path>, budget: &str) -> Told {
    who_of(rovers, out, budget, "1")
}

fn who_of(rovers: &str, out: Option<&std::path::Path>, budget: &str, seed: &str) -> Told {
    let home = folder(&[("ours.toml", GAME), ("squad.csv", &format!("{HEAD}{rovers}{OTHERS}"))]);
    let (scenario, squad) = (home.path().join("ours.toml"), home.path().join("squad.csv"));
    let mut args = vec!["who", argument(&scenario), "--squad", argument(&squad), "--budget", budget];
    args.extend(["--possessions", "256", "--seed", seed, "--quiet"]);
    if let Some(out) = out {
        args.extend(["--out", argument(out)]);
    }
    zoneprobe(&args)
}

#[test]
fn of_two_rovers_the_better_one_is_named_and_of_twins_neither() {
    let home = folder(&[]);
    let out = home.path().join("who");
    let told = who("Weak,rover,0.15,0.40,poor,poor\nFine,rover,0.50,0.75,good,good\n", Some(&out), "4096");
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    assert!(told.out.contains("Rover: Fine.") && told.out.contains("Guards: Ada and Bea."), "{}", told.out);
    assert!(
        told.out.contains("One line-up is clearly best by")
            && told.out.contains("sure after 1,024 possessions"),
        "{}",
        told.out
    );
    let rows = std::fs::read_to_string(out.join("who.csv")).expect("rows");
    let row = |name: &str| rows.lines().find(|row| row.contains(name)).expect("a row").to_owned();
    assert!(row(",Weak,").contains(",dropped,") && row(",Fine,").contains(",ahead,"), "{rows}");
    let text = |name: &str| std::fs::read_to_string(out.join(name)).expect("a file");
    assert!(
        text("who.toml").contains("line-up-2.csv")
            && text("line-up-2.csv").contains("Fine,rover,0.50,0.75,good,good,rover"),
        "{}",
        text("line-up-2.csv")
    );

    // As good as twins: one makes a hundredth more, which is worth a tenth of the margin, but is not the same possessions. In one
    // run of twenty one of them may be called best by luck, so that two of three are more than luck.
    let mut claims = 0;
    for seed in ["1", "2", "3"] {
        let near = home.path().join(seed);
        let twins = who_of("Kit,rover,0.30,,,\nAnn,rover,0.31,,,\n", Some(&near), "8192", seed);
        assert_eq!(twins.exit, Exit::Done, "{}", twins.err);
        let rows = std::fs::read_to_string(near.join("who.csv")).expect("rows");
        assert!(
            !rows.lines().any(|row| row.contains(",left,") && row.contains(",0.000000,0.000000,0.000000,")),
            "{rows}"
        );
        if twins.out.contains("best by") {
            claims += 1;
            continue;
        }
        // Whether the margin is shown from both sides hangs on the luck of the two.
        let ends = ["No difference that matters", "Good enough"];
        assert!(ends.iter().any(|end| twins.out.contains(end)), "{}", twins.out);
        assert!(twins.out.contains("Rover: no difference shown between"), "{}", twins.out);
    }
    assert!(claims < 2, "{claims} of 3 called best");
}

#[test]
fn few_attempts_make_nobody_sure() {
    let told = who("Kit,rover,5 of 6,,,\nAnn,rover,1 of 6,,,\n", None, "8192");
    assert_eq!(told.exit, Exit::Done, "{}", told.err);
    let words = told.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("Rover: Kit.") && words.contains("whether he does is not sure"), "{words}");
    assert!(!words.contains("clearly best"), "{words}");
    assert!(
        words.contains(
            "that Kit truly makes more open threes than Ann (5 of 6 against 1 of 6) has a chance of 8"
        ),
        "{words}"
    );
    assert!(words.contains("was taken to be exactly right"), "{words}");
}

#[test]
fn a_squad_that_cannot_be_used_is_refused_where_it_stands() {
    let told = |rovers: &str| {
        let told = who(rovers, None, "1024");
        assert_eq!(told.exit, Exit::Unusable, "{}{}", told.out, told.err);
        told.err
    };
    for (rovers, word) in [
        ("", "has 4 players, allowed are 6 to 10"),
        ("Kit,guard,,,,\nAnn,guard,,,,\n", "0 may play rover, it takes 1"),
        ("Kit,rovr,,,,\nAnn,rover,,,,\n", "plays: found rovr"),
        ("Kit,rover,1.7,,,\nAnn,rover,,,,\n", "squad.csv:2:11"),
        // Also of somebody who plays in no line-up that is tried, and by his name.
        ("Kit,rover,,,,\nAnn,rover,,,,\nEve,rover,,wow,,\n", "player Eve.rim: found wow"),
    ] {
        let said = told(rovers);
        assert!(said.contains(word), "{rovers}: {said}");
    }
}
