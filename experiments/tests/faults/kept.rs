//! What a run has played outlives whatever happens to it, and a result is made again from its folder alone: stops, kills and
//! damaged parts, shards in any order, results that were moved or changed. What is compared is every byte of every file.

use std::collections::BTreeMap;

use super::*;

/// Every file under a folder by its way from there.
pub(crate) fn all(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for name in names(folder) {
        let path = folder.join(&name);
        if path.is_dir() {
            files.extend(all(&path).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            files.insert(name, fs::read(path).expect("a file"));
        }
    }
    files
}

/// Whether two folders have the same files; names the first that differs.
pub(crate) fn check_same(one: &Path, other: &Path) {
    let (one, other) = (all(one), all(other));
    let differs = |name: &&String| one.get(*name) != other.get(*name);
    let first = one.keys().chain(other.keys()).find(differs);
    assert!(first.is_none(), "{first:?} differs");
}

/// The blocks that are kept in a folder.
pub(crate) fn blocks(folder: &Path) -> Vec<String> {
    if !folder.join("parts").exists() {
        return Vec::new();
    }
    names(&folder.join("parts")).into_iter().filter(|name| name.ends_with(".json.gz")).collect()
}

/// Waits until so many blocks are kept.
pub(crate) fn until_kept(folder: &Path, count: usize) {
    let begun = Instant::now();
    while blocks(folder).len() < count {
        assert!(begun.elapsed() < PATIENCE, "{} has {:?}", folder.display(), blocks(folder));
        sleep(Duration::from_millis(2));
    }
}

/// A run that has two blocks.
const LONG: [&str; 4] = ["simulate", "our-night.toml", "--possessions", "1100"];

#[test]
fn a_run_that_was_stopped_goes_on_to_the_same_bytes() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(&[&LONG, args].concat()).current_dir(home.path()));
    let (exit, shown, err) = run(&["--out", "whole", "--quiet"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    let out = home.path().join("out");

    let first = started(&[&LONG[..], &["--out", "out"]].concat(), home.path());
    until_kept(&out, 1);
    signal("INT", &first);
    let (exit, err) = ended(first);
    assert_eq!(exit, Some(1));
    let word = " of each are kept in out: the same command with --resume goes on with them\n";
    assert!(err.starts_with("zoneprobe: stopped after ") && err.ends_with(word), "{err}");
    assert_eq!(names(&out), ["parts"], "nothing but what is kept is left");

    let (exit, _, err) = run(&["--out", "out"]);
    assert!(
        exit == Some(2) && err.contains("out is not an empty folder: it keeps what a run had played"),
        "{err}"
    );
    // What is there can be read.
    let count = (1024 * blocks(&out).len()).min(1100).to_string();
    let fewer = [
        "simulate",
        "our-night.toml",
        "--quiet",
        "--format",
        "csv",
        "--out",
        "fewer",
        "--possessions",
        &count,
    ];
    let (exit, rows, err) = outcome(zoneprobe(&fewer).current_dir(home.path()));
    assert_eq!(exit, Some(0), "{err}");
    let (exit, so_far, err) = run(&["--out", "out", "--resume", "--dry-run", "--format", "csv"]);
    assert_eq!((exit, so_far), (Some(0), rows));
    assert!(err.starts_with("so far in out: ") && err.ends_with(" of 1,100 possessions of each\n"), "{err}");

    let mut second =
        started(&[&LONG[..], &["--out", "out", "--resume", "--threads", "3"]].concat(), home.path());
    until_held(&out);
    until_kept(&out, 1);
    second.kill().expect("killed");
    second.wait().expect("an end");
    assert!(names(&out).contains(&LOCK.into()), "it had no chance to remove it");

    let damaged = out.join("parts").join(&blocks(&out)[0]);
    let mut bytes = fs::read(&damaged).expect("a part");
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&damaged, bytes).expect("a written file");
    let (exit, again, err) = run(&["--out", "out", "--resume", "--batch", "7"]);
    assert_eq!((exit, again), (Some(0), shown), "{err}");
    assert!(err.contains(".json.gz is damaged; what it held is played again\n"), "{err}");
    assert!(err.contains("going on after ") && err.contains(" of 1,100 possessions of each\n"), "{err}");
    check_same(&home.path().join("whole"), &out);
    check_whole(&out);

    // A kill right after the result was written leaves what it was made from; going on with it clears that away.
    fs::create_dir(out.join("parts")).expect("a folder");
    fs::write(out.join("parts/run.json"), "{}").expect("a written file");
    fs::write(out.join(LOCK), "").expect("a written file");
    let (exit, said, err) = run(&["--out", "out", "--resume"]);
    assert_eq!(
        (exit, said.as_str(), err.as_str()),
        (Some(0), "", "out is whole already; nothing was played\n")
    );
    check_same(&home.path().join("whole"), &out);
    let (exit, _, err) = run(&["--out", "out", "--resume", "--seed", "2"]);
    assert!(exit == Some(2) && err.contains("out holds a whole result of another run"), "{err}");
}

