//! A plan is kept to: what the holder looks for, who may shoot what, how well it is known; and without a look order there is
//! none.
//!
//! What it has caught: nothing yet.

use std::sync::Arc;

use engine::Measure;
use engine::film::{Film, What};
use engine::film_possession;
use engine::math::Vec2;
use engine::setup::{BallPlace, Setup};
use engine::slots::{GUARDS, POSTS};

use crate::looks::{Demand, Z_3_ERRORS, demand};
use crate::support::{argument, folder, lead_over, matchup, over, paired, question, records};
use crate::trade::estimate::{Series, difference};

/// The bundled scenario with a plan of one's own; the shot clock of a possession starts at 27 s.
fn planned(plan: &str, drilled: f64) -> Arc<Setup> {
    let folder = folder(&[("plan.toml", plan)]);
    let plan = format!("{:?}", argument(&folder.path().join("plan.toml")));
    let drilled = drilled.to_string();
    over("sunken-122", [("attack.plan", plan.as_str()), ("attack.drilled", drilled.as_str())])
        .unwrap_or_else(|faults| panic!("{faults}"))
}

/// Films of the first possessions.
fn films(setup: &Arc<Setup>, count: u64) -> Vec<Film> {
    (0..count).map(|possession| film_possession(setup, 5, possession)).collect()
}

/// When the late clock begins, s after the start: 27 s less the 8 s of a plan that says nothing.
const LATE_FROM_S: f32 = 19.0;

#[test]
fn a_plan_without_a_look_order_is_none() {
    let (named, silent) = (matchup(&[]), planned("line = \"nothing taught\"\n", 1.0));
    assert!(named.attack.plan.is_none() && silent.attack.plan.is_none());
    assert_eq!(records(&named, 3, 64), records(&silent, 3, 64));
}

#[test]
fn a_shot_that_no_rule_allows_waits_for_the_late_clock() {
    let plan = "[[look]]\nat = [\"top\", \"slot\", \"wing\", \"corner\", \"elbow\"]\norder = [{ shoot = true }, \
                { pass = [\"guards\", \"rover\"] }]\n[[shot]]\nfrom = [\"rim\"]\n";
    let (mut early, mut late) = (0, 0);
    for film in films(&planned(plan, 1.0), 120) {
        for event in &film.events {
            if let What::Shot { metres, .. } = event.what {
                let is_early = event.time_s < LATE_FROM_S;
                // A put-back drifts a little before it is let go.
                assert!(!is_early || metres < 2.6, "{metres} m at {} s", event.time_s);
                *(if is_early { &mut early } else { &mut late }) += 1;
            }
        }
    }
    assert!(late >= 40, "{early} early, {late} late");
}

/// How many shots posts take late by these rules for shots, where the late clock begins at once and only guards and rover are to
/// have the ball then.
fn late_shots_of_posts(rules: &str) -> usize {
    let plan = format!(
        "[[look]]\nat = [\"low-post\", \"elbow\"]\norder = [{{ shoot = true }}]\n{rules}\
         [late]\nfrom_s = 27.0\nshoot_from_s = 1.0\n"
    );
    let is_posts = |what: &What| matches!(what, What::Shot { by, .. } if POSTS.contains(by));
    // The last second is anybody's; what is decided before it leaves the hands a little later.
    let late = |time_s: f32| time_s < 25.5;
    let films = films(&planned(&plan, 1.0), 300);
    films
        .iter()
        .flat_map(|film| &film.events)
        .filter(|event| late(event.time_s) && is_posts(&event.what))
        .count()
}

#[test]
fn a_post_shoots_late_what_he_may_shoot_at_any_time() {
    let (rule, none) =
        (late_shots_of_posts("[[shot]]\nfrom = [\"rim\", \"inside\"]\n"), late_shots_of_posts(""));
    // Without a rule only where there is nobody to give it to.
    assert!(rule >= 10 && rule >= 4 * none, "{rule} with a rule, {none} without");
}

#[test]
fn a_pass_goes_where_the_look_order_says() {
    let places = "\"top\", \"slot\", \"wing\", \"corner\", \"short-corner\", \"low-post\", \"elbow\"";
    let plan =
        format!("reset_after_s = 10.0\n[[look]]\nat = [{places}]\norder = [{{ pass = [\"guards\"] }}]\n");
    let mut passes = 0;
    for film in films(&planned(&plan, 1.0), 60) {
        let rebound = film
            .events
            .iter()
            .find(|event| matches!(event.what, What::Rebound { .. } | What::DriveStart { .. }));
        let until_s = rebound.map_or(LATE_FROM_S, |event| engine::math::min(event.time_s, LATE_FROM_S));
        for event in film.events.iter().filter(|event| event.time_s < until_s) {
            if let What::Pass { to, .. } = event.what {
                assert!(GUARDS.contains(&to), "a pass to {to:?} at {} s", event.time_s);
                passes += 1;
            }
        }
    }
    assert!(passes >= 200, "{passes} passes");
}

/// Passes straight back to who has just thrown the ball, and all that follow another pass, by possession.
fn returned(setup: &Arc<Setup>, count: u64) -> Series {
    let of = |film: &Film| {
        let passes = film.events.iter().filter_map(|event| match event.what {
            What::Pass { from, to, .. } => Some((from, to)),
            _ => None,
        });
        let passes: Vec<_> = passes.collect();
        let back = passes.windows(2).filter(|two| two[0] == (two[1].1, two[1].0)).count();
        (back as f64, passes.len().saturating_sub(1) as f64)
    };
    films(setup, count).iter().map(of).collect()
}

