//! `film`: one possession again, told move for move, with a page that plays it where a folder is named.

use std::thread;

use engine::film::Film;
use scenarios::{Experiment, Variant, shown};

use super::beside::units;
use super::handed::say_where;
use super::varied::noun;
use super::{again, input};
use crate::cli::{FilmOptions, Form};
use crate::console::Console;
use crate::crash::{WORKER, caught};
use crate::error::Error;
use crate::film::{Caption, Clip, Side, narrate, narrate_beside, page, page_beside, storyboard};
use crate::output::Reservation;
use crate::players;
use crate::units::Units;
use crate::wording::{guess, listed};
use crate::wrapping::wrapped;

/// Name of the page.
const PAGE: &str = "film.html";

/// Plays one possession of one variant again, and of another beside it where one is asked for, and tells it.
pub fn film(options: &FilmOptions, console: &mut Console) -> Result<(), Error> {
    let experiment = input::experiment(options.file.as_deref())?;
    let variant = chosen(&experiment, options.variant.as_deref())?;
    let other = options.beside.as_deref().map(|name| other(&experiment, variant, name)).transpose()?;
    if other.is_some() && options.form == Form::Storyboard {
        let problem = "a storyboard tells one film; leave out --beside, or use --as page, gif or frames";
        return Err(Error::Option(problem.into()));
    }
    let place = options.out.as_deref().map(Reservation::named).transpose()?;
    let film = filmed(variant, options)?;
    let caption = caption(&experiment, &variant.name, options);
    let (names, told, mut files) = match other {
        None => {
            let side = side(variant, &film, options);
            let files = if place.is_some() { files(&[side], &caption, options.form) } else { vec![] };
            (variant.name.clone(), narrate(&film, &side.words()), files)
        }
        Some(other) => {
            let beside = filmed(other, options)?;
            let sides = [side(variant, &film, options), side(other, &beside, options)];
            let names = format!("{} beside {}", variant.name, other.name);
            let files = if place.is_some() { files(&sides, &caption, options.form) } else { vec![] };
            (names, narrate_beside(&sides), files)
        }
    };
    let units = Units::of(options.units, &variant.setup.court);
    let (question, noun) = (wrapped(&units.retold(&experiment.question), 100), noun(&experiment));
    let FilmOptions { seed, possession, .. } = options;
    let players: String =
        players::told(&variant.setup).iter().map(|said| wrapped(said, 100) + "\n").collect();
    let text = format!("{question}\n{noun} {names}, seed {seed}, possession {possession}\n{players}\n{told}");
    files.push(("trace.txt".into(), text.clone().into_bytes()));
    let written = place.map(|place| place.write(&files));
    let printed = console.print(&text);
    if let Some(written) = written.transpose()? {
        say_where(&written, options.quiet, console);
    }
    Ok(printed?)
}

/// The page of a film that is asked for, and the fingerprint of what was filmed.
pub(super) fn page_of(experiment: &Experiment, options: &FilmOptions) -> Result<(String, String), Error> {
    let variant = chosen(experiment, options.variant.as_deref())?;
    let film = filmed(variant, options)?;
    let page = page(&side(variant, &film, options), &caption(experiment, &variant.name, options));
    Ok((page, format!("{:016x}", film.record.digest)))
}

