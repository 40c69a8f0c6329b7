//! Experiments: overrides, factors, names and order.

use super::{Folder, small};
use crate::{Experiment, bundled_text, experiment};

fn load(text: &str) -> Result<Experiment, String> {
    let folder = Folder::with(&[("base.toml", &small("")), ("e.toml", text)]);
    experiment(&folder.path("e.toml")).map_err(|faults| folder.shown(&faults.to_string()))
}

#[test]
fn variants_are_crossed_with_factors_and_the_last_changes_fastest() {
    let plan = load(
        r#"scenario = "base.toml"
baseline = "a"
variant = [
  { name = "a" },
  { name = "b", set = { attack.rover.route = "seam-sit", "zone.sink_back_m" = 0.1 } },
]
[factors]
"zone.sink_back_m" = [0.0, 0.6]
players.attack.body.jump_m = [0.4, 0.5]
players.defence.body.jump_m = [0.3]
"#,
    )
    .unwrap_or_else(|faults| panic!("{faults}"));
    let names: Vec<&str> = plan.variants.iter().map(|variant| variant.name.as_str()).collect();
    assert_eq!(
        names[..3],
        [
            "a / sink_back_m=0.0 / attack.body.jump_m=0.4 / defence.body.jump_m=0.3",
            "a / sink_back_m=0.0 / attack.body.jump_m=0.5 / defence.body.jump_m=0.3",
            "a / sink_back_m=0.6 / attack.body.jump_m=0.4 / defence.body.jump_m=0.3",
        ]
    );
    assert_eq!((names.len(), plan.baseline.as_str()), (8, names[0]));
    let last = &plan.variants[7];
    assert_eq!(last.settings[0], ("attack.rover.route".into(), "\"seam-sit\"".into()));
    assert_eq!(last.setup.attack.programs[0].name, "seam-sit");
    assert_eq!(last.setup.attackers.body.jump_m, 0.5);
    let sunk = last.setup.zone.table.anchors[0][3].y;
    assert!((sunk - 0.9).abs() < 1e-5, "the factor comes later and wins: {sunk}");
}

#[test]
fn a_scenario_is_an_experiment_with_one_variant() {
    let plan = load(&small("")).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!((plan.variants.len(), plan.variants[0].name.as_str()), (1, "as-given"));
    assert_eq!((plan.key.as_str(), plan.baseline.as_str()), ("e", "as-given"));
}

#[test]
fn an_override_replaces_a_table_as_a_whole() {
    let plan =
        load("scenario = \"base.toml\"\nvariant = [{ name = \"a\", set = { zone = { use = \"3-2\" } } }]\n");
    assert_eq!(plan.map(|plan| plan.variants[0].setup.zone.name.clone()), Ok("3-2".into()));
}

#[test]
fn faults_of_overrides_point_at_the_experiment() {
    let faults = load(
        r#"scenario = "base.toml"
[[variant]]
name = "a"
set = { "zone.sink_bak_m" = 0.6, "zone.carry_m" = "far", "name.short" = 1, "zone..use" = 1 }
[[variant]]
name = "a"
"#,
    )
    .map(|_| ());
    let expected = [
        "e.toml:4:9: zone.sink_bak_m: found an unknown key, allowed use, sink_back_m, sink_front_m, extension_m, \
         post_stance, post_help_rule, corner_rule, trap, overload_rule, high_post_on_ball, adjust_after, bump_delay_s, \
         on_ball_m, closeout_stop_m, closeout_from_m, help_within_m, carry_m, match_up, denial, reversal_denial, \
         stunt_m, stunt_s, fly_by, dig or respect, \
         did you mean `zone.sink_back_m`?",
        "e.toml:4:51: zone.carry_m: found \"far\", allowed a number, 0 to 12 m",
        "e.toml:4:58: found `name.short`, allowed a path through tables; `name` is a text",
        "e.toml:4:76: found `zone..use`, allowed a dotted path such as zone.sink_back_m",
        "e.toml:6:8: variant.2.name: found \"a\", allowed a name that no earlier variant has",
    ];
    assert_eq!(faults, Err(expected.join("\n")));
}

