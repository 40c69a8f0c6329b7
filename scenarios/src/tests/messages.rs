//! Each kind of fault gives its message, with its place.

use super::{Folder, check, small};
use crate::{bundled, scenario};

/// The faults of a scenario, without the folder's path.
fn faults(text: &str) -> String {
    let folder = Folder::with(&[("s.toml", text)]);
    scenario(&folder.path("s.toml"))
        .map_or_else(|faults| folder.shown(&faults.to_string()), |_| String::new())
}

#[test]
fn unknown_keys_and_names_are_refused_with_the_nearest() {
    assert_eq!(
        faults(&small("zzz = 1\nclocks = {}\n")),
        "s.toml:6:1: zzz: found an unknown key, allowed units, line, name, setting, rules, level, players, roster, player, usual, opponent, prior_attempts, clock, \
         officials, start, limits, numerics, zone or attack\n\
         s.toml:7:1: clocks: found an unknown key, allowed units, line, name, setting, rules, level, players, roster, player, usual, opponent, prior_attempts, clock, \
         officials, start, limits, numerics, zone or attack, did you mean `clock`?"
    );
    assert_eq!(
        faults(&small("").replace("1-2-2", "1-2-3")),
        "s.toml:4:16: zone.use: found \"1-2-3\", allowed 1-2-2, 3-2, 2-3, 2-1-2, 1-3-1 or man-to-man, or a path ending in .toml, did you mean `1-2-2`?"
    );
    assert_eq!(
        faults(&small("").replace("use = \"rover\"", "posts.options = { far-flsh = 1 }")),
        "s.toml:5:30: attack.posts.options.far-flsh: found far-flsh, allowed seal-helper, far-flash, run-under, \
         pop-out, park-low, back-line-screen, duck-in or dive, or a path ending in .toml, did you mean `far-flash`?"
    );
}

#[test]
fn numbers_out_of_range_and_of_no_size_are_refused() {
    for (written, allowed) in
        [("2.0", ""), ("nan", ""), ("-inf", ""), ("\"1\"", "a number, "), ("true", "a number, ")]
    {
        assert_eq!(
            faults(&small("").replace("\"1-2-2\"", &format!("\"1-2-2\", sink_back_m = {written}"))),
            format!("s.toml:4:39: zone.sink_back_m: found {written}, allowed {allowed}0 to 1.5 m")
        );
    }
    assert_eq!(
        faults(&small("").replace("\"1-2-2\"", "\"1-2-2\", sink_back_ft = 6")),
        "s.toml:4:40: zone.sink_back_ft: found 6, allowed 0 to 4.92 ft"
    );
    assert_eq!(
        faults(&small("").replace("\"1-2-2\"", "\"1-2-2\", carry_m = 1, carry_ft = 3")),
        "s.toml:4:49: zone.carry_ft: found 3, allowed one of carry_m and carry_ft, not both"
    );
}

#[test]
fn missing_keys_and_broken_files_are_reported() {
    assert_eq!(
        faults("name = \"x\"\n"),
        "s.toml:1:1: rules: found nothing, allowed us-high-school, us-college-men, us-college-women, \
         international or us-professional, or a path ending in .toml\n\
         s.toml:1:1: level: found nothing, allowed a table\n\
         s.toml:1:1: zone: found nothing, allowed a table\n\
         s.toml:1:1: attack: found nothing, allowed a table"
    );
    assert!(
        faults("name = \n").starts_with("s.toml:1:8: found nothing after =, allowed a value"),
        "{}",
        faults("name = \n")
    );
    let folder = Folder::with(&[]);
    let message = check(&folder.path("none.toml")).map_or_else(|faults| faults.to_string(), str::to_owned);
    assert_eq!(
        folder.shown(&message),
        "none.toml: found no such file, allowed the path of a file, or a bundled name (see `zoneprobe catalog`)"
    );
}

#[test]
fn all_faults_are_reported_at_once_in_order() {
    let text = small("clock = { shot_clock_s = 7.0 }\nlimits = { frozen_zone = 1 }\n")
        .replace("use = \"rover\"", "side = \"middle\", formation = { rover = [9.0, 2.0] }");
    assert_eq!(
        faults(&text),
        "s.toml:5:19: attack.side: found \"middle\", allowed either, left or right\n\
         s.toml:5:51: attack.formation.rover: found [9.0, 2.0], allowed a place on the floor: x from -7.62 to 7.62 m, \
         y from -1.6 to 11.2 m\n\
         s.toml:6:26: clock.shot_clock_s: found 7.0, allowed more than clock_used_s (8 s, gone when the set begins)\n\
         s.toml:7:26: limits.frozen_zone: found 1, allowed true or false"
    );
}

