//! Names and other texts: what they may hold and how long they may be, in every file; what came from outside is shown
//! and not obeyed.
//!
//! What it has caught: variants called by a command to the terminal, whose pictures were no pictures.

use std::ffi::OsString;
use std::path::Path;

use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme};

use super::{Folder, check, small};
use crate::fault::Faults;
use crate::text::{Text, shown_lines_with};
use crate::{experiment, is_hidden, json_schema, path_text, shown, shown_lines, shown_path};

/// Characters that are obeyed or not seen, one of each sort.
const ODD: [char; 18] = [
    '\0',
    '\u{7}',
    '\u{1b}',
    '\u{7f}',
    '\u{9b}',
    '\u{ad}',
    '\u{200b}',
    '\u{200f}',
    '\u{2028}',
    '\u{202e}',
    '\u{2066}',
    '\u{feff}',
    '\u{fdd0}',
    '\u{fff5}',
    '\u{1bca0}',
    '\u{2ffff}',
    '\u{ffff}',
    '\u{e0041}',
];

/// The faults of an experiment beside a scenario, a zone and a route.
fn faults(files: &[(&str, &str)]) -> (Folder, Faults) {
    let folder = Folder::with(files);
    let found = experiment(&folder.path("e.toml"));
    (folder, found.map(|_| ()).expect_err("it is refused"))
}

/// The message of an experiment that has just one fault.
fn said(text: &str) -> String {
    let (folder, faults) = faults(&[("e.toml", text)]);
    assert_eq!(faults.all.len(), 1, "{faults}");
    folder.shown(&faults.to_string())
}

#[test]
fn what_is_not_seen_is_refused_in_names_and_lines() {
    const NAME: &str = "allowed a name of 1 to 64 characters, all of them visible";
    const LINE: &str = "allowed one line of at most 200 characters, all of them visible";
    let variant = "scenario = \"sunken-122\"\n[[variant]]\n";
    assert_eq!(
        said(&format!("{variant}name = \"a\\u001b[31m\"\n")),
        format!(
            "e.toml:3:8: variant.1.name: found \"a\\u001b[31m\" with U+001B, a character that is not shown, {NAME}"
        )
    );
    assert_eq!(
        said(&format!("{variant}name = \"b\u{202e}\"\n")),
        format!(
            "e.toml:3:8: variant.1.name: found \"b\\u{{202e}}\" with U+202E, a character that is not shown, {NAME}"
        )
    );
    assert_eq!(
        said(&format!("{variant}name = \"  \"\n")),
        format!("e.toml:3:8: variant.1.name: found \"  \", {NAME}")
    );
    assert_eq!(
        said(&format!("question = \"\"\"one\ntwo\"\"\"\n{variant}name = \"a\"\n")),
        format!("e.toml:1:12: question: found a text with U+000A, a character that is not shown, {LINE}")
    );
    for letter in ODD {
        let code = u32::from(letter);
        let written = format!("{variant}name = \"a\\U{code:08X}\"\nset = {{ name = \"b\\U{code:08X}\" }}\n");
        let (_, faults) = faults(&[("e.toml", &written)]);
        let told = faults.to_string();
        assert!(faults.all.len() == 2 && told.matches(&format!("with U+{code:04X}")).count() == 2, "{told}");
    }
}

#[test]
fn names_and_lines_have_a_longest() {
    let of = |question: usize, name: usize| {
        let (question, name) = ("é".repeat(question), "é".repeat(name));
        let text =
            format!("question = \"{question}\"\nscenario = \"sunken-122\"\n[[variant]]\nname = \"{name}\"\n");
        let folder = Folder::with(&[("e.toml", &text)]);
        experiment(&folder.path("e.toml"))
            .map_or_else(|faults| folder.shown(&faults.to_string()), |_| String::new())
    };
    assert_eq!(of(200, 64), "", "the longest, in characters and not in bytes");
    assert_eq!(
        of(201, 65),
        "e.toml:1:12: question: found a text of 201 characters, allowed one line of at most 200 characters, all of them \
         visible\n\
         e.toml:4:8: variant.1.name: found a text of 65 characters, allowed a name of 1 to 64 characters, all of them \
         visible"
    );
}

