//! Every picture from small fixed inputs, against the file of it under `snapshots/`.
//!
//! A picture that changed on purpose: `ZONEPROBE_BLESS=1 cargo test -p zoneprobe snapshots` writes it anew; then
//! look at it in a browser.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use engine::math::vec2;
use engine::setup::{PassKind, ProgramKind, Region, Setup};

use super::*;
use crate::compare::tests::sample;
use crate::places::{
    Caught, Choice, FloorTable, Held, Moment, PassRow, Regions, Runs, Scene, Still, Way, braces,
};
use crate::units::Units;

fn setup() -> Arc<Setup> {
    scenarios::scenario(Path::new("sunken-122")).unwrap().setup
}

/// Compares a picture with its file, or writes the file.
fn check(picture: &Picture) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("src/picture/snapshots")
        .join(format!("{}.svg", picture.id));
    let now = picture.file();
    if std::env::var_os("ZONEPROBE_BLESS").is_some_and(|value| value == "1") {
        fs::write(&path, &now).unwrap();
        return;
    }
    let then = fs::read(&path).unwrap_or_default();
    assert!(now == then, "{} is not as in its file; see the head of this module", picture.id);
}

#[test]
fn counts_by_place() {
    let setup = setup();
    let table = FloorTable::sample(&setup, 3);
    let grid = table.grid("open_look").unwrap();
    let top = top_of([grid], 1000);
    check(&heat(("heat", "cross", "open looks taken"), &setup, grid, 1000, top));
}

#[test]
fn where_the_zone_breaks_down() {
    let setup = setup();
    let own = Breakdowns::new(&FloorTable::sample(&setup, 9), 40, setup.step_s);
    check(&breakdown(("breakdown", "cross"), &setup, &own, own.top()));
}

#[test]
fn where_the_defenders_are() {
    let setup = setup();
    check(&defenders(("defenders", "cross"), &setup, &FloorTable::sample(&setup, 2), Units::M));
    check(&stand(("stand", "cross"), &setup, &Regions::sample(3), Region::Top).unwrap());
}

#[test]
fn what_the_places_are_called() {
    check(&named("places", &setup()));
}

#[test]
fn what_happens_by_region() {
    let (setup, own) = (setup(), Regions::sample(30));
    let counted = own.of("good_shot").unwrap();
    let top = crate::places::top(std::slice::from_ref(&own), "good_shot", 1000);
    check(&regions(("regions", "cross", "good shots"), &setup, counted, 1000, top));
    let lost = own.of("turnover").unwrap();
    check(&regions(("regions-lost", "cross", "turnovers"), &setup, lost, 1000, top));
    check(&free(("free", "cross"), &setup, &own, most_free([&own])));
}

#[test]
fn who_passes_to_whom() {
    let row = |from, to, thrown| PassRow {
        from,
        to,
        kind: PassKind::Chest,
        thrown,
        completed: thrown - 2,
        taken: 1,
    };
    let rows = [row(0, 1, 80), row(1, 0, 60), row(1, 2, 40), row(2, 4, 12), row(3, 0, 3)];
    check(&network(("network", "cross"), &setup(), &rows, 100));
}

#[test]
fn a_route_as_it_was_run() {
    let setup = setup();
    let route_of = setup.attack.programs.iter().position(|p| p.kind == ProgramKind::Route).unwrap();
    let run = |shift: f64| {
        (0..13).map(move |nth| {
            (5.4 - 0.5 * f64::from(nth), 3.6 - 0.1 * f64::from(nth) + shift * f64::from(nth % 5))
        })
    };
    let way = Way {
        program: route_of,
        runner: 2,
        runs: 150,
        begun: (138, 256),
        places: run(0.0).collect(),
        others: vec![run(0.2).collect(), run(-0.1).map(|(x, y)| (x.max(1.0), y)).collect()],
        scene: Some(Scene {
            players: engine::starting_places(&setup).map(|at| (f64::from(at.x), f64::from(at.y))),
            ball: (-1.8, 7.4),
            holder: Some(0),
            catches: vec![Caught { at: (1.9, 7.3), by: 1, time_s: 1.25 }],
            moment: Moment::SetsOut,
            time_s: 0.0,
            side: 1.0,
        }),
        ..Way::default()
    };
    check(&route(("route", "cross"), &setup, &way));
    let seals = setup.attack.programs.iter().position(braces).unwrap();
    let held =
        Some(Held { position: 3, is_seal: true, from: (1.8, 1.1), at: (1.9, 1.6), time_s: 0.75, side: -1.0 });
    let places = vec![(2.2, 0.2), (2.1, 0.5), (2.0, 0.8), (1.8, 1.1)];
    let seal = Way {
        program: seals,
        runner: 3,
        runs: 90,
        begun: (80, 256),
        places,
        held,
        held_in: 41,
        ..Way::default()
    };
    check(&route(("route-seal", "cross"), &setup, &seal));
}

