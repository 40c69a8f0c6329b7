//! Nothing is lost and nothing is mixed, whatever happens to the process or to its folder: runs that race for one
//! place, signals, kills, places that cannot be written, files that somebody changes. Real processes, real signals.
//!
//! What it has caught: nothing yet.
#![cfg(unix)]

#[path = "faults/assembling.rs"]
mod assembling;
#[path = "faults/designs.rs"]
mod designs;
#[path = "faults/full.rs"]
mod full;
#[path = "faults/inputs.rs"]
mod inputs;
#[path = "faults/kept.rs"]
mod kept;
#[path = "faults/records.rs"]
mod records;
#[path = "faults/standing.rs"]
mod standing;
mod support;

use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use serde_json::Value;
use support::{ZONEPROBE, home, names, outcome, zoneprobe};

/// So many possessions would take days.
const DAYS: &str = "1073741824";
/// What a run has in its folder until it has written.
const LOCK: &str = ".zoneprobe-lock";
/// Nothing here takes nearly as long; a test that waits so long has found something.
const PATIENCE: Duration = Duration::from_secs(120);

/// Starts the program in a folder. Who runs these tests may have been told to outlive his terminal; the program takes that
/// over, and would not hear a signal that it is to hear. (`--default-signal`: GNU coreutils 8.31 or later)
fn started(args: &[&str], home: &Path) -> Child {
    let mut command = if cfg!(target_os = "linux") {
        let own = zoneprobe(args);
        let mut hears = Command::new("env");
        hears.arg("--default-signal=HUP,INT,TERM").arg(own.get_program()).args(own.get_args());
        hears.stdin(Stdio::null());
        for (name, value) in own.get_envs() {
            match value {
                Some(value) => hears.env(name, value),
                None => hears.env_remove(name),
            };
        }
        hears
    } else {
        zoneprobe(args)
    };
    command.current_dir(home).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("a process")
}

/// Waits until a run holds its folder: from then on it loads and plays.
fn until_held(folder: &Path) {
    let begun = Instant::now();
    while fs::read_to_string(folder.join(LOCK)).map_or(true, |note| note.is_empty()) {
        assert!(begun.elapsed() < PATIENCE, "{} is not held", folder.display());
        sleep(Duration::from_millis(2));
    }
}

fn signal(name: &str, run: &Child) {
    let sent =
        Command::new("kill").args([&format!("-{name}"), &run.id().to_string()]).output().expect("kill");
    assert!(sent.status.success(), "{}", String::from_utf8_lossy(&sent.stderr));
}

/// Exit code and standard error of a run that was started. What it prints fits into a pipe, so that it can end unread.
fn ended(mut run: Child) -> (Option<i32>, String) {
    let begun = Instant::now();
    while run.try_wait().expect("its state").is_none() {
        if begun.elapsed() > PATIENCE {
            run.kill().expect("killed");
            run.wait().expect("an end");
            panic!("it did not end");
        }
        sleep(Duration::from_millis(2));
    }
    let Output { status, stderr, .. } = run.wait_with_output().expect("an end");
    (status.code(), String::from_utf8(stderr).expect("output is UTF-8"))
}

fn manifest(folder: &Path) -> Value {
    let bytes = fs::read(folder.join("manifest.json")).expect("a manifest");
    serde_json::from_slice(&bytes).expect("a manifest is JSON")
}

/// Whether a result is whole, by the program's own word and without anything beside it.
fn check_whole(folder: &Path) {
    let (exit, out, err) = outcome(zoneprobe(&["verify"]).arg(folder));
    assert_eq!(exit, Some(0), "{out}{err}");
}

#[test]
fn a_folder_that_another_run_has_is_refused_at_once() {
    let home = home();
    let out = home.path().join("out");
    let first = started(&["compare", "my-question.toml", "--possessions", DAYS, "--out", "out"], home.path());
    until_held(&out);
    for args in [
        &["compare", "my-question.toml", "--possessions", DAYS, "--out", "out"][..],
        &["film", "--possession", "1", "--out", "out"],
        &["man", "--out", "out"],
    ] {
        let (exit, said, err) = outcome(zoneprobe(args).current_dir(home.path()));
        assert_eq!((exit, said.as_str()), (Some(2), ""), "{args:?}: {err}");
        let holder = format!("out is where another run (process {}, since ", first.id());
        assert!(err.contains(&holder) && err.contains("name another with --out"), "{err}");
    }
    assert!(names(&out).iter().all(|name| name.starts_with(".zoneprobe-")), "the others left nothing");
    signal("TERM", &first);
    assert_eq!(ended(first).0, Some(1));
    assert_eq!(names(home.path()), ["my-question.toml", "our-night.toml"]);
}