#[test]
fn positions_and_rules_of_a_zone_are_held_to_what_names_are() {
    let zone = crate::bundled_text("1-2-2").expect("a bundled zone");
    let told = |from: &str, to: &str| {
        let own = zone.replace(from, to);
        assert_ne!(own, zone, "the bundled zone says it otherwise");
        let folder = Folder::with(&[("z.toml", &own)]);
        check(&folder.path("z.toml")).map_or_else(|faults| folder.shown(&faults.to_string()), str::to_owned)
    };
    let rule = told("[post_help.point-drops]", "[post_help.\"point\\u0007drops\"]");
    assert!(
        rule.contains(
            ": post_help.point\\u{7}drops: found point\\u{7}drops with U+0007, a character that is not shown"
        ),
        "{rule}"
    );
    let line = told("the far back crosses to the low post", "the far back\\u001B[2J");
    assert!(line.contains(".line: found ") && line.contains("with U+001B"), "{line}");
    let position = told("front = [\"point\"", "front = [\"point\\u200B\"");
    assert!(position.contains("positions.front: found \"point\\u200B\" with U+200B"), "{position}");
}

#[test]
fn the_name_of_a_file_is_held_to_what_names_are() {
    let long = format!("{}.toml", "x".repeat(65));
    for (name, found) in [
        ("a\u{1b}[31m.toml", "a file name with U+001B, a character that is not shown"),
        ("a\u{202e}.toml", "a file name with U+202E, a character that is not shown"),
        (long.as_str(), "a file name of 65 characters"),
    ] {
        let folder = Folder::with(&[(name, &small(""))]);
        let path = folder.path(name);
        let told = check(&path).map(|_| ()).expect_err("it is refused").to_string();
        let expected = format!("{}: found {found}, {}", shown(name), ALLOWED);
        assert_eq!(folder.shown(&told), expected);
        // The same, named by another file.
        let named =
            format!("scenario = \"{}\"\nvariant = [{{ name = \"a\" }}]\n", name.replace('\u{1b}', "\\u001b"));
        let e = folder.path("e.toml");
        std::fs::write(&e, named).expect("a written file");
        let told = experiment(&e).map(|_| ()).expect_err("it is refused").to_string();
        assert!(told.contains(":1:12: scenario: found ") && told.ends_with(ALLOWED), "{told}");
        assert!(!told.contains(is_hidden), "{told}");
    }
    const ALLOWED: &str = "allowed a name of 1 to 64 characters, all of them visible";
}

#[cfg(unix)]
#[test]
fn names_that_are_no_text_are_told_apart() {
    use std::os::unix::ffi::OsStringExt;
    let path = |byte: u8| OsString::from_vec(vec![b'a', byte, b'.', b't', b'o', b'm', b'l']);
    let told: Vec<String> = [0xfe, 0xff]
        .map(|byte| check(Path::new(&path(byte))).map(|_| ()).expect_err("no text").to_string())
        .to_vec();
    for (told, byte) in told.iter().zip(["fe", "ff"]) {
        assert!(
            told.starts_with(&format!("a\\x{byte}.toml: found a file name with bytes that are no text")),
            "{told}"
        );
    }
    assert_eq!(shown_path(Path::new(&path(0xff))), path_text(Path::new(&path(0xff))));
}

/// The picture of a fault with the lines it stands in.
fn drawn(faults: &Faults) -> String {
    let handler = GraphicalReportHandler::new_themed(GraphicalTheme::unicode_nocolor()).with_width(110);
    let mut text = String::new();
    faults.all.iter().for_each(|fault| handler.render_report(&mut text, fault).expect("drawn to memory"));
    text
}