#[test]
fn where_everyone_starts_and_whom_he_looks_for() {
    check(&start(("start", "cross"), &setup()));
    let way = |runner: usize, places: Vec<(f64, f64)>| Way { runner, runs: 9, places, ..Way::default() };
    let cut = way(2, (0..18).map(|nth| (5.0 - 0.5 * f64::from(nth), 3.0)).collect());
    let setup = setup();
    // As he sets out everyone is where he is then, and the ball with who has it.
    let scene = Scene {
        players: core::array::from_fn(|p| (p as f64 - 4.5, 1.0 + (p % 4) as f64 * 1.5)),
        ball: (-4.5, 1.0),
        holder: Some(0),
        // On the runner's way.
        catches: vec![Caught { at: (0.5, 3.0), by: 2, time_s: 2.25 }],
        moment: Moment::SetsOut,
        time_s: 0.0,
        side: 1.0,
    };
    let sets_out = Way { scene: Some(scene.clone()), ..cut.clone() };
    assert!(
        can_set_out(&sets_out, false, 2) && !can_set_out(&sets_out, true, 2) && !can_set_out(&cut, false, 2)
    );
    let passes = Scene { moment: Moment::Passes, holder: Some(2), catches: Vec::new(), ..scene.clone() };
    check(&card("card-rover", &setup, 2, Some(OnCard::Passes(&passes, [Some(0), Some(1)]))));
    check(&card("card-way", &setup, 2, Some(OnCard::Way((&sets_out, false)))));
    // Who seals is drawn as he holds, at the end of his way.
    let mut holds = Scene { moment: Moment::Seals, time_s: 4.25, catches: Vec::new(), ..scene.clone() };
    holds.players[2] = (-3.5, 3.0);
    let held = Some(Held {
        position: 3,
        is_seal: true,
        from: (-3.5, 3.0),
        at: (-3.5, 4.0),
        time_s: 4.25,
        side: 1.0,
    });
    let program = setup.attack.programs.iter().position(braces).unwrap();
    let held = Way { program, scene: Some(holds), held, ..cut.clone() };
    check(&card("card-holds", &setup, 2, Some(OnCard::Way((&held, false)))));
    let flash = way(3, vec![(1.9, 0.9), (1.6, 2.0), (0.4, 4.0)]);
    check(&card("card-post", &setup, 4, Some(OnCard::Way((&flash, true)))));
}

#[test]
fn what_a_variant_runs_at_a_glance() {
    let setup = setup();
    let route = setup.attack.programs.iter().position(|p| p.kind == ProgramKind::Route).unwrap();
    let places = vec![(5.6, 3.6), (4.0, 3.0), (2.0, 3.2), (-2.0, 3.0), (-5.2, 4.2)];
    let way = Way { program: route, runner: 2, runs: 90, places, ..Way::default() };
    let runs = Runs { ways: vec![way], ..Runs::default() };
    check(&play(("play", "cross"), &setup, &runs, ProgramKind::Route));
    check(&play(("play-stays", "hold"), &setup, &Runs::default(), ProgramKind::Route));
}

#[test]
fn the_decisive_moment() {
    let players = core::array::from_fn(|p| vec2(p as f32 - 4.5, 1.0 + (p % 4) as f32 * 1.5));
    let shot = Still {
        choice: Choice::Good,
        shows: None,
        is_mirrored: false,
        possession: 41,
        expected_net_points: 1.25,
        outcome: "made",
        moment: "shot",
        time_s: 6.4,
        side: 1.0,
        holder: Some(2),
        pass: Some((0, vec2(-3.0, 6.5))),
        run: None,
        players,
        ball: players[2],
    };
    check(&still(("still-shot", "cross"), &setup(), &shot));
    let end = Still { outcome: "turnover", moment: "end", pass: None, ..shot };
    check(&still(("still-end", "cross"), &setup(), &end));
}

#[test]
fn charts() {
    let names = ["hold", "cross", "sit"];
    check(&ranking("ranking-clear", &sample(&names, 4000, "expected_net_points")));
    check(&ranking("ranking-open", &sample(&names, 300, "turnover_rate")));
    let comparison = sample(&names, 4000, "expected_net_points");
    check(&trade("trade", &comparison, "break_exposure", "expected_net_points").unwrap());
    let long =
        ["hold / post_help_rule=far-back-crosses / sink_back_m=0.6", "cross / post_help_rule=point-drops"];
    let crossed = sample(&long, 300, "expected_net_points");
    check(&ranking("ranking-long", &crossed));
    check(&trade("trade-long", &crossed, "break_exposure", "expected_net_points").unwrap());
    assert!(trade("none", &comparison, "lob_completion", "expected_net_points").is_none());
}

#[test]
fn a_name_cannot_break_a_picture() {
    let setup = setup();
    let table = FloorTable::sample(&setup, 3);
    let name = "a<b & \"c\"";
    let picture = heat(("heat", name, "shots"), &setup, table.grid("shots").unwrap(), 100, 1.0);
    let text = String::from_utf8(picture.file()).unwrap();
    assert!(!text.contains(name) && text.contains("a&lt;b &amp; "), "names are escaped");
}