#[test]
fn faults_of_plans() {
    let check = |text: &str, message: &str| {
        assert_eq!(load(&format!("scenario = \"base.toml\"\n{text}")).map(|_| ()), Err(message.into()));
    };
    check(
        "",
        "e.toml:1:1: variant: found nothing, allowed at least one [[variant]] with a name, one list of \
         values under [factors], or a [design]",
    );
    check(
        "baseline = \"hold\"\nvariant = [{ name = \"hold-wing\" }]\n",
        "e.toml:2:12: baseline: found \"hold\", allowed hold-wing, did you mean `hold-wing`?",
    );
    check(
        "factors = { \"zone.sink_back_m\" = [0.5, 0.5], zone.sink_back_m = 1 }",
        "e.toml:2:40: factors.zone.sink_back_m: found 0.5, allowed each value once\n\
         e.toml:2:51: zone.sink_back_m: found `zone.sink_back_m` a second time, allowed each path once\n\
         e.toml:2:65: factors.zone.sink_back_m: found 1, allowed a list of values, [...]",
    );
    check(
        "possessions = 0\nvariant = [{ name = \"a\" }]",
        "e.toml:2:15: possessions: found 0, allowed a whole number, 1 to 1,000,000,000 possessions",
    );
    let plan = load("scenario = \"base.toml\"\nrank_by = \"open_look\"\nvariant = [{ name = \"a\" }]\n");
    let fault = plan.map(|plan| plan.rank_by_fault(&["turnover_rate", "open_look_rate"]).to_string());
    let message = fault.unwrap_or_else(|faults| panic!("{faults}"));
    assert!(message.ends_with(
        "e.toml:2:11: rank_by: found \"open_look\", allowed turnover_rate or open_look_rate, did you mean `open_look_rate`?"
    ));
}

#[test]
fn answers_are_the_variants_under_each_rule_of_their_zone() {
    let text = r#"scenario = "base.toml"
variant = [
  { name = "a", set = { "zone.post_help_rule" = "point-drops" } },
  { name = "b", set = { "zone.sink_back_m" = 0.6 } },
]
"#;
    let folder = Folder::with(&[("base.toml", &small("")), ("e.toml", text)]);
    let file = folder.path("e.toml");
    let plan = experiment(&file).unwrap_or_else(|faults| panic!("{faults}"));
    let found = plan.answers(&["b", "a", "nobody"], 6).unwrap_or_else(|faults| panic!("{faults}"));
    let told: Vec<(&str, &str, bool)> =
        found.iter().map(|a| (a.variant.as_str(), a.rule.as_str(), a.in_force)).collect();
    let expected = [
        ("b", "far-back-crosses", true),
        ("b", "near-wing-drops", false),
        ("b", "point-drops", false),
        ("a", "far-back-crosses", false),
        ("a", "near-wing-drops", false),
        ("a", "point-drops", true),
    ];
    assert_eq!(told, expected);
    let too_many = plan.answers(&["b", "a"], 5).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(too_many.len(), 0);
    assert_eq!(found[5].setup, plan.variants[0].setup);
    // Nothing but the zone differs, and it is the zone that a file with the rule would give.
    assert_eq!(found[1].setup.attack, found[0].setup.attack);
    assert_eq!(found[3].setup.zone.helper, found[0].setup.zone.helper);
    assert_ne!(found[3].setup.zone, found[0].setup.zone, "a's back line does not sink");
    assert_ne!(found[2].setup.zone.helper, found[0].setup.zone.helper);
}

#[test]
fn a_rule_has_words_whether_its_file_gives_them_or_not() {
    let zone = bundled_text("1-2-2").expect("a bundled zone");
    let own = zone.replace("the far back crosses to the low post", "the far back slides over").replace(
        "[post_help.point-drops]\nline = \"the point drops to the low post\"\n",
        "[post_help.home]\n",
    );
    let scenario = small("").replace("\"1-2-2\"", "\"own.toml\"");
    let folder = Folder::with(&[("own.toml", &own), ("s.toml", &scenario)]);
    let plan = experiment(&folder.path("s.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    let found = plan.answers(&["as-given"], 64).unwrap_or_else(|faults| panic!("{faults}"));
    let told: Vec<(&str, &str)> = found.iter().map(|a| (a.rule.as_str(), a.line.as_str())).collect();
    let expected = [
        ("far-back-crosses", "the far back slides over"),
        ("near-wing-drops", "the near wing drops to the low post"),
        ("home", "the point takes the low post"),
    ];
    assert_eq!(told, expected);
    let wrong = own.replace("\"the far back slides over\"", "3");
    let folder = Folder::with(&[("own.toml", &wrong), ("s.toml", &scenario)]);
    let message = experiment(&folder.path("s.toml")).expect_err("no text").to_string();
    assert!(
        message.contains("post_help.far-back-crosses.line: found 3, allowed a text in quotes"),
        "{message}"
    );
}
