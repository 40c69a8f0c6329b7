//! What comes in is read once, and only if it is a file or a pipe of a fair size.

use std::io::Write;

use super::*;

/// The result of `compare` on files that nobody touches.
fn undisturbed(home: &Path) -> Vec<(String, Vec<u8>)> {
    let args = ["compare", "my-question.toml", "--possessions", "128", "--quiet", "--out", "undisturbed"];
    let (exit, _, err) = outcome(zoneprobe(&args).current_dir(home));
    assert_eq!(exit, Some(0), "{err}");
    result(&home.join("undisturbed"))
}

/// The files of a result and their bytes.
fn result(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let read = |name: String| {
        let bytes = fs::read(folder.join(&name)).expect("a file");
        (name, bytes)
    };
    names(folder).into_iter().filter(|name| folder.join(name).is_file()).map(read).collect()
}

/// Only the tables of a result.
fn tables(folder: &Path) -> Vec<(String, Vec<u8>)> {
    result(folder).into_iter().filter(|(name, _)| name.ends_with(".csv")).collect()
}

/// A run with this text as its standard input, through a pipe.
fn fed(command: &mut Command, text: &[u8]) -> (Option<i32>, String, String) {
    let mut run = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("a process");
    run.stdin.take().expect("a pipe").write_all(text).expect("a reader");
    let Output { status, stdout, stderr } = run.wait_with_output().expect("an end");
    let text = |bytes| String::from_utf8(bytes).expect("output is UTF-8");
    (status.code(), text(stdout), text(stderr))
}

fn pipe(file: &Path) {
    assert!(Command::new("mkfifo").arg(file).status().expect("mkfifo").success());
}

#[test]
fn files_that_change_or_go_away_during_a_run_change_nothing_in_its_result() {
    let home = home();
    let night = home.path().join("our-night.toml");
    let question = home.path().join("my-question.toml");
    let texts = [&night, &question].map(|file| fs::read_to_string(file).expect("a text"));
    let expected = undisturbed(home.path());
    assert!(expected.iter().any(|(name, _)| name == "answers.csv"), "the zone's answers are played");
    let changes: [(&str, fn(&Path, &str)); 3] = [
        ("gone", |file, _| fs::remove_file(file).expect("removed")),
        ("half", |file, text| fs::write(file, &text[..text.len() / 2]).expect("written")),
        ("other", |file, text| {
            fs::write(file, text.replace("3-2", "2-3").replace("1.0", "0.5")).expect("written")
        }),
    ];
    for (name, change) in changes {
        let args = ["compare", "my-question.toml", "--possessions", "128", "--quiet", "--out", name];
        let run = started(&args, home.path());
        until_held(&home.path().join(name));
        signal("STOP", &run);
        change(&night, &texts[0]);
        change(&question, &texts[1]);
        signal("CONT", &run);
        let (exit, err) = ended(run);
        assert_eq!(exit, Some(0), "{name}: {err}");
        assert!(result(&home.path().join(name)) == expected, "{name}: another result");
        fs::write(&night, &texts[0]).expect("written");
        fs::write(&question, &texts[1]).expect("written");
    }
}

#[test]
fn a_pipe_gives_the_tables_of_the_file_and_a_command_that_says_so() {
    let home = home();
    let text = |name: &str| fs::read(home.path().join(name)).expect("a text");
    let play = ["--possessions", "128", "--seed", "1", "--quiet", "--out"];
    for (command, file) in [("compare", "my-question.toml"), ("simulate", "our-night.toml")] {
        let out = |end: &str| home.path().join(format!("{command}-{end}"));
        let run = |file: &str| {
            let mut run = zoneprobe(&[&[command, file], &play[..]].concat());
            run.current_dir(home.path());
            run
        };
        let (exit, shown, err) = outcome(run(file).arg(out("file")));
        assert_eq!(exit, Some(0), "{err}");
        let piped = fed(run("/dev/stdin").arg(out("pipe")), &text(file));
        assert_eq!(piped, (Some(0), shown, String::new()));
        assert!(tables(&out("pipe")) == tables(&out("file")), "{command}: other tables");
        let made = manifest(&out("pipe"));
        let told = format!(
            "zoneprobe {command} /dev/stdin --possessions 128 --seed 1  # with the same text piped in as stdin"
        );
        assert_eq!(made["command"].as_str(), Some(told.as_str()));
        assert_eq!(made["inputs"][0]["name"], "stdin");
        assert_eq!(made["inputs"][0]["sha256"], fingerprint(&home.path().join(file)).as_str());
        assert_eq!(made["result_digest"], manifest(&out("file"))["result_digest"]);
        // The command does it, with the text that it asks for.
        let mut shell = Command::new("sh");
        let folder = Path::new(ZONEPROBE).parent().expect("a folder");
        shell.args(["-c", &told]).current_dir(home.path());
        shell.env("PATH", format!("{}:/usr/bin:/bin", folder.display()));
        assert_eq!(fed(&mut shell, &text(file)).0, Some(0));
        let again = home.path().join("results/stdin-1");
        assert!(result(&again) == result(&out("pipe")), "{command}: not the same again");
        fs::remove_dir_all(again).expect("removed");
    }
    let film = |file: &str| {
        let mut run = zoneprobe(&["film", file, "--possession", "7"]);
        run.current_dir(home.path());
        run
    };
    let told = outcome(&mut film("my-question.toml"));
    assert_eq!(told.0, Some(0), "{}", told.2);
    assert_eq!(fed(&mut film("/dev/stdin"), &text("my-question.toml")), told);
}

