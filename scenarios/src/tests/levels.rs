//! Levels of play and rule sets: every value says what it is and where it comes from, levels stand to one another as
//! their sources say, and each of them plays.
//!
//! The agreement of the professional curves with the published table is plumbing: the curves are fits to the very
//! shots of that table, so it shows that fit, units and file reach the setup unharmed, not that the model is right.

use std::collections::HashSet;
use std::sync::Arc;

use engine::math::logistic;
use engine::setup::{Body, Setup, ShotCurve, Team};
use engine::{Arena, Measure};

use super::{Folder, small};
use crate::{bundled, scenario};

/// Levels from the youngest to the best, with the rule set each is meant for.
const MEN: [(&str, &str); 4] = [
    ("youth", "us-high-school"),
    ("high-school", "us-high-school"),
    ("college", "us-college-men"),
    ("pro", "us-professional"),
];
const WOMEN: [(&str, &str); 3] = [
    ("high-school-girls", "us-high-school"),
    ("college-women", "us-college-women"),
    ("pro-women", "international"),
];
/// Men's level, women's level.
const SAME_LEVEL: [(usize, usize); 3] = [(1, 0), (2, 1), (3, 2)];
/// The words of a source for another level's value, and that level.
const BORROWED: [(&str, &str); 3] = [
    ("as for high-school boys", "high-school"),
    ("as for college men", "college"),
    ("as for professional men", "pro"),
];

const FOOT_M: f64 = 0.3048;

fn setup(level: &str, rules: &str) -> Arc<Setup> {
    let text = small("")
        .replace("us-high-school", rules)
        .replace("\"high-school\"", &format!("\"{level}\""))
        .replace("\"1-2-2\"", "\"1-2-2\", sink_back_m = 1.2")
        .replace(
            "use = \"rover\"",
            "use = \"rover\", rover.route = \"seam-cross\", posts.options = { far-flash = 1.0, seal-helper = 1.0 }",
        );
    let folder = Folder::with(&[("s.toml", &text)]);
    match scenario(&folder.path("s.toml")) {
        Ok(scenario) => scenario.setup,
        Err(faults) => panic!("{level} under {rules}: {}", folder.shown(&faults.to_string())),
    }
}

/// The teams of these levels.
fn teams(levels: &[(&str, &str)]) -> Vec<Team> {
    levels.iter().map(|(level, rules)| setup(level, rules).attackers.clone()).collect()
}

/// One value of a level's file.
struct Stated {
    path: String,
    value: f64,
    range: (f64, f64),
    source: String,
}

/// All values of a level's file, in its order.
fn stated(level: &str) -> Vec<Stated> {
    fn walk(table: &dyn toml_edit::TableLike, path: &str, found: &mut Vec<Stated>) {
        let number = |item: &toml_edit::Item| item.as_float().or_else(|| item.as_integer().map(|n| n as f64));
        for (key, item) in table.iter().filter(|(_, item)| item.is_table_like()) {
            let (path, inner) = (format!("{path}{key}"), item.as_table_like().expect("a table"));
            let Some(value) = inner.get("value") else {
                walk(inner, &format!("{path}."), found);
                continue;
            };
            let ends = inner.get("range").and_then(|range| range.as_array()).expect("a range");
            let end = |n: usize| number(&toml_edit::Item::Value(ends.get(n).expect("two ends").clone()));
            found.push(Stated {
                value: number(value).expect("a number"),
                range: (end(0).expect("a number"), end(1).expect("a number")),
                source: inner.get("source").and_then(|source| source.as_str()).expect("a source").to_owned(),
                path,
            });
        }
    }
    let text = bundled::find("levels", level).expect("a bundled level");
    let document = toml_edit::Document::parse(text).expect("valid TOML");
    let mut found = Vec::new();
    walk(document.as_table(), "", &mut found);
    found
}