#[test]
fn lines_shown_beside_a_fault_are_shown_and_not_obeyed() {
    // Raw characters: some are no TOML, others stand in a comment or a text.
    for text in [
        "# \u{202e}\u{200b}\r\nname = \"b\u{202e}\" # \u{2066}\nscenario = 1\n",
        "scenario = \"\u{1b}[31m\"\n",
        "scenario = \"a\rb\"\n",
        "zone\u{9b}x = \"\u{7}\n",
        "scenario = \"sunken-122\"\nvariant = [{ name = \"a\", set = { \"zone.\\u001bx\" = 1 } }]\n",
    ] {
        let (_, faults) = faults(&[("e.toml", text)]);
        let drawn = drawn(&faults);
        let odd = |letter: char| !matches!(letter, '\n' | '\t' | '\r') && is_hidden(letter);
        assert!(!drawn.contains(odd) && !drawn.replace("\r\n", "\n").contains('\r'), "{drawn:?}");
    }
    let (_, faults) = faults(&[(
        "e.toml",
        "# \u{202e}\nscenario = \"\u{200b}x\" # \u{200b}\nvariant = [{ name = \"a\" }]\n",
    )]);
    let fault = &faults.all[0];
    let label = fault.labels().expect("a place").next().expect("a place");
    let source = fault.source_code().expect("a text").read_span(label.inner(), 0, 0).expect("the place");
    assert_eq!(
        std::str::from_utf8(source.data()),
        Ok("\"\\u{200b}x\""),
        "the place moves with what is written out"
    );
}

#[test]
fn a_text_is_written_out_once_and_its_shape_stays() {
    assert_eq!(shown("plain é 漢 \u{1f600}"), "plain é 漢 \u{1f600}");
    assert_eq!(shown("a\u{1b}[1m\n\t\u{202e}"), "a\\u{1b}[1m\\u{a}\\u{9}\\u{202e}");
    assert_eq!(shown_lines("a\u{1b}\n\tb\r\nc\rd\u{feff}"), "a\\u{1b}\n\tb\r\nc\\u{d}d\\u{feff}");
    let once = shown("\u{7}");
    assert_eq!(shown(&once), once);
    assert_eq!(shown_lines_with("\u{7}ab\u{7}", (1, 3)), ("\\u{7}ab\\u{7}".into(), (5, 7)));
    assert_eq!(shown_lines_with("ab", (2, 2)), ("ab".into(), (2, 2)));
    for letter in ODD {
        assert!(is_hidden(letter) && !shown(&letter.to_string()).contains(is_hidden));
    }
    for letter in "aZé漢 '\"\\\u{301}\u{fe0f}\u{1f600}".chars() {
        assert!(!is_hidden(letter), "{letter:?}");
    }
}

#[test]
fn the_schemas_refuse_the_characters_that_the_loader_refuses() {
    let schema: serde_json::Value =
        serde_json::from_str(&json_schema("experiment").expect("a kind")).expect("JSON");
    let name = &schema["properties"]["variant"]["items"]["properties"]["name"];
    let question = &schema["properties"]["question"];
    assert_eq!((&name["maxLength"], &question["maxLength"]), (&64.into(), &200.into()));
    let class = name["not"]["pattern"].as_str().expect("a class of characters");
    let ranges: Vec<(u32, u32)> = class
        .trim_matches(['[', ']'])
        .split("\\u")
        .skip(1)
        .map(|code| u32::from_str_radix(code.trim_end_matches('-'), 16).expect("four digits"))
        .collect::<Vec<u32>>()
        .chunks(2)
        .map(|ends| (ends[0], ends[1]))
        .collect();
    for code in 0..0x1_0000 {
        let Some(letter) = char::from_u32(code) else { continue };
        let refused = ranges.iter().any(|&(first, last)| (first..=last).contains(&code));
        assert_eq!(refused, !Text::Name.takes(letter), "U+{code:04X}");
    }
}