/// A choice that has three blocks at least.
const CHOICE: [&str; 10] = [
    "compare",
    "my-question.toml",
    "--possessions",
    "32",
    "--until-sure",
    "0.02",
    "--budget",
    "2500",
    "--records",
    "possessions",
];

#[test]
fn a_choice_that_was_stopped_goes_on_to_the_same_bytes() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(&[&CHOICE, args].concat()).current_dir(home.path()));
    let (exit, shown, err) = run(&["--out", "whole", "--quiet", "--threads", "1"]);
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert!(shown.contains("ure: ") && shown.contains("(selection.csv)"), "{shown}");
    let out = home.path().join("out");
    let mut first = started(&[&CHOICE[..], &["--out", "out"]].concat(), home.path());
    until_kept(&out, 1);
    first.kill().expect("killed");
    first.wait().expect("an end");
    // Another measure would go on with what this one has chosen.
    let (exit, _, err) = run(&["--out", "out", "--resume", "--rank-by", "drives"]);
    assert!(exit == Some(2) && err.contains("keeps a choice that was asked for by another command"), "{err}");
    let (exit, again, err) = run(&["--out", "out", "--resume", "--threads", "3", "--batch", "7"]);
    assert_eq!((exit, again), (Some(0), shown), "{err}");
    check_same(&home.path().join("whole"), &out);
    check_whole(&out);
    let (exit, said, err) = outcome(zoneprobe(&["again", "out", "--quiet"]).current_dir(home.path()));
    assert_eq!((exit, said.as_str(), err.as_str()), (Some(0), "", ""));
    let (exit, _, err) = run(&["--shard", "1/2"]);
    assert!(exit == Some(2) && err.contains("it cannot be played in parts; use --threads"), "{err}");
    let (exit, _, err) = run(&["--stop-at", "1500"]);
    let told = "--stop-at: found 1500, allowed with this budget is one of 1024, 2048, 2500";
    assert!(exit == Some(2) && err.contains(told), "{err}");
}

#[test]
fn what_is_kept_of_another_run_is_not_gone_on_with() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let shard = ["compare", "my-question.toml", "--possessions", "8", "--shard", "1/2", "--out", "out"];
    assert_eq!(run(&shard).0, Some(0));
    let resumed = |args: &[&str]| {
        let own = ["compare", "my-question.toml", "--resume", "--out", "out"];
        let (exit, said, err) = run(&[&own[..], args].concat());
        assert_eq!((exit, said.as_str()), (Some(2), ""), "{args:?}: {err}");
        err
    };
    for (args, what) in [
        (&["--possessions", "8", "--shard", "1/2", "--seed", "2"][..], "seed 1, not 2"),
        (&["--possessions", "9", "--shard", "1/2"], "possessions 8, not 9"),
        (&["--possessions", "8", "--shard", "2/2"], "shard 1/2, not shard 2/2"),
        (&["--possessions", "8"], "shard 1/2, not the whole run"),
    ] {
        let err = resumed(args);
        assert!(err.contains("out keeps another run: it has ") && err.contains(what), "{args:?}: {err}");
    }
    // Without a name it is found among the folders of results.
    let unnamed = ["compare", "my-question.toml", "--possessions", "8", "--shard", "1/2"];
    for (args, folder) in [
        (&[][..], "1-shard-1-of-2"),
        (&["--seed", "9"], "9-shard-1-of-2"),
        (&[], "1-shard-1-of-2-2"),
        (&["--seed", "9", "--resume"], "9-shard-1-of-2"),
    ] {
        let (exit, _, err) = run(&[&unnamed[..], args].concat());
        let told = format!("shard 1/2 is whole in results/my-question-{folder};");
        assert!(exit == Some(0) && err.contains(&told), "{args:?}: {err}");
    }
    let night = home.path().join("our-night.toml");
    let text = fs::read_to_string(&night).expect("a text").replace("\"Our night\"", "\"Another night\"");
    fs::write(&night, text).expect("a written file");
    let err = resumed(&["--possessions", "8", "--shard", "1/2"]);
    assert!(err.contains("another text of our-night.toml"), "{err}");
    assert!(
        run(&["simulate", "our-night.toml", "--resume"])
            .2
            .contains("no run of this that was stopped is kept in")
    );
}