#[test]
fn a_pipe_that_a_file_names_is_read_once_for_all_variants_and_answers() {
    let home = home();
    let expected = undisturbed(home.path());
    let night = home.path().join("our-night.toml");
    let text = fs::read(&night).expect("a text");
    fs::remove_file(&night).expect("removed");
    pipe(&night);
    let run = started(
        &["compare", "my-question.toml", "--possessions", "128", "--quiet", "--out", "out"],
        home.path(),
    );
    fs::write(&night, text).expect("a reader");
    let (exit, err) = ended(run);
    assert_eq!(exit, Some(0), "{err}");
    let tables_of = |all: Vec<(String, Vec<u8>)>| -> Vec<_> {
        all.into_iter().filter(|(name, _)| name.ends_with(".csv")).collect()
    };
    assert!(tables_of(result(&home.path().join("out"))) == tables_of(expected), "other tables");
    let command = manifest(&home.path().join("out"))["command"].to_string();
    assert!(command.ends_with("  # with the same text piped in as our-night.toml\""), "{command}");
}

#[test]
fn a_pipe_that_nobody_writes_to_is_waited_for_and_ends_with_a_signal() {
    let home = home();
    pipe(&home.path().join("silent.toml"));
    for args in [&["check", "silent.toml"][..], &["compare", "silent.toml", "--out", "out"]] {
        let mut run = started(args, home.path());
        sleep(Duration::from_millis(300));
        assert!(run.try_wait().expect("its state").is_none(), "{args:?}: it does not wait");
        let begun = Instant::now();
        signal("INT", &run);
        let (exit, err) = ended(run);
        assert!(exit != Some(0) && err.is_empty(), "{args:?}: {exit:?} {err}");
        assert!(begun.elapsed() < Duration::from_secs(20), "{args:?}");
    }
    assert_eq!(names(home.path()), ["my-question.toml", "our-night.toml", "silent.toml"]);
}

#[test]
fn what_is_no_file_and_no_pipe_or_too_large_is_refused_at_once_by_every_command() {
    let home = home();
    fs::write(home.path().join("large.toml"), vec![b'#'; (1 << 20) + 1]).expect("written");
    for (file, word) in [
        ("/dev/zero", "/dev/zero: found a device, allowed a file or a pipe"),
        ("large.toml", "large.toml: found 1,048,577 bytes, allowed at most 1,048,576 bytes"),
    ] {
        for args in [
            &["check", file][..],
            &["compare", file],
            &["simulate", file],
            &["film", file, "--possession", "1"],
        ] {
            let (exit, out, err) = outcome(zoneprobe(args).current_dir(home.path()));
            assert_eq!((exit, out.as_str()), (Some(2), ""), "{args:?}: {err}");
            assert!(err.contains(word), "{args:?}: {err}");
        }
    }
    // An endless pipe is left once it has given more than is read.
    let mut shell = Command::new("sh");
    shell.args(["-c", &format!("cat /dev/zero | {ZONEPROBE} check /dev/stdin")]);
    let (exit, _, err) = outcome(&mut shell);
    assert_eq!(exit, Some(2));
    let words: Vec<&str> = err.split_whitespace().filter(|word| *word != "│").collect();
    assert!(
        words.join(" ").contains("found more than 1,048,576 bytes, allowed at most 1,048,576 bytes"),
        "{err}"
    );
}

#[test]
fn of_thousands_of_faults_the_first_are_shown_and_the_rest_are_counted() {
    let home = home();
    let night = fs::read_to_string(home.path().join("our-night.toml")).expect("a text");
    let keys: String = (0..8000).map(|nth| format!("key_{nth} = {nth}\n")).collect();
    fs::write(home.path().join("keys.toml"), keys + &night).expect("written");
    let (exit, _, err) = outcome(zoneprobe(&["check", "keys.toml"]).current_dir(home.path()));
    assert_eq!(exit, Some(2));
    assert!(err.ends_with("zoneprobe: 7950 more faults are not shown\n"), "{}", &err[err.len() - 200..]);
    assert_eq!(err.matches("found an unknown key").count(), 50);
    let (_, out, _) =
        outcome(zoneprobe(&["check", "keys.toml", "--format", "json"]).current_dir(home.path()));
    let page: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(page["files"][0]["faults"].as_array().map(Vec::len), Some(50));
    assert_eq!(page["files"][0]["more"], 7950);
    // Lines that nobody can read are not printed.
    let long: String = (0..30).map(|nth| format!("key_{nth} = \"{}\"\n", "x".repeat(30_000))).collect();
    fs::write(home.path().join("long.toml"), long + &night).expect("written");
    let (exit, _, err) = outcome(zoneprobe(&["check", "long.toml"]).current_dir(home.path()));
    assert_eq!((exit, err.matches("found an unknown key").count()), (Some(2), 30));
    assert!(err.len() < 20_000, "{} bytes", err.len());
}

#[test]
fn a_result_whose_manifest_or_table_is_no_file_is_refused() {
    let home = home();
    undisturbed(home.path());
    let out = home.path().join("undisturbed");
    for (name, word) in
        [("answers.csv", "answers.csv is missing"), ("manifest.json", "found something else than a file")]
    {
        fs::remove_file(out.join(name)).expect("removed");
        pipe(&out.join(name));
        let (exit, _, err) =
            outcome(zoneprobe(&["sheet", "undisturbed", "--out", "page"]).current_dir(home.path()));
        assert_eq!(exit, Some(2), "{err}");
        assert!(err.contains(word), "{err}");
    }
    assert!(!home.path().join("page").exists());
}