#[test]
fn a_users_route_is_checked_in_its_own_file() {
    let route = "home = [6.4, -0.2]\n[[program]]\nwhen = [{ ball_at = [\"slott\"] }, {}]\n\
                 [[program.step]]\nto = { behind = \"far centre\" }\npace = \"run\"\n";
    let text = small("").replace("use = \"rover\"", "rover = { route = \"r.toml\" }");
    let folder = Folder::with(&[("s.toml", &text), ("r.toml", route)]);
    let message =
        scenario(&folder.path("s.toml")).map_or_else(|faults| faults.to_string(), |_| String::new());
    assert_eq!(
        folder.shown(&message),
        "r.toml:3:22: program.1.when.1.ball_at: found \"slott\", allowed top, slot, wing, corner, short-corner, \
         low-post or elbow, did you mean `slot`?\n\
         r.toml:3:34: program.1.when: found {}, allowed a table with one of ball_with, ball_at, open, near_post, \
         ball_bound, stands, ball_left_me_s, waited_s, after_s, ball_in_the_air, ball_elsewhere, unwatched, dribbled_at \
         or back_out\n\
         r.toml:5:17: program.1.step.1.to.behind: found \"far centre\", allowed point, near wing, far wing, near back, \
         far back, near front, far front or on ball, did you mean `far front`?\n\
         r.toml:6:8: program.1.step.1.pace: found \"run\", allowed walk, jog or sprint"
    );
}

#[test]
fn no_input_makes_the_loader_panic() {
    let whole = small("[players.attack.body]\njump_m = 0.5\n[start]\nball = \"rover\"\n");
    for cut in (0..whole.len()).filter(|cut| whole.is_char_boundary(*cut)) {
        faults(&whole[..cut]);
        faults(&whole[cut..]);
    }
    for value in ["1", "[]", "[[1]]", "{}", "\"\u{e9}\"", "1979-05-27", "true", "[{}]", "9223372036854775807"]
    {
        for key in [
            "name", "rules", "units", "level", "players", "clock", "start", "zone", "attack", "variant",
            "factors", "design",
        ] {
            faults(&format!("{key} = {value}\n"));
            let folder =
                Folder::with(&[("e.toml", &format!("scenario = \"sunken-122\"\n{key} = {value}\n"))]);
            let _ = check(&folder.path("e.toml"));
        }
    }
}

/// What is said of a file of this kind by itself.
fn said(name: &str, text: &str) -> String {
    let folder = Folder::with(&[(name, text)]);
    check(&folder.path(name)).map_or_else(|faults| folder.shown(&faults.to_string()), str::to_owned)
}

#[test]
fn what_says_something_by_standing_there_is_true_or_left_out() {
    let route = |when: &str, to: &str| {
        said(
            "r.toml",
            &format!(
                "home = [5.0, 4.0]\n[[program]]\nwhen = [{{ {when} }}]\nstep = [{{ to = {{ {to} }} }}]\n"
            ),
        )
    };
    assert_eq!(route("back_out = true", "seal = true"), "route");
    assert_eq!(
        route("back_out = false", "seal = false"),
        "r.toml:3:22: program.1.when.1.back_out: found false, allowed true\n\
         r.toml:4:25: program.1.step.1.to.seal: found false, allowed true"
    );
    assert_eq!(route("near_post = false", "home = true"), "route", "the farther post");
}

#[test]
fn what_goes_with_one_key_does_not_go_with_another() {
    let route = "home = [5.0, 4.0]\n[[program]]\nstep = [{ to = { line_gap = 1.0, distance_m = 0.5, floor = [1, 2] } }]\n";
    assert_eq!(
        said("r.toml", route),
        "r.toml:3:18: program.1.step.1.to.line_gap: found an unknown key, allowed floor or frame\n\
         r.toml:3:34: program.1.step.1.to.distance_m: found an unknown key, allowed floor or frame"
    );
}

#[test]
fn lists_of_worth_are_as_long_as_they_have_to_be() {
    let worth = bundled::find("worth", "pro-worth").expect("a bundled table");
    let (from, to) = worth.split_once("little = [\n").expect("a first list");
    let (first, rest) = to.split_once("],\n").expect("a first row");
    let place = format!("{}:{}", from.lines().count() + 2, first.find('[').expect("a row") + 1);
    let without = format!("{from}little = [\n{}],\n{rest}", &first[..=first.find('[').expect("a row")]);
    assert_eq!(
        said("w.toml", &without),
        format!("w.toml:{place}: points.top.little: found [], allowed a list of 9 numbers")
    );
    let miss = worth.lines().find(|line| line.starts_with("miss")).expect("what follows a miss");
    let line = worth.lines().position(|line| line.starts_with("miss")).expect("a line") + 1;
    assert_eq!(
        said("w.toml", &worth.replace(miss, "miss = []")),
        format!("w.toml:{line}:8: after.miss: found [], allowed a list of 3 numbers")
    );
}