#[test]
fn shards_in_any_order_make_the_bytes_of_one_run_and_no_others_do() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let play = ["compare", "my-question.toml", "--possessions", "70", "--seed", "5", "--quiet"];
    let (exit, shown, err) = run(&[&play[..], &["--out", "whole"]].concat());
    assert_eq!(exit, Some(0), "{err}");
    let folder = |nth: usize, of: usize| format!("shard-{nth}-{of}");
    for of in [1, 2, 5, 16] {
        let mut folders: Vec<String> = (1..=of).map(|nth| folder(nth, of)).collect();
        for (nth, folder) in folders.iter().enumerate() {
            let shard = format!("{}/{of}", nth + 1);
            let (exit, said, err) = run(&[&play[..], &["--shard", &shard, "--out", folder]].concat());
            assert_eq!((exit, said, err), (Some(0), String::new(), String::new()));
        }
        folders.rotate_left(of / 2);
        folders.swap(0, of / 3);
        let merged = format!("merged-{of}");
        let folders: Vec<&str> = folders.iter().map(String::as_str).collect();
        let (exit, said, err) = run(&[&["merge", "--quiet", "--out", &merged][..], &folders].concat());
        assert_eq!((exit, said), (Some(0), shown.clone()), "{err}");
        check_same(&home.path().join("whole"), &home.path().join(&merged));
        let (exit, said, err) = run(&[&["merge", "--out", &merged][..], &folders].concat());
        assert_eq!((exit, said), (Some(0), String::new()), "given again");
        assert_eq!(err, format!("{merged} is whole already; nothing was played\n"));
    }
    let other =
        ["compare", "my-question.toml", "--possessions", "70", "--quiet", "--shard", "2/2", "--out", "other"];
    assert_eq!(run(&other).0, Some(0));
    let ranked = [&play[..], &["--shard", "2/2", "--rank-by", "drives", "--out", "ranked"]].concat();
    assert_eq!(run(&ranked).0, Some(0));
    let damaged = home.path().join("shard-2-5/parts").join(&blocks(&home.path().join("shard-2-5"))[0]);
    fs::write(&damaged, "half").expect("a written file");
    let fives: Vec<String> = (1..=5).map(|nth| folder(nth, 5)).collect();
    let fives: Vec<&str> = fives.iter().map(String::as_str).collect();
    for (folders, word) in [
        (&["shard-1-2"][..], "shard 2/2 is missing"),
        (&["shard-2-5", "shard-1-5", "shard-5-5"], "shards 3/5 and 4/5 are missing"),
        (&["shard-1-2", "shard-2-2", "shard-1-2"], "shard 1/2 is there twice, in shard-1-2 and in shard-1-2"),
        (&["shard-1-2", "shard-2-5"], "shard-1-2 is shard 1/2 and shard-2-5 is shard 2/5"),
        (&["shard-1-2", "other"], "other is not of the run that shard-1-2 is of: it has seed 1, not 5"),
        (
            &["shard-1-2", "ranked"],
            "ranked is not of the run that shard-1-2 is of: it has the command zoneprobe",
        ),
        (&["whole"], "whole keeps no run"),
        (
            &fives,
            "shard 2/5 in shard-2-5 is not whole: 1 block is missing (shard-2-5/parts/0000000014-0000000028.json.gz",
        ),
    ] {
        let (exit, said, err) = run(&[&["merge", "--out", "none"][..], folders].concat());
        assert_eq!((exit, said.as_str()), (Some(2), ""), "{folders:?}: {err}");
        assert!(err.contains(word), "{folders:?}: {err}");
    }
    assert!(!home.path().join("none").exists());
}

