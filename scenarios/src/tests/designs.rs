//! Designs: how many cells of each kind, what differs between them, and what is said of those that cannot be used.

use super::{Folder, small};
use crate::{Experiment, experiment};

/// An experiment with such a design, and a list beside it.
fn read(design: &str, list: &str) -> Result<Experiment, String> {
    let text = format!("scenario = \"s.toml\"\n{design}");
    let folder = Folder::with(&[("e.toml", &text), ("s.toml", &small("")), ("list.csv", list)]);
    experiment(&folder.path("e.toml")).map_err(|faults| folder.shown(&faults.to_string()))
}

fn of(design: &str) -> Experiment {
    read(design, "").unwrap_or_else(|fault| panic!("{fault}"))
}

/// The values of all cells, as they are told.
fn told(experiment: &Experiment) -> Vec<String> {
    let cell = |cell: &Vec<crate::design::Level>| {
        cell.iter().map(|level| level.told.as_str()).collect::<Vec<_>>().join(" ")
    };
    experiment.cells.values.iter().map(cell).collect()
}

const SINK: &str = "[[design.factor]]\nkey = \"zone.sink_back_m\"\n";
const RULE: &str = "[[design.factor]]\nkey = \"zone.post_help_rule\"\nvalues = [\"far-back-crosses\", \"near-wing-drops\"]\n";
const TWO: &str = "[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\nset = { \"attack.rover.route\" = \"seam-cross\" }\n";

#[test]
fn a_full_design_has_every_combination_and_the_variants_in_each() {
    let found = of(&format!("{TWO}[design]\nkind = \"full\"\n{SINK}range = [0.0, 1.2]\nlevels = 3\n{RULE}"));
    let rules = |sink: &str| [format!("{sink} far-back-crosses"), format!("{sink} near-wing-drops")];
    assert_eq!(told(&found), ["0", "0.6", "1.2"].map(rules).concat());
    let names: Vec<&str> = found.variants.iter().take(3).map(|variant| variant.name.as_str()).collect();
    assert_eq!(names, ["cell 1 / a", "cell 1 / b", "cell 2 / a"]);
    let fourth = &found.variants[7];
    assert_eq!((fourth.own.as_str(), fourth.cell, found.baseline.as_str()), ("b", 3, "cell 1 / a"));
    assert!(fourth.setup.zone != found.variants[1].setup.zone);
    let wanted = [
        ("attack.rover.route", "\"seam-cross\""),
        ("zone.sink_back_m", "0.6"),
        ("zone.post_help_rule", "\"near-wing-drops\""),
    ];
    assert_eq!(fourth.settings, wanted.map(|(key, value)| (key.to_owned(), value.to_owned())));
    assert_eq!(found.varied, ["zone.sink_back_m", "zone.post_help_rule", "attack.rover.route"]);
    let factors: Vec<_> =
        found.cells.factors.iter().map(|factor| (factor.key.as_str(), factor.range)).collect();
    assert_eq!(factors, [("zone.sink_back_m", None), ("zone.post_help_rule", None)], "levels, not ranges");
}

#[test]
fn hypercubes_and_sequences_have_as_many_cells_as_asked_for_and_what_is_told_is_played() {
    for kind in ["latin-hypercube", "sobol"] {
        let text = |seed: u64| {
            format!(
                "[design]\nkind = \"{kind}\"\ncells = 300\nseed = {seed}\n[[design.factor]]\nkey = \"zone.closeout_stop_m\"\nrange = [0.6, 1.8]\n{RULE}"
            )
        };
        let found = of(&text(1));
        assert_eq!((found.variants.len(), found.cells.len()), (300, 300));
        assert_eq!(found.cells.factors[0].range, Some((0.6, 1.8)));
        for variant in &found.variants {
            let level = &found.cells.values[variant.cell][0];
            assert_eq!(variant.setup.zone.closeout_stop_m, level.number.unwrap() as f32);
            assert_eq!(variant.settings[0], ("zone.closeout_stop_m".to_owned(), level.told.clone()));
            assert!(level.told.len() <= 8, "{}", level.told);
        }
        let below =
            |limit: f64| found.cells.values.iter().filter(|cell| cell[0].number.unwrap() < limit).count();
        assert!((98..=102).contains(&below(1.0)), "{kind}: {}", below(1.0));
        assert_eq!(found.cells.factors[1].levels, ["far-back-crosses", "near-wing-drops"]);
        let crosses = found.cells.values.iter().filter(|cell| cell[1].told == "far-back-crosses").count();
        assert!((148..=152).contains(&crosses), "{kind}: {crosses}");
        assert_eq!(told(&of(&text(1))), told(&found));
        assert_ne!(told(&of(&text(2))), told(&found));
    }
}

#[test]
fn one_at_a_time_begins_with_the_scenario_as_it_is() {
    let found = of(&format!("[design]\nkind = \"one-at-a-time\"\n{SINK}range = [0.0, 1.2]\n{RULE}"));
    let wanted = ["base base", "0 base", "1.2 base", "base far-back-crosses", "base near-wing-drops"];
    assert_eq!(told(&found), wanted);
    assert!(found.variants[0].settings.is_empty() && found.baseline == "cell 1");
}

#[test]
fn a_list_is_a_cell_a_row_and_what_it_leaves_out_stays() {
    let list = "# from somewhere else\nzone.sink_back_m,zone.post_help_rule\n0.3,near-wing-drops\n,far-back-crosses\n1.1\n";
    let found = read("[design]\nkind = \"list\"\nlist = \"list.csv\"\n", list).unwrap();
    assert_eq!(told(&found), ["0.3 near-wing-drops", "base far-back-crosses", "1.1 base"]);
    assert_eq!(found.variants[0].settings[1], ("zone.post_help_rule".into(), "\"near-wing-drops\"".into()));
    assert_eq!(found.inputs.iter().filter(|input| input.name.ends_with("list.csv")).count(), 1);
}