#[test]
fn every_value_of_a_level_has_its_range_and_a_source_that_says_what_it_is() {
    let usual: Vec<String> = stated("high-school").into_iter().map(|value| value.path).collect();
    assert!(usual.len() > 90, "{} values", usual.len());
    for level in bundled::names("levels") {
        let values = stated(level);
        let paths: Vec<&str> = values.iter().map(|value| value.path.as_str()).collect();
        assert_eq!(paths, usual, "{level}");
        for Stated { path, value, range: (low, high), source } in values {
            assert!(
                low < high && (low..=high).contains(&value),
                "{level}: {path} = {value} in {low} to {high}"
            );
            let plain =
                ["assumed", "from memory", "set by hand", "as for "].iter().any(|word| source.contains(word));
            let published = source.chars().any(|c| c.is_ascii_digit());
            assert!(plain || published, "{level}: {path}: {source}");
        }
    }
}

#[test]
fn a_value_taken_from_another_level_is_that_levels() {
    let mut borrowed = 0;
    for level in bundled::names("levels") {
        for (words, lender) in BORROWED {
            let lent = stated(lender);
            for (own, theirs) in stated(level).iter().zip(&lent).filter(|(own, _)| own.source.contains(words))
            {
                assert_eq!((own.value, own.range), (theirs.value, theirs.range), "{level}: {}", own.path);
                borrowed += 1;
            }
        }
    }
    assert!(borrowed > 200, "{borrowed} values");
}

#[test]
fn a_level_without_range_or_source_or_out_of_its_range_is_refused() {
    let whole = bundled::find("levels", "pro").expect("a bundled level");
    let line = whole.lines().find(|line| line.starts_with("sprint_m_s")).expect("a sprint");
    let faults = |written: &str| {
        let text = small("").replacen("\"high-school\" }", "\"own.toml\" }", 1);
        let folder = Folder::with(&[("s.toml", &text), ("own.toml", &whole.replace(line, written))]);
        let shown =
            scenario(&folder.path("s.toml")).map_or_else(|faults| faults.to_string(), |_| String::new());
        folder.shown(&shown)
    };
    assert_eq!(faults(line), "");
    for (written, expected) in [
        ("sprint_m_s = { value = 8.5, source = \"x\" }", "sprint_m_s.range: found nothing"),
        ("sprint_m_s = { value = 8.5, range = [8.0, 8.9] }", "sprint_m_s.source: found nothing"),
        (
            "sprint_m_s = { value = 9.5, range = [8.0, 8.9], source = \"x\" }",
            "sprint_m_s.value: found 9.5, allowed its own range, 8.0 to 8.9",
        ),
        (
            "sprint_m_s = { value = 850, range = [8.0, 8.9], source = \"x\" }",
            "sprint_m_s.value: found 850, allowed 1 to 12.5 m/s",
        ),
    ] {
        let message = faults(written);
        assert!(message.contains(expected), "{message}");
    }
}

/// True where each is less than the next.
fn rise(values: &[f32]) -> bool {
    values.windows(2).all(|pair| pair[0] < pair[1])
}

/// Asserts that a value rises from level to level, for men and for women.
fn rises(what: &str, value: impl Fn(&Team) -> f32) {
    for levels in [&MEN[..], &WOMEN[..]] {
        let values: Vec<f32> = teams(levels).iter().map(&value).collect();
        assert!(rise(&values), "{what}: {values:?} of {levels:?}");
    }
}

/// Asserts that women's value lies below men's of the same level.
fn less_for_women(what: &str, value: impl Fn(&Body) -> f32) {
    let (men, women) = (teams(&MEN), teams(&WOMEN));
    for (man, woman) in SAME_LEVEL {
        let (his, hers) = (value(&men[man].body), value(&women[woman].body));
        assert!(hers < his, "{what}: {hers} of {}, {his} of {}", WOMEN[woman].0, MEN[man].0);
    }
}

#[test]
fn older_and_better_players_run_faster_and_women_slower_than_men_of_their_level() {
    // Measured sprints: U14 boys, high-school boys, national-team men; high-school girls, college and elite women.
    rises("sprint", |team| team.body.sprint_m_s);
    less_for_women("sprint", |body| body.sprint_m_s);
}

