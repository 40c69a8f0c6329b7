//! The whole program but for its streams: a command line in, an exit code out.

use std::ffi::OsString;

use crate::cli::{Colour, Options};
use crate::commands;
use crate::console::Console;
use crate::crash::caught;
use crate::error::{Error, Exit};

/// Does what the command line asks for. Tests call it without the binary.
pub fn run(args: impl IntoIterator<Item = OsString>, console: &mut Console) -> Exit {
    let args: Vec<OsString> = args.into_iter().collect();
    let typed = Colour::typed(&args);
    let done = match Options::parse(args) {
        Ok((options, colour)) => {
            console.colour = colour.wanted(console.colour);
            caught(|| obey(&options, console)).unwrap_or_else(|message| Err(Error::Bug(message)))
        }
        Err(usage) if usage.is_error => {
            let colour = typed.wanted(console.colour);
            console.say_exactly(if colour { &usage.coloured } else { &usage.text });
            return Exit::Unusable;
        }
        Err(usage) => {
            // Help is a result, and results are plain unless colour is demanded.
            let colour = typed.wanted(false);
            console.print_exactly(if colour { &usage.coloured } else { &usage.text }).map_err(Error::from)
        }
    };
    match done {
        Ok(()) => Exit::Done,
        Err(error) if error.is_closed_pipe() => Exit::Done,
        Err(error) => {
            console.say_exactly(&error.told(console.colour));
            error.exit()
        }
    }
}

fn obey(options: &Options, console: &mut Console) -> Result<(), Error> {
    match options {
        Options::Compare(run) => commands::compare(run, console),
        Options::Simulate(run) => commands::simulate(run, console),
        Options::Film(film) => commands::film(film, console),
        Options::Find(find) => commands::find(find, console),
        Options::Power(power) => commands::power(power, console),
        Options::Worth(worth) => commands::worth(worth, console),
        Options::Scout(scout) => commands::scout(scout, console),
        Options::Chart(chart) => commands::chart(chart, console),
        Options::Who(who) => commands::who(who, console),
        Options::Sheet(sheet) => commands::sheet(sheet, console),
        Options::Verify { results, quiet } => commands::verify(results, *quiet, console),
        Options::Again { results, threads, quiet } => commands::again(results, *threads, *quiet, console),
        Options::Merge(merge) => commands::merge(merge, console),
        Options::Open(open) => commands::open(open, console),
        Options::Check(check) => commands::check(check, console),
        Options::Catalog(format) => commands::catalog(*format, console),
        Options::Show(name) => commands::show(name, console),
        Options::Keys(kind) => commands::keys(kind.as_deref(), console),
        Options::Schema(kind) => commands::schema(kind, console),
        Options::Completions(shell) => commands::completions(*shell, console),
        Options::Man { out, quiet } => commands::man(out.as_deref(), *quiet, console),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{self, Write};

    /// Exit, standard output and standard error of one command line.
    fn outcome(args: &[&str]) -> (Exit, String, String) {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let args = std::iter::once("zoneprobe").chain(args.iter().copied()).map(OsString::from);
        let exit = run(args, &mut Console { out: &mut out, err: &mut err, colour: false, width: 100 });
        (exit, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    }

    #[test]
    fn help_is_a_result_and_nonsense_is_refused() {
        let (exit, out, err) = outcome(&["--help"]);
        assert_eq!((exit, err.as_str()), (Exit::Done, ""));
        assert!(out.contains("Usage: zoneprobe"));
        let (exit, out, err) = outcome(&["conpare"]);
        assert_eq!((exit, out.as_str()), (Exit::Unusable, ""));
        assert!(err.contains("conpare"));
    }

    #[test]
    fn a_file_that_is_not_there_is_unusable_input() {
        for args in [
            &["check", "nowhere.toml"][..],
            &["compare", "nowhere.toml"],
            &["simulate", "nowhere.toml"],
            &["film", "nowhere.toml", "--possession", "1"],
        ] {
            let (exit, out, err) = outcome(args);
            assert_eq!((exit, out.as_str()), (Exit::Unusable, ""), "{args:?}");
            assert!(err.contains("nowhere.toml") && !err.contains('\u{1b}'), "{err}");
        }
    }

    #[test]
    fn a_folder_in_use_is_refused_before_anything_runs() {
        let home = tempfile::tempdir().unwrap();
        std::fs::write(home.path().join("old.csv"), "").unwrap();
        // So many possessions would take days.
        let folder = home.path().to_str().unwrap();
        let (exit, out, err) = outcome(&["--possessions", "1073741824", "--out", folder]);
        assert_eq!((exit, out.as_str()), (Exit::Unusable, ""));
        assert!(err.contains("not an empty folder"), "{err}");
    }

    #[test]
    fn a_variant_that_does_not_exist_is_answered_with_those_that_do() {
        let (exit, _, err) = outcome(&["film", "--possession", "1", "--variant", "nobody"]);
        assert_eq!(exit, Exit::Unusable);
        assert!(err.contains("no variant is called nobody. There are hold-wing,"), "{err}");
        let (_, _, err) = outcome(&["film", "--possession", "1", "--variant", "seam-crosss"]);
        assert!(err.contains("seam-crosss, did you mean seam-cross? There are hold-wing,"), "{err}");
        let args = ["film", "sunken-122", "--possession", "1", "--variant", "nobody"];
        assert!(outcome(&args).2.ends_with("There is as-given.\n"));
    }

    #[test]
    fn a_reader_that_goes_away_is_no_failure() {
        struct Closed;
        impl Write for Closed {
            fn write(&mut self, _: &[u8]) -> io::Result<usize> {
                Err(io::ErrorKind::BrokenPipe.into())
            }
            fn flush(&mut self) -> io::Result<()> {
                Ok(())
            }
        }
        let mut err = Vec::new();
        let mut console = Console { out: &mut Closed, err: &mut err, colour: false, width: 100 };
        assert_eq!(run(["zoneprobe", "catalog"].map(OsString::from), &mut console), Exit::Done);
        assert_eq!(err, b"");
    }

    #[test]
    fn a_fault_of_the_program_is_a_failed_run_and_said_in_words() {
        struct Broken;
        impl Write for Broken {
            fn write(&mut self, _: &[u8]) -> io::Result<usize> {
                panic!("the stream is broken")
            }
            fn flush(&mut self) -> io::Result<()> {
                Ok(())
            }
        }
        let mut err = Vec::new();
        let mut console = Console { out: &mut Broken, err: &mut err, colour: false, width: 100 };
        assert_eq!(run(["zoneprobe", "catalog"].map(OsString::from), &mut console), Exit::Failed);
        let err = String::from_utf8(err).unwrap();
        assert!(err.contains("the stream is broken") && err.contains("Please report it"), "{err}");
    }
}