#[test]
fn a_number_that_a_row_leaves_out_is_the_one_that_the_scenario_writes() {
    let scenario = small("").replace("use = \"1-2-2\"", "use = \"1-2-2\", sink_back_ft = 2.0");
    let list = "zone.sink_back_m,zone.sink_front_m,zone.post_help_rule\n0.3,0.2,near-wing-drops\n,,far-back-crosses\n";
    let text = "scenario = \"s.toml\"\n[design]\nkind = \"list\"\nlist = \"list.csv\"\n";
    let folder = Folder::with(&[("e.toml", text), ("s.toml", &scenario), ("list.csv", list)]);
    let found = experiment(&folder.path("e.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    let numbers: Vec<_> = found.cells.values[1].iter().map(|level| level.number).collect();
    assert!((numbers[0].unwrap() - 0.6096).abs() < 1e-9, "{numbers:?}");
    assert_eq!((numbers[1], found.cells.values[1][0].told.as_str()), (None, "base"));
}

#[test]
fn what_was_read_is_enough_to_make_a_design_again_and_an_experiment_beside_it() {
    let list = "zone.sink_back_m\n0.3\n0.9\n";
    let found = read("[design]\nkind = \"list\"\nlist = \"list.csv\"\n", list).unwrap();
    // The folder is gone by now.
    let again = crate::experiment_kept(&found.inputs).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!((again.cells, again.design.clone()), (found.cells.clone(), found.design.clone()));
    let head = found.design.as_ref().map_or("", |design| &design.head);
    assert_eq!(head, "scenario = \"s.toml\"\n");
    let text = format!("{head}[[variant]]\nname = \"cell 2\"\nset = {{ \"zone.sink_back_m\" = 0.9 }}\n");
    let beside = found.beside("leading.toml", text).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(beside.variants[0].setup, found.variants[1].setup);
    assert_eq!((beside.key.as_str(), beside.inputs.len()), ("leading", found.inputs.len() - 1));
    let faults =
        found.beside("leading.toml", "scenario = \"s.toml\"\nvariant = 3\n".into()).map(drop).unwrap_err();
    assert!(faults.to_string().contains("leading.toml:2:11: variant: found 3"), "{faults}");
}

#[test]
fn crossed_factors_are_cells_too() {
    let found = of(&format!("{TWO}[factors]\n\"zone.sink_back_m\" = [0.0, 1.2]\n"));
    let cells: Vec<_> = found.variants.iter().map(|variant| (variant.own.as_str(), variant.cell)).collect();
    assert_eq!(cells, [("a", 0), ("a", 1), ("b", 0), ("b", 1)]);
    assert_eq!(told(&found), ["0.0", "1.2"]);
    assert!(found.design.is_none());
    let plain = of(TWO);
    assert_eq!((plain.cells, plain.variants[1].cell), (crate::design::Cells::one(), 0));
}

#[test]
fn what_cannot_be_used_is_said_once_and_where_it_stands() {
    let refused = |design: &str, wanted: &str| {
        let fault = read(design, "zone.sink_back_m,zone.sink_bakc_m\n0.3,0.4\n").map(drop).unwrap_err();
        // Which keys are known is another matter.
        let known = |text: &str| text.find("allowed use, ").zip(text.find(", did you mean"));
        let fault = known(&fault)
            .map_or(fault.clone(), |(from, to)| format!("{}allowed others{}", &fault[..from], &fault[to..]));
        assert_eq!(fault, wanted, "{design}");
    };
    let sampled = "[design]\nkind = \"sobol\"\ncells = 4096\n";
    refused(
        &format!("{sampled}[[design.factor]]\nkey = \"zone.sink_bakc_m\"\nrange = [0.0, 1.0]\n"),
        "e.toml:6:7: zone.sink_bakc_m: found an unknown key, allowed others, did you mean `zone.sink_back_m`?",
    );
    refused(
        &format!("{sampled}{SINK}range = [0.0, 9.0]\n"),
        "e.toml:7:15: zone.sink_back_m: found 9.0, allowed 0 to 1.5 m",
    );
    refused(
        &format!("{sampled}{SINK}range = [1.0, 1.0]\n"),
        "e.toml:7:9: design.factor.1.range: found [1.0, 1.0], allowed [low, high], the lower first and not the same",
    );
    refused(
        &format!("{sampled}{SINK}range = [0.0, 1.0]\ndistribution = \"triangular\"\nmode = 1.4\n"),
        "e.toml:9:8: design.factor.1.mode: found 1.4, allowed a value within the range, 0 to 1",
    );
    refused(
        "[design]\nkind = \"list\"\nlist = \"list.csv\"\n",
        "list.csv:1:18: zone.sink_bakc_m: found an unknown key, allowed others, did you mean `zone.sink_back_m`?",
    );
    refused(
        &format!("[design]\nkind = \"full\"\n{SINK}range = [0.0, 1.0]\n"),
        "e.toml:5:7: design.factor.1.levels: found nothing, allowed a number of values, 2 to 1000, for the range of a full design",
    );
    refused(
        &format!(
            "{sampled}{SINK}range = [0.0, 1.0]\n[[design.interaction]]\nof = [\"zone.sink_back_m\", \"variant\"]\n"
        ),
        "e.toml:9:27: design.interaction: found \"variant\", allowed zone.sink_back_m",
    );
}