/// Starts runs that differ by number into one place; one of them must win and the place must be its own.
fn race(home: &Path, runs: usize, film: bool) {
    let out = home.join("race");
    let numbers: Vec<String> = (1..=runs).map(|number| number.to_string()).collect();
    let children: Vec<Child> = numbers
        .iter()
        .map(|number| match film {
            true => started(&["film", "--possession", number, "--out", "race"], home),
            false => {
                let play = ["simulate", "our-night.toml", "--possessions", "2", "--seed", number];
                started(&[&play[..], &["--out", "race"]].concat(), home)
            }
        })
        .collect();
    let ends: Vec<(Option<i32>, String)> = children.into_iter().map(ended).collect();
    let winners: Vec<usize> = (0..runs).filter(|run| ends[*run].0 == Some(0)).collect();
    assert_eq!(winners.len(), 1, "{ends:?}");
    let refused = |(exit, err): &&(Option<i32>, String)| {
        *exit == Some(2) && (err.contains("another run") || err.contains("not an empty folder"))
    };
    assert_eq!(ends.iter().filter(refused).count(), runs - 1, "{ends:?}");
    let number = &numbers[winners[0]];
    if film {
        assert_eq!(names(&out), ["film.html", "trace.txt"]);
        let trace = fs::read_to_string(out.join("trace.txt")).expect("a trace");
        assert!(trace.contains(&format!("possession {number}\n")), "{trace}");
    } else {
        assert_eq!(manifest(&out)["seed"].to_string(), *number);
        check_whole(&out);
    }
    fs::remove_dir_all(out).expect("removed");
}

#[test]
fn of_runs_that_race_for_a_folder_one_wins_and_nothing_is_mixed() {
    let home = home();
    for round in 0..6 {
        race(home.path(), 4, round % 2 == 0);
    }
    // Without a name each has a folder of its own.
    let args = ["simulate", "our-night.toml", "--possessions", "2"];
    let children: Vec<Child> = (0..3).map(|_| started(&args, home.path())).collect();
    for (exit, err) in children.into_iter().map(ended) {
        assert_eq!(exit, Some(0), "{err}");
    }
    let results = home.path().join("results");
    assert_eq!(names(&results), ["our-night-1", "our-night-1-2", "our-night-1-3"]);
    names(&results).iter().for_each(|name| check_whole(&results.join(name)));
}

