//! What a stopped run has come to can be read as it is, whatever was asked for: a shard, a choice, a design. It is what a run of so
//! much would have said; nothing is played or changed by looking.

use super::designs::DESIGN;
use super::kept::{all, blocks, check_same, until_kept};
use super::*;

/// Starts a run, kills it when it has kept so many blocks, and leaves it no more than these.
fn killed(args: &[&str], folder: &Path, count: usize) {
    let (home, name) = (folder.parent().expect("a home"), folder.file_name().and_then(|name| name.to_str()));
    let mut run = started(&[args, &["--threads", "1", "--out", name.expect("a name")]].concat(), home);
    until_kept(folder, count);
    run.kill().expect("killed");
    run.wait().expect("an end");
    for name in &blocks(folder)[count..] {
        fs::remove_file(folder.join("parts").join(name)).expect("removed");
    }
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_shard_can_be_read_and_finds_out_again_what_it_is_of() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    let shard = ["compare", "my-question.toml", "--possessions", "8", "--shard", "1/2"];
    assert_eq!(run(&[&shard[..], &["--out", "out"]].concat()).0, Some(0));
    let half =
        ["compare", "my-question.toml", "--possessions", "4", "--format", "csv", "--quiet", "--out", "half"];
    let (exit, rows, err) = run(&half);
    assert_eq!(exit, Some(0), "{err}");
    let look = [&shard[..], &["--out", "out", "--resume", "--dry-run", "--format", "csv"]].concat();
    let told = "so far in out: shard 1/2, 4 of 4 possessions of each\n".to_owned();
    assert_eq!(run(&look), (Some(0), rows.clone(), told));
    let table = run(&[&shard[..], &["--out", "out", "--resume", "--dry-run", "--quiet"]].concat()).1;
    let not_whole = "Not whole: shard 1/2, 4 of 4 possessions of each. Nothing here is a verdict";
    assert!(words(&table).starts_with(not_whole) && !table.contains("differences.csv"), "{table}");

    let own = home.path().join("out/parts/run.json");
    let (written, before) = (fs::read(&own).expect("a text"), all(&home.path().join("out")));
    let on = [&shard[..], &["--out", "out", "--resume"]].concat();
    for damage in [None, Some("")] {
        match damage {
            None => fs::remove_file(&own).expect("removed"),
            Some(text) => fs::write(&own, text).expect("a written file"),
        }
        // Looking writes nothing.
        assert_eq!(run(&look).0, Some(2));
        // Of what may be another run it is not made.
        for other in
            [&["--seed", "2"][..], &["--records", "events"], &["--shard", "2/2"], &["--possessions", "6"]]
        {
            let plain = ["compare", "my-question.toml", "--out", "out", "--resume"];
            let kept = if other[0] == "--shard" { &[][..] } else { &["--shard", "1/2"] };
            let count = if other[0] == "--possessions" { &[][..] } else { &["--possessions", "8"] };
            let (exit, _, err) = run(&[&plain[..], kept, count, other].concat());
            assert!(exit == Some(2) && !err.contains("anew"), "{other:?}: {err}");
        }
        let (exit, _, err) = run(&on);
        let word = "zoneprobe: out/parts/run.json was lost or damaged and is written anew: the blocks beside it are of this run\n";
        assert!(exit == Some(0) && err.starts_with(word), "{err}");
        assert_eq!(fs::read(&own).expect("a text"), written);
    }
    assert!(all(&home.path().join("out")) == before, "all is as it was");
    let (exit, _, err) = run(&[&shard[..], &["--dry-run"]].concat());
    assert!(exit == Some(2) && err.contains("leave out --shard, or add --resume"), "{err}");
}

#[test]
fn a_choice_can_be_read_look_by_look_and_one_that_looks_no_further_says_so() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    // No difference is too small for it, so that the first look does not settle it.
    let choice =
        ["compare", "my-question.toml", "--possessions", "32", "--until-sure", "0", "--budget", "2500"];
    let (exit, shown, err) =
        run(&[&choice[..], &["--stop-at", "1024", "--out", "short", "--quiet"]].concat());
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert!(words(&shown).contains("it was stopped after 1,024 possessions of each"), "{shown}");
    let verdict = fs::read_to_string(home.path().join("short/verdict.json")).expect("a verdict");
    assert!(verdict.contains("\"ended\": \"stopped\"") && verdict.contains("\"budget\": 2500"), "{verdict}");
    let looks = fs::read_to_string(home.path().join("short/selection.csv")).expect("a table");
    assert!(looks.lines().skip(1).all(|line| line.starts_with("1,1024,")), "{looks}");
    assert_eq!(run(&["again", "short", "--quiet"]), (Some(0), String::new(), String::new()));
    killed(&choice, &home.path().join("out"), 1);
    let look = [&choice[..], &["--out", "out", "--resume", "--dry-run"]].concat();
    let (exit, rows, err) = run(&[&look[..], &["--format", "csv"]].concat());
    assert_eq!((exit, rows), (Some(0), looks), "{err}");
    let told = "so far in out: a choice after 1,024 of at most 2,500 possessions of each that is left\n";
    assert_eq!(err, told);
    let (exit, table, err) = run(&look);
    assert_eq!((exit, err.as_str()), (Some(0), told));
    let table = words(&table);
    assert!(
        table.contains(" ahead") && table.contains("safe for all pairs and all looks at once"),
        "{table}"
    );
    let (exit, _, err) = run(&[&look[..], &["--rank-by", "drives"]].concat());
    assert!(exit == Some(2) && err.contains("keeps a choice that was asked for by another command"), "{err}");

    let none = home.path().join("out/parts").join(&blocks(&home.path().join("out"))[0]);
    fs::remove_file(none).expect("removed");
    let (exit, _, err) = run(&look);
    assert!(exit == Some(2) && err.contains("out keeps no whole look yet"), "{err}");
}

