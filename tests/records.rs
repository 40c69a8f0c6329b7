//! Records say what was counted: a possession that is recorded is the one that is not, its events are those of its measures,
//! and neither threads nor batches can be seen in the files. (Stops, shards and `again`: `experiments/tests/faults/records.rs`.)
//!
//! What it has caught: nothing yet.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use arrow_array::cast::AsArray;
use arrow_array::types::Int64Type;
use engine::events::{Detail, Event, EventKind};
use engine::{Arena, Measure, PossessionRecord, film_possession};
use experiments::error::Exit;
use experiments::records::read::{RecordFiles, texts};
use experiments::records::{EVENTS, POSSESSIONS};

use crate::support::{argument, every_matchup, folder, play, variant, zoneprobe};

/// How often a possession has an event of a kind, and a detail where one is named.
fn count(events: &[Event], kind: EventKind, detail: Option<Detail>) -> i64 {
    let is = |event: &&Event| event.kind == kind && (detail.is_none() || event.detail == detail);
    events.iter().filter(is).count() as i64
}

/// Holds the events of a possession against its measures.
fn check(name: &str, record: &PossessionRecord, events: &[Event]) {
    use EventKind as Kind;
    let told = |what: Measure| format!("{name}, possession {}: {}", record.possession, what.key());
    for (measure, kind, detail) in [
        (Measure::Passes, Kind::Pass, None),
        (Measure::Lobs, Kind::Pass, Some(Detail::Lob)),
        (Measure::PassesTipped, Kind::Tip, None),
        (Measure::Fakes, Kind::Fake, None),
        (Measure::FakesBitten, Kind::Bite, None),
        (Measure::Drives, Kind::Drive, None),
        (Measure::Shots, Kind::Shot, None),
        (Measure::Threes, Kind::Shot, Some(Detail::Three)),
        (Measure::ShotsMade, Kind::Made, None),
        (Measure::Rebounds, Kind::Rebound, None),
        (Measure::OffensiveRebounds, Kind::Rebound, Some(Detail::Offensive)),
        (Measure::Turnover, Kind::Turnover, None),
        (Measure::TurnoverSteal, Kind::Turnover, Some(Detail::Intercepted)),
        (Measure::CommonFouls, Kind::Foul, Some(Detail::Common)),
        (Measure::ShootingFouls, Kind::Foul, Some(Detail::Shooting)),
        (Measure::LowPostTouches, Kind::Touch, Some(Detail::LowPost)),
        (Measure::HighPostTouches, Kind::Touch, Some(Detail::HighPost)),
        (Measure::ShortCornerTouches, Kind::Touch, Some(Detail::ShortCorner)),
    ] {
        assert_eq!(count(events, kind, detail), record.value(measure), "{}", told(measure));
    }
    // Whoever begins with the ball counts as having caught it.
    let caught = [Kind::Start, Kind::Restart, Kind::Catch].map(|kind| count(events, kind, None));
    assert_eq!(caught.iter().sum::<i64>(), record.value(Measure::Catches), "{}", told(Measure::Catches));
    let scored =
        |kind| events.iter().filter(move |event| event.kind == kind).filter_map(|event| event.points);
    let points: u8 = scored(Kind::Made).chain(scored(Kind::FreeThrows)).sum();
    assert_eq!(f64::from(points), record.real(Measure::Points), "{}", told(Measure::Points));
    assert_eq!(scored(Kind::End).collect::<Vec<_>>(), [points], "{}", told(Measure::Points));
    assert!(events.windows(2).all(|pair| pair[0].time_s <= pair[1].time_s), "{name}: in order of time");
    assert_eq!(events.first().map(|event| event.kind), Some(Kind::Start), "{name}");
    assert!(events.iter().all(|event| event.nearest.defends() && event.nearest_m.is_finite()), "{name}");
    let mut shot = None;
    for event in events {
        match event.kind {
            Kind::Shot => shot = Some((event.by, event.x_m, event.y_m)),
            Kind::Made | Kind::Missed => {
                assert_eq!(shot.take(), Some((event.by, event.x_m, event.y_m)), "{name}: where it was shot");
            }
            _ => {}
        }
    }
    let running = |kind| count(events, kind, None);
    assert!(running(Kind::RouteStart) >= running(Kind::RouteEnd), "{name}: what ends has begun");
}

