//! Where words go: standard output and standard error, or whatever a test puts in their place.

use std::ffi::OsString;
use std::io::{self, IsTerminal, Write};

use scenarios::shown_lines;

/// The two streams, and whether they may be coloured.
pub struct Console<'a> {
    /// Results.
    pub out: &'a mut dyn Write,
    /// Everything else.
    pub err: &'a mut dyn Write,
    /// Whether the second stream is a terminal that wants colour.
    pub colour: bool,
    /// Columns of the terminal that results go to, or how wide they are elsewhere.
    pub width: usize,
}

/// How wide results are that go to no terminal.
const WIDTH: usize = 100;

impl Console<'_> {
    /// Runs `work` with the process's own streams, coloured as the terminal and the environment want it.
    pub fn of_process<T>(work: impl FnOnce(&mut Console) -> T) -> T {
        let colour = wants_colour(io::stderr().is_terminal(), |name| std::env::var_os(name));
        let width =
            terminal_size::terminal_size_of(io::stdout()).map_or(WIDTH, |(columns, _)| columns.0.into());
        work(&mut Console { out: &mut io::stdout().lock(), err: &mut io::stderr(), colour, width })
    }

    /// Prints a result to be read. What came from outside is shown and not obeyed.
    pub fn print(&mut self, text: &str) -> io::Result<()> {
        self.print_exactly(&shown_lines(text))
    }

    /// Prints a result byte for byte: rows, code, or words that were coloured after [`shown_lines`].
    pub fn print_exactly(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(text.as_bytes())?;
        self.out.flush()
    }

    /// Says something beside the result; nobody listening is no fault. What came from outside is shown and not obeyed.
    pub fn say(&mut self, text: &str) {
        self.say_exactly(&shown_lines(text));
    }

    /// Says words that were coloured after [`shown_lines`].
    pub fn say_exactly(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
    }
}

/// Colour goes to terminals that can show it. `NO_COLOR` (<https://no-color.org>) forbids it, `CLICOLOR_FORCE`
/// (<https://bixense.com/clicolors>) demands it anywhere, and the first of the two is heard first.
fn wants_colour(is_terminal: bool, variable: impl Fn(&str) -> Option<OsString>) -> bool {
    let is_set = |name| variable(name).is_some_and(|value| !value.is_empty());
    let is_on = |name| variable(name).is_some_and(|value| !value.is_empty() && value != "0");
    let is_dumb = variable("TERM").is_some_and(|value| value == "dumb");
    !is_set("NO_COLOR") && (is_on("CLICOLOR_FORCE") || is_terminal && !is_dumb)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_came_from_outside_is_shown_and_not_obeyed() {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut console = Console { out: &mut out, err: &mut err, colour: true, width: 100 };
        let text = "a\u{1b}[31m\u{7}\tb\r\nc\rd\u{202e}\n";
        console.print(text).unwrap();
        console.say(text);
        console.say_exactly("\u{1b}[1m");
        let told = "a\\u{1b}[31m\\u{7}\tb\r\nc\\u{d}d\\u{202e}\n";
        assert_eq!((out, err), (told.into(), format!("{told}\u{1b}[1m").into_bytes()));
    }

    #[test]
    fn the_environment_has_a_say_in_colour() {
        let wants = |is_terminal, variables: &[(&str, &str)]| {
            let found = |name: &str| variables.iter().find(|(own, _)| *own == name).map(|(_, v)| v.into());
            wants_colour(is_terminal, found)
        };
        assert!(wants(true, &[]) && !wants(false, &[]));
        assert!(!wants(true, &[("NO_COLOR", "1")]) && wants(true, &[("NO_COLOR", "")]));
        assert!(wants(false, &[("CLICOLOR_FORCE", "1")]) && !wants(false, &[("CLICOLOR_FORCE", "0")]));
        assert!(!wants(true, &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
        assert!(!wants(true, &[("TERM", "dumb")]) && wants(true, &[("TERM", "xterm")]));
    }
}