#[test]
fn bodies_differ_as_measured_sizes_do() {
    // Reach goes with height and wingspan, jumps with age and training; shoulders of women and the young are narrower.
    rises("standing reach", |team| team.body.standing_reach_m);
    rises("arm's reach", |team| team.body.arm_reach_m);
    rises("lunge", |team| team.body.lunge_reach_m);
    rises("jump", |team| team.body.jump_m);
    less_for_women("standing reach", |body| body.standing_reach_m);
    less_for_women("arm's reach", |body| body.arm_reach_m);
    less_for_women("lunge", |body| body.lunge_reach_m);
    less_for_women("jump", |body| body.jump_m);
    less_for_women("radius", |body| body.radius_m);
    less_for_women("mass", |body| body.mass_kg);
    let men = teams(&MEN);
    assert!(men[0].body.radius_m < men[1].body.radius_m);
    assert!(men[1..].iter().all(|team| team.body.radius_m == men[1].body.radius_m), "grown men are alike");
}

#[test]
fn braking_follows_the_remembered_caps() {
    // 5.0 m/s2 for professionals, 4.5 for college and high-school boys, 4.0 for high-school girls and youth.
    let braking: Vec<f32> = teams(&MEN).iter().map(|team| team.body.braking_m_s2).collect();
    assert_eq!(braking, [4.0, 4.5, 4.5, 5.0]);
    assert_eq!(teams(&WOMEN)[0].body.braking_m_s2, 4.0);
    less_for_women("braking", |body| body.braking_m_s2);
}

#[test]
fn the_young_react_late_and_women_as_men() {
    // Adolescents react later than adults, players of the top sooner than others; no source tells women from men.
    let (men, women) = (teams(&MEN), teams(&WOMEN));
    let reaction: Vec<f32> = men.iter().map(|team| team.head.reaction_s).collect();
    assert!(
        reaction[0] > reaction[1] && reaction[1] == reaction[2] && reaction[2] > reaction[3],
        "{reaction:?}"
    );
    for (man, woman) in SAME_LEVEL {
        assert_eq!(men[man].head, women[woman].head, "{}", WOMEN[woman].0);
    }
}

#[test]
fn passes_get_faster_and_straighter_from_level_to_level() {
    // Chest passes of 7-10 m/s from youth to high school, of 9-13 m/s above, as remembered; accuracy is assumed.
    rises("chest pass", |team| team.skill.pass[0].speed_m_s);
    for kind in 0..4 {
        let errors: Vec<f32> = teams(&MEN).iter().rev().map(|team| team.skill.pass[kind].error_rad).collect();
        assert!(rise(&errors), "{errors:?}");
    }
}

/// A mean shooter's chance with the nearest defender `space_m` away.
fn chance(curve: ShotCurve, distance_m: f64, space_m: f64, more: f32) -> f64 {
    let z = curve.a + curve.distance * distance_m as f32 + curve.space * space_m.min(3.66) as f32 + more;
    f64::from(logistic(z))
}

#[test]
fn open_threes_and_free_throws_go_in_more_often_from_level_to_level() {
    // A mean shooter off the catch at the arc of his own floor, nobody within 6 ft. Threes as published: U16 boys .280,
    // high school .28-.32, Division I men .341, professional league .353-.358; Division I women .31-.32.
    let open = |levels: &[(&str, &str)]| -> Vec<f32> {
        let from = |(level, rules): &(&str, &str)| {
            let setup = setup(level, rules);
            let skill = &setup.attackers.skill.shot;
            let arc_m = f64::from(setup.court.three_radius_m);
            chance(skill.three, arc_m, 6.0 * FOOT_M, skill.three_catch) as f32
        };
        levels.iter().map(from).collect()
    };
    let (men, women) = (open(&MEN), open(&WOMEN));
    println!("open threes: men {men:.3?}, women {women:.3?}");
    assert!(rise(&men) && rise(&women), "{men:?}, {women:?}");
    assert!(SAME_LEVEL.iter().all(|&(man, woman)| women[woman] < men[man]), "{men:?}, {women:?}");
    rises("free throws", |team| team.skill.free_throw);
}