#[test]
fn events_are_those_that_the_measures_count_and_change_nothing() {
    let mut arena = Arena::new(5);
    let mut seen = BTreeMap::new();
    for (name, setup) in every_matchup().iter().step_by(5) {
        let plain = play(&mut arena, setup, 3, 0..24);
        let mut recorded = Vec::new();
        arena.play_with_events(setup, 3, 0..24, &mut |record, events| {
            check(name, record, events);
            events.iter().for_each(|event| *seen.entry(event.kind.key()).or_insert(0) += 1);
            recorded.push(*record);
        });
        recorded.sort_by_key(|record| record.possession);
        assert!(recorded == plain, "{name}: recorded possessions are others");
        // A used page is as good as a new one.
        let mut again = Vec::new();
        Arena::new(1).play_with_events(setup, 3, 7..8, &mut |_, events| again = events.to_vec());
        let mut own = Vec::new();
        arena.play_with_events(setup, 3, 0..24, &mut |record, events| {
            if record.possession == 7 {
                own = events.to_vec();
            }
        });
        assert_eq!(own, again, "{name}");
    }
    let never: Vec<&str> =
        EventKind::ALL.iter().map(|kind| kind.key()).filter(|key| !seen.contains_key(key)).collect();
    assert!(never.is_empty(), "never seen: {never:?} in {seen:?}");
}

#[test]
fn a_shot_is_where_and_as_free_as_its_film_has_it() {
    use engine::film::What;
    let setup = variant("seam-cross");
    let mut shots = 0;
    Arena::new(4).play_with_events(&setup, 1, 0..16, &mut |record, events| {
        let film = film_possession(&setup, 1, record.possession);
        let own = events.iter().filter(|event| event.kind == EventKind::Shot);
        let told = film.events.iter().filter_map(|event| match event.what {
            What::Shot { by, space_m, .. } => Some((event.time_s, by, space_m, event.at)),
            _ => None,
        });
        let told: Vec<_> = told.collect();
        assert_eq!(own.clone().count(), told.len());
        for (event, (time_s, by, space_m, at)) in own.zip(told) {
            assert_eq!((event.time_s, event.by, event.nearest_m), (time_s, Some(by), space_m));
            assert_eq!((event.x_m, event.y_m), (at.x * film.side, at.y), "turned to the rover's side");
            shots += 1;
        }
    });
    assert!(shots > 8, "{shots}");
}

const QUESTION: &str = r#"
scenario = "sunken-122"
[[variant]]
name = "stays"
set = { "attack.rover.route" = "hold-wing" }
[[variant]]
name = "crosses, 60 cm"
set = { "attack.rover.route" = "seam-cross", "zone.sink_back_m" = 0.6 }
"#;

/// The records of a run, by name.
fn records(home: &Path, out: &str, more: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let (file, out) = (home.join("question.toml"), home.join(out));
    let args = ["compare", argument(&file), "--records", "events", "--quiet", "--out", argument(&out)];
    let told = zoneprobe(&[&args[..], more].concat());
    assert_eq!(told.exit, Exit::Done, "{more:?}: {}", told.err);
    let manifest = fs::read_to_string(out.join("manifest.json")).expect("a manifest");
    let manifest: serde_json::Value = serde_json::from_str(&manifest).expect("JSON");
    let names = manifest["files"].as_array().expect("files").iter().filter_map(|name| name.as_str());
    let names = names.filter(|name| name.ends_with(".parquet"));
    names.map(|name| (name.to_owned(), fs::read(out.join(name)).expect(name))).collect()
}