#[test]
fn a_ball_that_may_not_go_straight_back_goes_there_less_often() {
    let taught = scenarios::bundled_text("inside-first").expect("a bundled plan");
    let free = taught.replace("return_moved_m = 3.0", "return_moved_m = 0.0");
    assert_ne!(taught, free);
    let plans = [taught, &free].map(|plan| planned(plan, 1.0));
    demand(250, |count| {
        let [taught, free] = plans.each_ref().map(|setup| returned(setup, count));
        let less = difference(&taught, &free).interval(Z_3_ERRORS);
        vec![Demand::at_least("passes straight back less, of all", less, 0.05)]
    });
}

/// The share of the time with the ball held on a wing in which somebody is in the corner of that side.
fn corner_filled(setup: &Arc<Setup>) -> f64 {
    let (mut filled, mut held) = (0.0, 0.0);
    let corner = setup.zone.ball_places[BallPlace::Corner as usize];
    let wing = setup.zone.ball_places[BallPlace::Wing as usize];
    for film in films(setup, 150) {
        for frame in &film.frames {
            let Some(holder) = frame.holder.filter(|holder| holder.attacks()) else { continue };
            let at = frame.players[usize::from(holder)];
            let sign = if at.x < 0.0 { -1.0 } else { 1.0 };
            if (at - wing.sided(sign)).len() < 1.0 {
                held += 1.0;
                let there = |at: &Vec2| (*at - corner.sided(sign)).len() < 1.5;
                filled += f64::from(u8::from(frame.players[..5].iter().any(there)));
            }
        }
    }
    filled / held
}

#[test]
fn a_place_that_a_rule_fills_is_filled_and_one_without_is_not() {
    let orders = "reset_after_s = 6.0\n[[look]]\nat = [\"top\", \"slot\"]\norder = [{ pass = [\"rover\"] }]\n[[look]]\nat = \
                  [\"wing\"]\norder = [{ shoot = true }]\n";
    let fill = "[[fill]]\nplace = \"corner\"\nball = [\"wing\"]\nby = [\"off-guard\"]\n";
    let hold = |plan: &str| {
        let folder = folder(&[("plan.toml", plan)]);
        let plan = format!("{:?}", argument(&folder.path().join("plan.toml")));
        matchup(&[("attack.plan", plan.as_str()), ("attack.rover.route", "\"hold-wing\"")])
    };
    let (without, with) = (corner_filled(&hold(orders)), corner_filled(&hold(&format!("{orders}{fill}"))));
    assert!(without < 0.05 && with > 0.3, "{without:.2} without the rule, {with:.2} with it");
}

/// The share of all frames in which more than one attacker without the ball moves about between the lines.
fn crowded_gap(setup: &Arc<Setup>) -> f64 {
    let (mut crowded, mut frames) = (0.0, 0.0);
    for film in films(setup, 150) {
        for frame in &film.frames {
            let there = |at: &&Vec2| at.x.abs() < 2.2 && (2.1..5.0).contains(&at.y);
            crowded += f64::from(u8::from(frame.players[..5].iter().filter(there).count() > 1));
            frames += 1.0;
        }
    }
    crowded / frames
}

#[test]
fn a_plan_that_lets_one_man_into_the_gap_keeps_others_out_of_it() {
    let taught = scenarios::bundled_text("inside-first").expect("a bundled plan");
    let (open, _) = taught.split_once("# Between the lines").expect("its rule of the gap stands last");
    let [one, any] = [taught, open].map(|plan| crowded_gap(&planned(plan, 1.0)));
    assert!(one < 0.6 * any, "{one:.3} of the time with the rule, {any:.3} without");
}

#[test]
fn who_does_not_know_the_plan_is_slower_with_it() {
    let text = scenarios::bundled_text("inside-first").expect("a bundled plan");
    let [whole, nothing] = [1.0, 0.0].map(|drilled| records(&planned(text, drilled), 7, 3000));
    let (slower_s, error) = paired(&whole, &nothing, Measure::SecondsUsed);
    assert!(slower_s - 4.0 * error > 0.0, "{slower_s} s +- {error}");
}

#[test]
fn a_taught_attack_brings_more_than_one_that_has_been_taught_nothing() {
    // All seven routes of the bundled question, with the plan and without.
    assert!(question().variants.iter().all(|variant| variant.setup.attack.plan.is_some()));
    let free = |route: &str| matchup(&[("attack.rover.route", format!("{route:?}").as_str())]);
    demand(1500, |count| {
        let (mean, error) = lead_over(free, Measure::ExpectedNetPoints, 11, count);
        let ends = Z_3_ERRORS * error;
        vec![Demand::at_least("net points more", (mean - ends, mean + ends), 0.0)]
    });
}

#[test]
fn who_waits_for_a_man_on_his_way_brings_him_the_ball_more_often() {
    let text = scenarios::bundled_text("inside-first").expect("a bundled plan");
    let hurried = text.replace("waits_s = 1.5", "waits_s = 0.0");
    assert_ne!(text, hurried);
    let plans = [text, &hurried].map(|plan| planned(plan, 1.0));
    demand(1200, |count| {
        let [waits, hurries] = plans.each_ref().map(|setup| records(setup, 7, count));
        // Paint touches have drives and rebounds in them as well.
        let into = [Measure::LowPostPassesCaught, Measure::HighPostPassesCaught];
        let each = into.map(|measure| paired(&hurries, &waits, measure));
        let (more, error) = (each[0].0 + each[1].0, each[0].1 + each[1].1);
        let ends = Z_3_ERRORS * error;
        vec![Demand::at_least("passes to a post caught more", (more - ends, more + ends), 0.0)]
    });
}