#[test]
fn professional_curves_give_the_published_table_back() {
    // Make rate by nearest defender (0-2, 2-4, 4-6, 6 ft and more), shot logs of 2014-15, 127,274 attempts. Middle of
    // each bin and mean distance of each class are assumed. A straight line in the logit cannot follow the drop of
    // threes with a man within 2 ft (1.6 % of threes): it lies .07 above there.
    let setup = setup("pro", "us-professional");
    let skill = &setup.attackers.skill.shot;
    let off_catch = skill.three_catch * 0.757; // The share of threes without a dribble.
    let middles_ft = [1.4, 3.1, 5.0, 8.0];
    for (class, curve, metres, table, closest, others, more) in [
        ("three", skill.three, 7.35, [0.219, 0.308, 0.346, 0.385], 0.08, 0.03, off_catch),
        ("two under 4 ft", skill.rim, 0.8, [0.527, 0.657, 0.826, 0.934], 0.04, 0.04, 0.0),
        ("two of 4-10 ft", skill.short, 2.05, [0.416, 0.471, 0.578, 0.744], 0.04, 0.04, 0.0),
        ("two of 10-16 ft", skill.mid, 3.95, [0.352, 0.384, 0.431, 0.528], 0.03, 0.03, 0.0),
        ("two from 16 ft", skill.mid, 5.7, [0.326, 0.363, 0.402, 0.449], 0.03, 0.03, 0.0),
    ] {
        let rates = middles_ft.map(|feet| chance(curve, metres, feet * FOOT_M, more));
        println!("{class}: {rates:.3?} against {table:?}");
        for (n, (rate, published)) in rates.iter().zip(table).enumerate() {
            let tolerance = if n == 0 { closest } else { others };
            assert!((rate - published).abs() <= tolerance, "{class}: {rates:.3?} against {table:?}");
        }
    }
}

#[test]
fn any_level_loads_under_any_rule_set_and_the_floor_is_the_rule_sets() {
    let mut floors = HashSet::new();
    for rules in bundled::names("rules") {
        let court = &setup("high-school", rules).court;
        floors.insert([court.three_radius_m, court.lane_half_m].map(f32::to_bits));
        for level in bundled::names("levels") {
            let setup = setup(level, rules);
            assert_eq!(&setup.court, court, "{level} under {rules}");
            assert_eq!(setup.attackers, setup.defenders, "{level} under {rules}");
        }
    }
    assert_eq!(floors.len(), 4, "college men and women share a floor, the others have their own");
}

#[test]
fn clocks_are_the_rule_sets() {
    let clocks = |rules| {
        let officials = &setup("college", rules).officials;
        (officials.shot_clock_s, officials.shot_clock_rebound_s, officials.closely_guarded_s)
    };
    assert_eq!(clocks("us-high-school"), (None, 35.0, Some(5.0)));
    assert_eq!(clocks("us-college-men"), (Some(30.0), 20.0, Some(5.0)));
    assert_eq!(clocks("us-college-women"), clocks("us-college-men"));
    assert_eq!(clocks("international"), (Some(24.0), 14.0, Some(5.0)));
    assert_eq!(clocks("us-professional"), (Some(24.0), 14.0, None));
}

#[test]
fn every_level_plays_against_a_sunken_zone_within_sane_bands() {
    const COUNT: u64 = 600;
    for (level, rules) in MEN.into_iter().chain(WOMEN) {
        let setup = setup(level, rules);
        let mut sums = [0_i64; Measure::COUNT];
        Arena::new(64).play(&setup, 1, 0..COUNT, &mut |record| {
            for (sum, value) in sums.iter_mut().zip(record.values) {
                *sum += value;
            }
        });
        let mean = |m: Measure| sums[m as usize] as f64 / m.unit().scale() / COUNT as f64;
        let share = |part: Measure, whole: Measure| sums[part as usize] as f64 / sums[whole as usize] as f64;
        let (turnovers, points) = (mean(Measure::Turnover), mean(Measure::Points));
        println!(
            "{level:18} {rules:18} open looks {:.3}, points {points:.2}, turnovers {turnovers:.3}, passes {:.2}, threes \
             {:.2} of shots, made {:.3}",
            mean(Measure::OpenLookTaken),
            mean(Measure::Passes),
            share(Measure::Threes, Measure::Shots),
            share(Measure::ThreesMade, Measure::Threes),
        );
        assert_eq!(sums[Measure::Fault as usize], 0, "{level}: numerical faults");
        assert!((0.05..=0.45).contains(&turnovers), "{level}: turnovers {turnovers}");
        assert!((0.5..=1.3).contains(&points), "{level}: points {points}");
    }
}