#[test]
fn threads_and_batches_cannot_be_seen_in_records_and_their_rows_are_those_of_the_table() {
    let home = folder(&[("question.toml", QUESTION)]);
    let home = home.path();
    let whole = records(home, "whole", &["--possessions", "96", "--threads", "1"]);
    assert_eq!(whole.keys().collect::<Vec<_>>(), ["events.parquet", "possessions.parquet"]);
    for (nth, way) in [["--threads", "3"], ["--batch", "7"], ["--batch", "1"]].iter().enumerate() {
        let out = format!("again-{nth}");
        let again = records(home, &out, &[&["--possessions", "96"][..], way].concat());
        assert!(again == whole, "{way:?}");
    }

    let files = RecordFiles::open(&home.join("whole")).unwrap_or_else(|error| panic!("{error}"));
    let mut rows = Vec::new();
    let columns = ["variant", "possession", "attack.rover.route", "zone.sink_back_m", "passes", "ball_path"];
    files
        .each(POSSESSIONS, &columns, &mut |_, batch| {
            let (variants, routes, paths) = (texts(batch, 0), texts(batch, 2), texts(batch, 5));
            for row in 0..batch.num_rows() {
                let possession = batch.column(1).as_primitive::<Int64Type>().value(row);
                rows.push((variants[row].unwrap().to_owned(), possession, routes[row].unwrap().to_owned()));
                assert!(paths[row].is_some_and(|path| path.contains("guard")), "{:?}", paths[row]);
            }
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
    let wanted = [("stays", "hold-wing"), ("crosses, 60 cm", "seam-cross")];
    let wanted = wanted.iter().flat_map(|(name, route)| {
        (0..96).map(move |possession| (String::from(*name), possession, String::from(*route)))
    });
    assert!(rows.iter().eq(wanted.collect::<Vec<_>>().iter()), "in plan order");
    for table in [POSSESSIONS, EVENTS] {
        for field in files.schema(table).unwrap_or_else(|error| panic!("{error}")).fields() {
            let told = field.metadata();
            assert!(told.contains_key("unit") && told.contains_key("meaning"), "{}", field.name());
        }
    }
}

#[test]
fn what_happened_is_found_and_filmed_and_a_filter_that_is_none_is_told() {
    let home = folder(&[("question.toml", QUESTION)]);
    records(home.path(), "out", &["--possessions", "64"]);
    let out = home.path().join("out");
    let find = |args: &[&str]| zoneprobe(&[&["find", argument(&out), "--quiet"], args].concat());

    let all = find(&["count(event = 'pass') = passes", "--list", "--format", "json"]);
    let found: serde_json::Value =
        serde_json::from_str(&all.out).unwrap_or_else(|error| panic!("{error}: {}", all.err));
    assert_eq!((&found["found"], &found["looked_at"]), (&128.into(), &128.into()));
    let none = find(&["count(event = 'pass') <> passes", "--list"]);
    assert!(none.exit == Exit::Done && none.out.starts_with("0 of 128 possessions\n"), "{}", none.out);
    let some = find(&["variant = 'stays' and possession < 3", "--list", "--format", "csv"]);
    assert_eq!(some.out.lines().count(), 4, "{}", some.out);

    let films = home.path().join("films");
    let filmed =
        find(&["happened(event = 'shot' and nearest_m > 1)", "--limit", "2", "--out", argument(&films)]);
    assert_eq!(filmed.exit, Exit::Done, "{}", filmed.err);
    let names: Vec<String> = fs::read_dir(&films)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    assert_eq!(names.len(), 3, "{names:?}");
    assert!(
        names.iter().filter(|name| name.starts_with("stays-") && name.ends_with(".html")).count() == 2,
        "{names:?}"
    );

    // What is played now is not what is on record.
    let manifest = out.join("manifest.json");
    let text = fs::read_to_string(&manifest).expect("a manifest");
    let other = text.replace("\"seed\": 1,", "\"seed\": 2,");
    assert_ne!(text, other);
    fs::write(&manifest, other).expect("a written file");
    let others = home.path().join("others");
    let refused = find(&["possession = 3", "--out", argument(&others)]);
    assert!(
        refused.exit == Exit::Failed && refused.err.contains("is not played as it is on record"),
        "{}",
        refused.err
    );
    assert!(!others.exists());
    fs::write(&manifest, text).expect("a written file");

    for (filter, told) in [
        ("pases > 3", "no column of possessions is called pases, did you mean passes?"),
        ("variant = 'stay'", "variant: found 'stay', did you mean stays?"),
        ("happened(place = 'left-cornr')", "did you mean left-corner?"),
    ] {
        let refused = find(&[filter, "--list"]);
        assert_eq!(refused.exit, Exit::Unusable, "{filter}");
        assert!(refused.err.contains(told), "{filter}: {}", refused.err);
    }
}
