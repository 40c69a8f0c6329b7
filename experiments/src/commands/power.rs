//! `power`: how many possessions a question needs, from a pilot, or two shares by formula.

use scenarios::{Experiment, shown_lines};
use serde_json::json;

use super::again;
use super::compare::{plan, player, possessions, progress, question};
use super::input;
use super::result::{Asked, broken};
use crate::cli::{Format, PowerOptions, RunOptions};
use crate::columns::{CONFIDENCE, ratios};
use crate::console::Console;
use crate::error::Error;
use crate::needed::{Wanted, needs};
use crate::output::{Pilot, document, needed_csv, needed_json, needed_text};
use crate::run::run;
use crate::stats::normal::two_sided_z;
use crate::stats::possessions_for_two_shares;
use crate::wording::{grouped, in_percent};
use crate::wrapping::wrapped;

/// Width of running text, at most.
const WIDTH: usize = 100;

/// Says how many possessions it takes.
pub fn power(options: &PowerOptions, console: &mut Console) -> Result<(), Error> {
    match options.shares {
        Some(shares) => two_shares(shares, options, console),
        None => piloted(options, console),
    }
}

/// Plays a pilot and says what the question needs.
fn piloted(options: &PowerOptions, console: &mut Console) -> Result<(), Error> {
    let PowerOptions { run: of_run, power, difference, .. } = options;
    let experiment = input::experiment(of_run.file.as_deref())?;
    if experiment.variants.len() < 2 {
        return Err(Error::Option(
            "it has one variant, so there is nothing to compare; name an experiment, or two rates with --shares".into(),
        ));
    }
    let question = question(&experiment, of_run)?;
    let asked = Asked::new("power", &experiment, of_run);
    let ratios = ratios();
    let plan = plan(&asked, &ratios);
    let heard = progress(&plan, of_run.quiet);
    let played = run(&plan, &player(&asked), &heard)?;
    drop(heard);
    let wanted = Wanted { power: *power, difference: *difference };
    let needs = needs(&question, &played.totals, wanted).ok_or_else(|| {
        Error::Option(format!(
            "the pilot of {} possessions has nothing for {} in one of the variants; play more with --possessions, or \
             name another column with --rank-by",
            grouped(possessions(&experiment, of_run)),
            question.rank_by.key
        ))
    })?;
    let possessions = played.totals.possessions();
    let pilot = Pilot { question: &question, possessions, seed: of_run.seed, wanted };
    let shown = match of_run.format {
        Format::Table => shown_lines(&needed_text(pilot, &needs, console.width.min(WIDTH))).into_owned(),
        Format::Csv => String::from_utf8(needed_csv(pilot, &needs)).expect("written from text"),
        Format::Json => document(&needed_json(pilot, &needs, &command(of_run, &experiment, wanted))),
    };
    console.print_exactly(&shown)?;
    broken(&asked.crashes(&played), of_run)
}

/// The command that plays the pilot again.
fn command(options: &RunOptions, experiment: &Experiment, wanted: Wanted) -> String {
    let Wanted { power, difference } = wanted;
    let difference = difference.map_or_else(String::new, |difference| format!(" --difference {difference}"));
    let rank_by = options.rank_by.as_ref().map_or_else(String::new, |column| format!(" --rank-by {column}"));
    format!(
        "zoneprobe power{} --possessions {} --seed {}{rank_by} --power {power}{difference}{}",
        again::file(options),
        possessions(experiment, options),
        options.seed,
        again::with(experiment)
    )
}

/// Two shares by the usual formula; nothing is played.
fn two_shares((a, b): (f64, f64), options: &PowerOptions, console: &mut Console) -> Result<(), Error> {
    let power = options.power;
    let needed = possessions_for_two_shares(a, b, two_sided_z(CONFIDENCE), power).ok_or_else(|| {
        Error::Option(format!("--shares {a} {b}: no number of possessions tells equal shares"))
    })?;
    let shown = match options.run.format {
        Format::Table => {
            let text = format!(
                "{} possessions of each tell {a} from {b} with a chance of {} % (two-sided, 95 %), if each has draws of \
                 its own. Variants of one run are paired and need fewer: leave out --shares for a pilot.",
                grouped(needed.ceil() as u64),
                in_percent(power)
            );
            wrapped(&text, console.width.min(WIDTH)) + "\n"
        }
        Format::Csv => {
            format!("share,other_share,power,possessions_needed_apart\n{a},{b},{power},{needed:.6}\n")
        }
        Format::Json => document(&json!({
            "command": format!("zoneprobe power --shares {a} {b} --power {power}"),
            "shares": [a, b],
            "power": power,
            "possessions_needed_apart": needed,
        })),
    };
    Ok(console.print_exactly(&shown)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::Exit;

    fn outcome(line: &str) -> (Exit, String, String) {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let args = line.split(' ').map(std::ffi::OsString::from);
        let mut console = Console { out: &mut out, err: &mut err, colour: false, width: 80 };
        let exit = crate::app::run(args, &mut console);
        (exit, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    }

    #[test]
    fn two_shares_need_what_the_usual_formula_says() {
        let (exit, out, err) = outcome("zoneprobe power --shares 0.50 0.55");
        assert_eq!((exit, err.as_str()), (Exit::Done, ""));
        assert!(out.starts_with("1,565 possessions of each tell 0.5 from 0.55"), "{out}");
        let (_, out, _) = outcome("zoneprobe power --shares 0.50 0.55 --format csv");
        assert!(out.contains("\n0.5,0.55,0.8,1564.67"), "{out}");
        let (exit, _, err) = outcome("zoneprobe power --shares 0.5 0.5");
        assert!(exit == Exit::Unusable && err.contains("equal shares"), "{err}");
        let (exit, _, err) = outcome("zoneprobe power --shares 50 55");
        assert!(exit == Exit::Unusable && err.contains("allowed is a number from 0 to 1"), "{err}");
    }

    #[test]
    fn a_pilot_says_the_same_whatever_the_threads() {
        let of = |threads, format| {
            let line = "zoneprobe power guard-options --possessions 64 --quiet";
            outcome(&format!("{line} --threads {threads} --format {format}"))
        };
        for format in ["table", "csv", "json"] {
            let (exit, out, err) = of(1, format);
            assert_eq!((exit, err.as_str()), (Exit::Done, ""));
            assert_eq!(out, of(3, format).1);
            assert!(
                format == "csv" || out.lines().all(|line| line.chars().count() <= 80 || format == "json"),
                "{out}"
            );
        }
        let (_, out, _) = of(1, "json");
        let page: serde_json::Value = serde_json::from_str(&out).unwrap();
        assert!(
            page["command"]
                .as_str()
                .unwrap()
                .starts_with("zoneprobe power guard-options --possessions 64 --seed 1")
        );
    }

    #[test]
    fn one_matchup_and_a_pilot_without_data_are_answered_with_what_to_do() {
        let (exit, _, err) = outcome("zoneprobe power sunken-122");
        assert!(exit == Exit::Unusable && err.contains("--shares"), "{err}");
        let (exit, _, err) = outcome("zoneprobe power guard-options --possessions 1 --quiet");
        assert!(exit == Exit::Unusable && err.contains("play more with --possessions"), "{err}");
    }
}
