//! Manual pages, made from the command line's definition.

use clap::{Command, CommandFactory};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, roman};

use super::typed::Args;

/// The main manual page, in roff.
pub fn manual() -> String {
    page(&program())
}

/// A manual page for the program and for each command: file name and text.
pub fn manuals() -> Vec<(String, String)> {
    let program = program();
    let commands = program.get_subcommands();
    let own = commands.map(|command| (format!("zoneprobe-{}.1", command.get_name()), page(command)));
    std::iter::once((String::from("zoneprobe.1"), page(&program))).chain(own).collect()
}

fn program() -> Command {
    let shown = |command: Command| command.mut_args(|arg| arg.hide_short_help(false));
    let mut program = shown(Args::command()).mut_subcommands(shown).disable_help_subcommand(true);
    // Gives the commands their full names.
    program.build();
    program
}

fn page(command: &Command) -> String {
    let man = Man::new(command.clone());
    let mut text = Vec::new();
    man.render_title(&mut text)
        .and_then(|()| man.render_name_section(&mut text))
        .and_then(|()| man.render_synopsis_section(&mut text))
        .and_then(|()| man.render_options_section(&mut text))
        .and_then(|()| match command.has_subcommands() {
            true => man.render_subcommands_section(&mut text),
            false => Ok(()),
        })
        .and_then(|()| endings(command).to_writer(&mut text))
        .expect("written to memory");
    String::from_utf8(text).expect("written from text")
}

/// Examples as they are typed, and what else the help ends with.
fn endings(command: &Command) -> Roff {
    let text = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let (examples, notes): (Vec<&str>, Vec<&str>) =
        text.split("\n\n").partition(|part| part.starts_with(EXAMPLES));
    let mut roff = Roff::new();
    for part in examples {
        roff.control("SH", ["EXAMPLES"]).control("nf", []);
        for line in part.lines().skip(1) {
            roff.text([roman(line.trim())]);
        }
        roff.control("fi", []);
    }
    if notes.iter().any(|note| !note.is_empty()) {
        roff.control("SH", ["NOTES"]);
        for line in notes.iter().flat_map(|note| note.lines()) {
            roff.control("PP", []).text([roman(line)]);
        }
    }
    roff
}

/// The line above the examples of a help page.
const EXAMPLES: &str = "Examples:";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_command_has_a_page_and_the_main_one_names_them_all() {
        let pages = manuals();
        let main = &pages[0].1;
        assert_eq!(*main, manual());
        let commands = [
            "compare",
            "simulate",
            "film",
            "power",
            "sheet",
            "verify",
            "again",
            "merge",
            "check",
            "catalog",
            "show",
            "keys",
            "schema",
            "completions",
            "man",
        ];
        for command in commands {
            let name = format!("zoneprobe-{command}.1");
            let (_, text) = pages.iter().find(|(file, _)| *file == name).expect("a page");
            assert!(
                main.contains(&format!("zoneprobe\\-{command}")),
                "the main page does not name {command}"
            );
            for part in [".SH NAME", ".SH OPTIONS", ".SH EXAMPLES", "\nzoneprobe "] {
                assert!(text.contains(part), "{part} is not in {name}:\n{text}");
            }
        }
        assert!(main.contains("Exit codes") && main.contains("Possessions that a worker takes"), "{main}");
    }
}