#[test]
fn a_result_is_made_again_from_its_folder_alone_wherever_that_lies() {
    let home = home();
    let deep = home.path().join("plays/deep");
    fs::create_dir_all(&deep).expect("a folder");
    let zone = outcome(&mut zoneprobe(&["show", "1-2-2"])).1;
    fs::write(home.path().join("own.toml"), zone).expect("a written file");
    let night = fs::read_to_string(home.path().join("our-night.toml")).expect("a text");
    fs::write(home.path().join("plays/night.toml"), night.replace("\"3-2\"", "\"../own.toml\""))
        .expect("written");
    let question = fs::read_to_string(home.path().join("my-question.toml")).expect("a text");
    fs::write(deep.join("q.toml"), question.replace("our-night.toml", "../night.toml")).expect("written");
    let play = ["compare", "--possessions", "16", "--rank-by", "drives", "--units", "m", "--quiet"];
    let absolute = deep.join("q.toml");
    for (nth, file) in ["plays/deep/q.toml", absolute.to_str().expect("UTF-8")].into_iter().enumerate() {
        let out = format!("out-{nth}");
        let (exit, _, err) = outcome(zoneprobe(&play).args(["--out", &out, file]).current_dir(home.path()));
        assert_eq!(exit, Some(0), "{err}");
    }
    let piped = "cat my-question.toml | \"$0\" compare /dev/stdin --possessions 16 --quiet --out out-2";
    let (exit, _, err) = outcome(Command::new("sh").args(["-c", piped, ZONEPROBE]).current_dir(home.path()));
    assert_eq!(exit, Some(0), "{err}");

    let elsewhere = tempfile::tempdir().expect("a temporary folder");
    for nth in 0..3 {
        let (from, to) =
            (home.path().join(format!("out-{nth}")), elsewhere.path().join(format!("out-{nth}")));
        assert!(Command::new("cp").arg("-r").args([&from, &to]).status().expect("cp").success());
    }
    drop(home);
    let again = |out: &str| outcome(zoneprobe(&["again", out]).current_dir(elsewhere.path()));
    for nth in 0..3 {
        let out = format!("out-{nth}");
        let count = manifest(&elsewhere.path().join(&out))["files"].as_array().expect("files").len();
        let told = format!("{out}: all {count} files are made again, byte for byte\n");
        assert_eq!(again(&out), (Some(0), told, String::new()));
    }
    assert_eq!(names(elsewhere.path()), ["out-0", "out-1", "out-2"], "nothing is written");
    let (exit, _, err) =
        outcome(zoneprobe(&["find", "out-2", "points > 1", "--list"]).current_dir(elsewhere.path()));
    assert!(exit == Some(2) && err.contains(" --records events  # with the same text piped in as "), "{err}");

    let out = elsewhere.path().join("out-0");
    let table = fs::read_to_string(out.join("comparison.csv")).expect("a table");
    fs::write(out.join("comparison.csv"), table.replacen('0', "1", 1)).expect("a written file");
    let (exit, said, err) = again("out-0");
    assert_eq!((exit, said.as_str()), (Some(1), "not the same: comparison.csv\n"), "{err}");
    let zone = out.join("inputs/own/own.toml");
    fs::write(&zone, fs::read_to_string(&zone).expect("a text") + "\n").expect("a written file");
    let (exit, said, err) = again("out-0");
    assert_eq!((exit, said.as_str()), (Some(1), ""));
    assert!(
        err.contains("out-0/inputs/own/own.toml is not the input that was read then: nothing was played"),
        "{err}"
    );
    let (exit, said, _) = outcome(zoneprobe(&["verify", "out-0"]).current_dir(elsewhere.path()));
    assert_eq!((exit, said.as_str()), (Some(1), "changed: comparison.csv\nchanged: inputs/own/own.toml\n"));
}

#[test]
#[ignore = "minutes: 20 kills at any moment"]
fn kills_at_twenty_moments_cost_no_byte() {
    let home = home();
    let whole = home.path().join("whole");
    let begun = Instant::now();
    let args = ["simulate", "our-night.toml", "--possessions", "6000", "--quiet"];
    assert_eq!(ended(started(&[&args[..], &["--out", "whole"]].concat(), home.path())).0, Some(0));
    let (long, out) = (begun.elapsed(), home.path().join("out"));
    let mut chance = chances(17);
    let (mut kept, mut written) = (Vec::new(), 0);
    for _ in 0..20 {
        let mut run = started(&[&args[..], &["--out", "out"]].concat(), home.path());
        sleep(long.mul_f64(chance(1050) as f64 / 1000.0));
        let _ = run.kill();
        run.wait().expect("an end");
        kept.push(blocks(&out).len());
        if out.join("manifest.json").exists() && !out.join(LOCK).exists() {
            written += 1;
        } else {
            let (exit, err) =
                ended(started(&[&args[..], &["--out", "out", "--resume"]].concat(), home.path()));
            assert_eq!(exit, Some(0), "{err}");
        }
        check_same(&whole, &out);
        fs::remove_dir_all(&out).expect("removed");
    }
    println!("20 kills: blocks kept {kept:?}, {written} had written");
}