/// What a film, or two beside one another, is written as, file by file.
fn files(sides: &[Side<'_>], caption: &Caption, form: Form) -> Vec<(String, Vec<u8>)> {
    let title = format!("{}, possession {}", caption.name, sides[0].film.record.possession);
    match (form, sides) {
        (Form::Page, [one, other]) => vec![(PAGE.into(), page_beside(&[*one, *other], caption).into_bytes())],
        (Form::Page, _) => vec![(PAGE.into(), page(&sides[0], caption).into_bytes())],
        (Form::Gif, _) => vec![("film.gif".into(), Clip::new(sides, &title).gif())],
        (Form::Frames, _) => {
            let frames = Clip::new(sides, &title).frames().into_iter().enumerate();
            frames.map(|(nth, png)| (format!("frames/{:04}.png", nth + 1), png)).collect()
        }
        (Form::Storyboard, _) => vec![("storyboard.svg".into(), storyboard(&sides[0], &title).into_bytes())],
    }
}

fn side<'a>(variant: &'a Variant, film: &'a Film, options: &FilmOptions) -> Side<'a> {
    let units = Units::of(options.units, &variant.setup.court);
    Side { name: &variant.name, film, setup: &variant.setup, units }
}

fn filmed(variant: &Variant, options: &FilmOptions) -> Result<Film, Error> {
    played(|| engine::film_possession(&variant.setup, options.seed, options.possession))
        .map_err(|message| broken(&message, options, &variant.name))
}

/// What the page of a film says besides the film.
pub(super) fn caption(experiment: &Experiment, variant: &str, options: &FilmOptions) -> Caption {
    let is_scenario = experiment.baseline == "as-given";
    let question = units(experiment, options.units).retold(&experiment.question).into_owned();
    let beside = options.beside.as_ref().map(|other| format!(" beside {other}")).unwrap_or_default();
    Caption {
        name: if is_scenario { question.clone() } else { format!("{}, {variant}{beside}", experiment.key) },
        question: if is_scenario { String::new() } else { question },
        seed: options.seed,
        command: again::film(options, variant) + " --out film" + &again::with(experiment),
    }
}

/// Plays on a thread whose panics are kept from the screen; a panic comes back as its message.
fn played<T: Send>(play: impl FnOnce() -> T + Send) -> Result<T, String> {
    thread::scope(|scope| {
        let worker = thread::Builder::new().name(WORKER.into()).spawn_scoped(scope, || caught(play));
        let worker = worker.map_err(|error| format!("no thread could be started ({error})"))?;
        worker.join().unwrap_or_else(|_| Err("a panic".into()))
    })
}

/// What is said of a possession that could not be played.
fn broken(message: &str, options: &FilmOptions, variant: &str) -> Error {
    Error::Crashes(format!(
        "possession {} of variant {variant} with seed {} cannot be shown: it broke down with \"{message}\". That \
         is a fault of zoneprobe {}, not of your files. Please report it to its developers, with your files, \
         this message and the command:\n  {}",
        options.possession,
        options.seed,
        env!("CARGO_PKG_VERSION"),
        again::film(options, variant)
    ))
}

/// The variant asked for; without a word the baseline.
fn chosen<'a>(experiment: &'a Experiment, asked: Option<&str>) -> Result<&'a Variant, Error> {
    let name = asked.unwrap_or(&experiment.baseline);
    experiment.variants.iter().find(|variant| variant.name == name).ok_or_else(|| {
        let names: Vec<&str> = experiment.variants.iter().map(|variant| variant.name.as_str()).collect();
        let there = if names.len() == 1 { "There is" } else { "There are" };
        let guess = guess(name, &names);
        let end = if guess.is_empty() { "." } else { "" };
        Error::Option(format!("no variant is called {}{guess}{end} {there} {}.", shown(name), listed(&names)))
    })
}

/// The variant that is to stand beside one.
fn other<'a>(experiment: &'a Experiment, variant: &Variant, name: &str) -> Result<&'a Variant, Error> {
    let other = chosen(experiment, Some(name))?;
    if other.name == variant.name {
        let name = shown(name);
        let problem = format!("{name} cannot stand beside itself; --variant and --beside have to differ");
        return Err(Error::Option(problem));
    }
    Ok(other)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::Exit;

    #[test]
    fn a_possession_that_breaks_down_is_named_and_nothing_else_is_printed() {
        assert_eq!(played(|| 7), Ok(7));
        let message = played(|| -> u8 { panic!("the ball is gone") }).unwrap_err();
        // The place in the code is known to the hook alone, so it was the hook that heard it, not the screen.
        assert!(message.starts_with("the ball is gone (") && message.contains("film.rs:"), "{message}");
        let options = FilmOptions {
            file: Some("night.toml".into()),
            variant: None,
            beside: None,
            seed: 4,
            possession: 17,
            units: None,
            form: Form::Page,
            out: None,
            quiet: false,
        };
        let error = broken(&message, &options, "as-given");
        assert_eq!(error.exit(), Exit::Failed);
        let told = error.told(false);
        for part in [
            "possession 17 of variant as-given with seed 4",
            "fault of zoneprobe",
            "report it",
            "zoneprobe film night.toml --variant as-given --seed 4 --possession 17\n",
        ] {
            assert!(told.contains(part), "{told}");
        }
    }
}