#[test]
fn every_signal_stops_a_run_in_order_whatever_its_batch() {
    let home = home();
    let before = names(home.path());
    for name in ["TERM", "HUP", "INT"] {
        let args = ["--possessions", DAYS, "--batch", "1024", "--threads", "64", "--out", "deep/out"];
        let run = started(&[&["compare", "my-question.toml"], &args[..]].concat(), home.path());
        until_held(&home.path().join("deep/out"));
        let begun = Instant::now();
        signal(name, &run);
        let (exit, err) = ended(run);
        assert!(begun.elapsed() < Duration::from_secs(20), "{name} was heard after {:?}", begun.elapsed());
        assert_eq!(exit, Some(1), "{name}: {err}");
        assert!(err.starts_with("zoneprobe: stopped"), "{name}: {err}");
        assert!(err.ends_with("; nothing was written\n"), "{name}: {err}");
        assert_eq!(names(home.path()), before, "{name}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_stop_says_how_far_it_got() {
    let home = home();
    let args = ["simulate", "our-night.toml", "--possessions", DAYS, "--batch", "1", "--out", "out"];
    let run = started(&args, home.path());
    until_held(&home.path().join("out"));
    let tasks = format!("/proc/{}/task", run.id());
    // The name of the threads that play.
    let plays = || {
        let tasks = fs::read_dir(&tasks).expect("the process runs").flatten();
        let mut names = tasks.map(|task| fs::read_to_string(task.path().join("comm")).unwrap_or_default());
        names.any(|name| name.trim() == "possessions")
    };
    while !plays() {
        sleep(Duration::from_millis(2));
    }
    signal("INT", &run);
    let (exit, err) = ended(run);
    assert_eq!(exit, Some(1));
    assert!(err.starts_with("zoneprobe: stopped after "), "{err}");
    assert!(err.ends_with(" of 1,073,741,824 possessions; nothing was written\n"), "{err}");
}

#[cfg(target_os = "linux")]
#[test]
fn a_run_that_is_to_outlive_its_terminal_does() {
    let home = home();
    let mut shell = Command::new("sh");
    let line =
        format!("trap '' HUP; exec {ZONEPROBE} compare my-question.toml --possessions {DAYS} --out out");
    shell.args(["-c", &line]).current_dir(home.path()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut run = shell.spawn().expect("a process");
    until_held(&home.path().join("out"));
    signal("HUP", &run);
    sleep(Duration::from_millis(500));
    assert!(run.try_wait().expect("its state").is_none(), "it was stopped");
    signal("TERM", &run);
    assert_eq!(ended(run).0, Some(1));
}

#[test]
fn what_a_killed_run_left_is_cleared_by_the_next() {
    let home = home();
    let start = |args: &[&str]| {
        let play = ["simulate", "our-night.toml", "--possessions"];
        started(&[&play[..], args].concat(), home.path())
    };
    for (out, more) in [("out", &["--out", "out"][..]), ("results/our-night-1", &[])] {
        let out = home.path().join(out);
        let mut run = start(&[&[DAYS], more].concat());
        until_held(&out);
        run.kill().expect("killed");
        run.wait().expect("an end");
        assert!(names(&out).contains(&LOCK.into()), "it had no chance to remove it");
        let (exit, err) = ended(start(&[&["2"], more].concat()));
        assert_eq!(exit, Some(0), "{err}");
        assert!(!names(&out).contains(&LOCK.into()), "{:?}", names(&out));
        check_whole(&out);
    }
    assert_eq!(names(&home.path().join("results")), ["our-night-1"]);
}

#[test]
fn a_place_that_is_lost_during_the_run_sends_the_result_beside_it() {
    let home = home();
    let out = home.path().join("out");
    let args = ["simulate", "our-night.toml", "--possessions", "3000", "--quiet", "--out", "out"];
    let run = started(&args, home.path());
    until_held(&out);
    signal("STOP", &run);
    fs::write(out.join("comparison.csv"), "mine").expect("a written file");
    signal("CONT", &run);
    let (exit, err) = ended(run);
    let word = "zoneprobe: out was changed by somebody during the run, so the result is in out-2\n";
    assert_eq!((exit, err.as_str()), (Some(0), word));
    assert_eq!(names(&out), ["comparison.csv"]);
    assert_eq!(fs::read(out.join("comparison.csv")).expect("a file"), b"mine");
    check_whole(&home.path().join("out-2"));
}

/// A folder in which even a program of root's meets permissions: there it is run by nobody in particular.
fn common_home() -> (tempfile::TempDir, Option<u32>) {
    let home = home();
    fs::set_permissions(home.path(), fs::Permissions::from_mode(0o777)).expect("permissions");
    fs::copy(ZONEPROBE, home.path().join("zoneprobe")).expect("a copy");
    let is_root = fs::metadata(home.path()).expect("a folder").uid() == 0;
    (home, is_root.then_some(65534))
}

#[test]
fn a_place_that_cannot_be_written_is_refused_before_the_run() {
    let (home, user) = common_home();
    symlink("nowhere", home.path().join("results")).expect("a link");
    fs::create_dir(home.path().join("locked")).expect("a folder");
    fs::set_permissions(home.path().join("locked"), fs::Permissions::from_mode(0o555)).expect("permissions");
    // One that is there, and may be written as far as it is concerned.
    fs::create_dir(home.path().join("open")).expect("a folder");
    fs::set_permissions(home.path().join("open"), fs::Permissions::from_mode(0o777)).expect("permissions");
    let before = names(home.path());
    let deep = vec!["x".repeat(190); 21].join("/");
    let play = format!("exec ./zoneprobe compare my-question.toml --possessions {DAYS}");
    for (line, word) in [
        (play.clone(), "results: it is a link that leads nowhere"),
        (format!("{play} --out results"), "results: it is a link that leads nowhere"),
        (format!("{play} --out {deep}"), "name too long"),
        (format!("umask 0777; {play} --out out"), "out: permission denied"),
        (format!("umask 0777; {play} --out a/b/c"), "permission denied"),
        (format!("umask 0777; {play} --out open"), "open: permission denied"),
        (format!("{play} --out locked"), "locked: permission denied"),
        (format!("{play} --out locked/out"), "permission denied"),
        // A disk without room, as far as this process goes.
        (format!("trap '' XFSZ; ulimit -f 0; {play} --out out"), "out: file too large"),
        (format!("trap '' XFSZ; ulimit -f 1; {play} --out out"), "out: file too large"),
    ] {
        let mut shell = Command::new("sh");
        shell.args(["-c", &line]).current_dir(home.path()).stdin(Stdio::null());
        user.inspect(|user| {
            shell.uid(*user).gid(*user);
        });
        let (exit, out, err) = outcome(&mut shell);
        assert_eq!((exit, out.as_str()), (Some(2), ""), "{line}: {err}");
        assert!(err.contains(word) && err.contains("name another with --out"), "{line}: {err}");
        assert_eq!(names(home.path()), before, "{line}");
    }
    for folder in ["locked", "open"] {
        assert_eq!(names(&home.path().join(folder)), [""; 0], "{folder}");
    }
}

#[test]
fn the_manifests_command_makes_the_same_result_again() {
    let home = home();
    fs::create_dir_all(home.path().join("my plays")).expect("a folder");
    let question = fs::read_to_string(home.path().join("my-question.toml")).expect("a text");
    let question = question.replace("\"our-night.toml\"", "\"sunken-122\"");
    for name in ["-q.toml", "my plays/it's $HOME.toml", "sunken-122"] {
        fs::write(home.path().join(name), &question).expect("a written file");
    }
    let path = format!("{}:/usr/bin:/bin", Path::new(ZONEPROBE).parent().expect("a folder").display());
    let absolute = home.path().join("my plays/it's $HOME.toml");
    let absolute = absolute.to_str().expect("a path in UTF-8");
    // The file, and where its command is to be run.
    for (nth, (file, folder)) in
        [("-q.toml", "."), ("my plays/it's $HOME.toml", "."), ("./sunken-122", "."), (absolute, "my plays")]
            .into_iter()
            .enumerate()
    {
        let out = home.path().join(format!("out-{nth}"));
        let mut first = zoneprobe(&["compare", "--possessions", "8", "--quiet", "--seed", "3", "--out"]);
        let (exit, _, err) = outcome(first.arg(&out).args(["--", file]).current_dir(home.path()));
        assert_eq!(exit, Some(0), "{file}: {err}");
        let made = manifest(&out);
        let command = made["command"].as_str().expect("a command");
        assert!(!command.contains(home.path().to_str().expect("UTF-8")), "{command}");
        let mut shell = Command::new("sh");
        shell.args(["-c", command]).current_dir(home.path().join(folder)).env("PATH", &path);
        let (exit, _, err) = outcome(&mut shell);
        assert_eq!(exit, Some(0), "{command}: {err}");
        let again = err.lines().next().and_then(|line| line.strip_prefix("written to ")).expect("a folder");
        let again = manifest(&home.path().join(folder).join(again));
        // Only the name of the file that was read may be written otherwise.
        for key in ["command", "result_digest", "outputs"] {
            assert_eq!(again[key], made[key], "{command}");
        }
    }
}

#[test]
fn a_file_whose_name_no_command_can_hold_is_refused() {
    use std::os::unix::ffi::OsStrExt;

    let home = home();
    for name in [&b"caf\xe9.toml"[..], b"two\nlines.toml"] {
        let name = std::ffi::OsStr::from_bytes(name);
        fs::copy(home.path().join("our-night.toml"), home.path().join(name)).expect("a copy");
        let mut command = zoneprobe(&["simulate", "--possessions", DAYS, "--out", "out"]);
        let (exit, out, err) = outcome(command.arg(name).current_dir(home.path()));
        assert_eq!((exit, out.as_str()), (Some(2), ""), "{err}");
        assert!(err.contains("not plain text") && err.contains("give the file another name"), "{err}");
    }
    assert!(!home.path().join("out").exists());
}

#[test]
fn a_result_that_was_changed_is_named_and_no_sheet_is_made_of_it() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let (exit, _, err) =
        run(&["compare", "my-question.toml", "--possessions", "64", "--quiet", "--out", "out"]);
    assert_eq!(exit, Some(0), "{err}");
    let out = home.path().join("out");
    let made = manifest(&out);
    let outputs = made["outputs"].as_array().expect("fingerprints").len();
    assert_eq!(outputs + 1, made["files"].as_array().expect("files").len(), "all but the manifest itself");
    // What is tried before a run has a name at least as long.
    let named = made["files"].as_array().expect("files").iter().filter_map(Value::as_str);
    assert!(named.map(str::len).max().is_some_and(|longest| longest <= 74));
    let told = format!("out: all {outputs} files are as they were written\n");
    assert_eq!(run(&["verify", "out"]), (Some(0), told.clone(), String::new()));
    assert_eq!(run(&["sheet", "out", "--quiet"]).0, Some(0));
    assert_eq!(run(&["verify", "out"]), (Some(0), told, String::new()), "the sheet is no part of it");
    assert_eq!(run(&["verify", "out", "--quiet"]), (Some(0), String::new(), String::new()));

    let text = |name: &str| fs::read_to_string(out.join(name)).expect("a text");
    let (table, picture) = (text("best_by_net.csv"), text("pictures/sheet-start.svg"));
    let half = picture[..picture.len() / 2].to_owned();
    let deep = picture.replace("</svg>", &("<g>".repeat(200_000) + &"</g>".repeat(200_000) + "</svg>"));
    for (name, changed) in [
        ("best_by_net.csv", table.replacen("0.", "9.", 1)),
        ("pictures/sheet-start.svg", half.clone()),
        ("pictures/sheet-start.svg", deep.clone()),
    ] {
        let before = text(name);
        fs::write(out.join(name), changed).expect("a written file");
        fs::write(out.join("notes.txt"), "mine").expect("a written file");
        let (exit, said, err) = run(&["verify", "out"]);
        assert_eq!((exit, said), (Some(1), format!("changed: {name}\nextra: notes.txt\n")), "{err}");
        assert!(
            err.contains("0 missing and 1 changed, 1 extra") && err.contains("make the result again"),
            "{err}"
        );
        let (exit, said, err) = run(&["sheet", "out", "--out", "other"]);
        assert_eq!((exit, said.as_str()), (Some(2), ""), "{err}");
        let told = format!("out/{name} is not as `zoneprobe compare` wrote it; put the file back, or make");
        assert!(err.contains(&told) && err.contains("zoneprobe compare my-question.toml"), "{err}");
        fs::write(out.join(name), before).expect("a written file");
    }
    // The manifest, by which all other commands go, is held against its own.
    let before = text("manifest.json");
    fs::write(out.join("manifest.json"), before.replacen("\"seed\": 1,", "\"seed\": 2,", 1))
        .expect("written");
    let (exit, said, err) = run(&["verify", "out"]);
    assert_eq!((exit, said.as_str()), (Some(1), "changed: manifest.json\nextra: notes.txt\n"), "{err}");
    fs::write(out.join("manifest.json"), before).expect("a written file");
    // Even where it was changed to fit.
    for changed in [half, deep] {
        fs::write(out.join("pictures/sheet-start.svg"), &changed).expect("a written file");
        let mut forged = made.clone();
        let digest = fingerprint(&out.join("pictures/sheet-start.svg"));
        let outputs = forged["outputs"].as_array_mut().expect("fingerprints");
        let own = outputs.iter_mut().find(|output| output["name"] == "pictures/sheet-start.svg");
        own.expect("its fingerprint")["sha256"] = digest.into();
        forged.as_object_mut().expect("a manifest").remove("manifest_sha256");
        fs::write(out.join("manifest.json"), forged.to_string()).expect("a written file");
        let (exit, _, err) = run(&["sheet", "out", "--out", "other"]);
        assert_eq!(exit, Some(2), "{err}");
        assert!(err.contains("it is no whole picture"), "{err}");
    }
    fs::write(out.join("manifest.json"), "[".repeat(200_000)).expect("a written file");
    for args in [&["sheet", "out", "--out", "other"][..], &["verify", "out"]] {
        let (exit, _, err) = run(args);
        assert_eq!(exit, Some(2), "{err}");
        assert!(err.contains("manifest.json cannot be read"), "{err}");
    }
    fs::write(home.path().join("deep.toml"), "a = ".to_owned() + &"[".repeat(200_000)).expect("written");
    assert_eq!(run(&["check", "deep.toml"]).0, Some(2));
    assert!(!home.path().join("other").exists());
}

/// SHA-256 of a file.
fn fingerprint(file: &Path) -> String {
    use sha2::{Digest, Sha256};

    Sha256::digest(fs::read(file).expect("a file")).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[test]
fn a_name_that_is_a_formula_is_text_in_tables_and_itself_on_paper() {
    let home = home();
    let question = "question = \"?\"\nscenario = \"sunken-122\"\nbaseline = \"=1+1\"\nvariant = [\n  \
                    { name = \"=1+1\" },\n  \
                    { name = \"-2+3\", set = { \"attack.posts.options\" = { seal-helper = 1.0 } } },\n]\n";
    fs::write(home.path().join("formula.toml"), question).expect("a written file");
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let (exit, rows, err) =
        run(&["compare", "formula.toml", "--possessions", "64", "--format", "csv", "--out", "out"]);
    assert_eq!(exit, Some(0), "{err}");
    let firsts: Vec<&str> = rows.lines().filter_map(|line| line.split(',').next()).collect();
    assert_eq!(firsts, ["variant", "'=1+1", "'-2+3"]);
    let tables = names(&home.path().join("out")).into_iter().filter(|name| name.ends_with(".csv"));
    for table in tables {
        let mut reader = csv::Reader::from_path(home.path().join("out").join(&table)).expect("a table");
        for cell in
            reader.records().flat_map(|row| row.expect("a row").iter().map(str::to_owned).collect::<Vec<_>>())
        {
            let computed =
                cell.starts_with(['=', '@']) || cell.starts_with(['+', '-']) && cell.parse::<f64>().is_err();
            assert!(!computed, "{table}: {cell}");
        }
    }
    let (exit, _, err) = run(&["sheet", "out", "--out", "page"]);
    assert_eq!(exit, Some(0), "{err}");
    let page = fs::read_to_string(home.path().join("page/sheet.html")).expect("a page");
    assert!(
        page.contains("=1+1") && page.contains("-2+3") && !page.contains("'=1+1") && !page.contains("'-2+3")
    );
    let (exit, rows, _) = run(&["compare", "formula.toml", "--dry-run", "--format", "csv", "--out", "new"]);
    assert!(exit == Some(0) && rows.contains("\n'=1+1,") && rows.contains("\n'-2+3,attack."), "{rows}");
}

/// Numbers that look like chance and are the same every time (a linear congruence).
fn chances(mut state: u64) -> impl FnMut(u64) -> u64 {
    move |below| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    }
}

#[test]
#[ignore = "minutes: 200 rounds of races, 100 kills and 100 stops at any moment"]
fn races_and_kills_at_any_moment_lose_and_mix_nothing() {
    let home = home();
    let begun = Instant::now();
    for round in 0..200 {
        race(home.path(), 4, round % 4 == 0);
    }
    println!("200 races of 4 runs: {:?}", begun.elapsed());
    let out = home.path().join("out");
    let args = ["simulate", "our-night.toml", "--possessions", "64", "--out", "out"];
    let begun = Instant::now();
    assert_eq!(ended(started(&args, home.path())).0, Some(0));
    let whole = begun.elapsed();
    fs::remove_dir_all(&out).expect("removed");
    let mut chance = chances(7);
    let (mut written, mut cleared) = (0, 0);
    let begun = Instant::now();
    for round in 0..200 {
        let kills = round % 2 == 0;
        let run = started(&args, home.path());
        sleep(whole.mul_f64(chance(1100) as f64 / 1000.0));
        // It may have ended.
        let name = if kills { "-KILL" } else { "-TERM" };
        let _ = Command::new("kill").args([name, &run.id().to_string()]).output().expect("kill");
        let (exit, err) = ended(run);
        if err.contains("written to out") {
            check_whole(&out);
            written += 1;
        } else if !kills && exit == Some(1) {
            assert!(err.ends_with("nothing was written\n"), "{err}");
            assert!(!out.exists(), "{:?}", names(&out));
        }
        // Whatever was left, the next run either clears it or finds a whole result.
        let (exit, err) = ended(started(&args, home.path()));
        match exit {
            Some(0) => cleared += 1,
            _ => assert!(exit == Some(2) && err.contains("not an empty folder"), "{err}"),
        }
        check_whole(&out);
        fs::remove_dir_all(&out).expect("removed");
        assert_eq!(names(home.path()), ["my-question.toml", "our-night.toml"]);
    }
    println!("100 kills and 100 stops: {written} had written, {cleared} made room: {:?}", begun.elapsed());
}