/// A design of so many cells, which share so many possessions.
fn design_of(cells: u64, possessions: u64) -> String {
    DESIGN
        .replace("cells = 16\ndraws = \"own\"\nleading = 1", &format!("cells = {cells}\nleading = 0"))
        .replace("possessions = 65", &format!("possessions = {possessions}"))
}

#[test]
fn a_design_can_be_read_by_the_blocks_that_all_cells_have() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    // Three blocks, each of one part.
    fs::write(home.path().join("small.toml"), design_of(8, 130)).expect("a written file");
    let design = ["compare", "small.toml"];
    let one_block =
        [&design[..], &["--possessions", "64", "--out", "block", "--format", "csv", "--quiet"]].concat();
    let (exit, rows, err) = run(&one_block);
    assert_eq!(exit, Some(0), "{err}");
    killed(&design, &home.path().join("out"), 1);
    let look = [&design[..], &["--out", "out", "--resume", "--dry-run"]].concat();
    let (exit, so_far, err) = run(&[&look[..], &["--format", "csv"]].concat());
    assert_eq!((exit, so_far), (Some(0), rows), "{err}");
    assert_eq!(err, "so far in out: 1,024 of 2,080 possessions, 64 of each in every cell\n");
    let (exit, table, err) = run(&[&look[..], &["--quiet"]].concat());
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    for told in
        ["Not whole: 1,024 of 2,080 possessions", "p, alone", "zone.sink_back_m", "64 of each, seed 1"]
    {
        assert!(words(&table).contains(told), "{told}: {table}");
    }
    assert!(!table.contains('●') && !table.contains("effects.csv"), "{table}");
    for (correction, head) in [("holm", "p, Holm"), ("benjamini-hochberg", "p, Benjamini-Hochberg")] {
        let all = format!("all-{correction}");
        let args = ["--possessions", "64", "--out", &all, "--correct", correction, "--quiet"];
        let (exit, table, err) = run(&[&design[..], &args].concat());
        assert_eq!(exit, Some(0), "{err}");
        assert!(table.contains(head), "{table}");
    }
    check_same(&home.path().join("all-holm"), &home.path().join("all-benjamini-hochberg"));

    let first = home.path().join("out/parts").join(&blocks(&home.path().join("out"))[0]);
    fs::write(first, "half").expect("a written file");
    let (exit, said, err) = run(&look);
    assert_eq!((exit, said.as_str()), (Some(2), ""));
    assert!(err.contains(".json.gz is damaged\n") && err.contains("and no cell that is whole"), "{err}");
}

#[test]
fn a_design_of_which_no_block_is_whole_can_be_read_cell_by_cell() {
    let home = home();
    let run = |args: &[&str]| outcome(zoneprobe(args).current_dir(home.path()));
    fs::write(home.path().join("wide.toml"), design_of(64, 64)).expect("a written file");
    let design = ["compare", "wide.toml"];
    killed(&design, &home.path().join("out"), 1);
    let look = [&design[..], &["--out", "out", "--resume", "--dry-run"]].concat();
    let (exit, table, err) = run(&look);
    assert_eq!(exit, Some(0), "{err}");
    let told = "4,096 of 8,192 possessions, 64 of each in 32 cells of 64; effects are told where all cells have some";
    assert_eq!(err, format!("so far in out: {told}\n"));
    assert!(words(&table).starts_with(&format!("Not whole: {told}. Nothing here is a verdict")), "{table}");
    assert!(words(&table).contains("The first of many look better than they are"), "{table}");
    let (exit, rows, err) = run(&[&look[..], &["--format", "csv", "--quiet"]].concat());
    assert_eq!((exit, err.as_str()), (Some(0), ""));
    assert_eq!(rows.lines().count(), 1 + 64, "those of cells that were played");
}
