//! The command lines that make a result, or a film, again.

use scenarios::Experiment;

use crate::cli::{FilmOptions, RunOptions};
use crate::kept::inputs::inputs;
use crate::shell;
use crate::stats::UntilSure;
use crate::units::Units;
use crate::wording::listed;

/// That of a run, without what cannot be seen in its result.
pub fn run(command: &str, options: &RunOptions, experiment: &Experiment, possessions: u64) -> String {
    let file = file(options);
    let rank_by = options.rank_by.as_ref().map(|column| format!(" --rank-by {column}"));
    let bootstrap = options.bootstrap.as_ref().map(|column| format!(" --bootstrap {column}"));
    let divided = if options.divide_records { " --divide-records" } else { "" };
    let records = options.records.map(|records| format!(" --records {records}{divided}"));
    format!(
        "zoneprobe {command}{file} --possessions {possessions}{} --seed {}{}{}{}{}{}",
        until_sure(options),
        options.seed,
        rank_by.unwrap_or_default(),
        bootstrap.unwrap_or_default(),
        records.unwrap_or_default(),
        units(options.units),
        with(experiment)
    )
}

/// The options of a run until sure, with a blank before them, where it is one.
fn until_sure(options: &RunOptions) -> String {
    let stopped = options.stop_at.map(|look| format!(" --stop-at {look}")).unwrap_or_default();
    let told =
        |until: UntilSure| format!(" --until-sure {} --budget {}{stopped}", until.margin, until.budget);
    options.until_sure.map_or_else(String::new, told)
}

/// The option of what lengths are told in, with a blank before it, where it was asked for.
fn units(asked: Option<Units>) -> String {
    asked.map_or_else(String::new, |units| format!(" --units {}", units.key()))
}

/// The file as a command names it, with a blank before it; empty for the bundled question.
pub fn file(options: &RunOptions) -> String {
    options.file.as_deref().map_or_else(String::new, shell::file)
}

/// What a command needs besides itself, as a shell's remark after it: nothing, or a text that came through a pipe, which
/// is gone.
pub fn with(experiment: &Experiment) -> String {
    let piped = inputs(experiment).into_iter().filter(|(_, source)| source.streamed);
    let names: Vec<String> = piped.map(|(input, _)| input.name).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    if names.is_empty() {
        return String::new();
    }
    format!("  # with the same text piped in as {}", listed(&names))
}

/// That of a film of a variant.
pub fn film(options: &FilmOptions, variant: &str) -> String {
    let file = options.file.as_deref().map(shell::file);
    let beside = options.beside.as_deref().map(|name| shell::option("--beside", name));
    format!(
        "zoneprobe film{}{}{} --seed {} --possession {}{}",
        file.unwrap_or_default(),
        shell::option("--variant", variant),
        beside.unwrap_or_default(),
        options.seed,
        options.possession,
        units(options.units)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::Form;

    #[test]
    fn a_film_is_asked_for_as_a_shell_takes_it() {
        let mut options = FilmOptions {
            file: Some("my plays/night.toml".into()),
            variant: None,
            beside: None,
            seed: 4,
            possession: 17,
            units: None,
            form: Form::Page,
            out: None,
            quiet: false,
        };
        let told = film(&options, "coach's, sink_back_m=0.6");
        let expected = "zoneprobe film 'my plays/night.toml' --variant 'coach'\\''s, sink_back_m=0.6' --seed 4 \
                        --possession 17";
        assert_eq!(told, expected);
        options.units = Some(Units::Ft);
        assert_eq!(
            film(&options, "a"),
            "zoneprobe film 'my plays/night.toml' --variant a --seed 4 --possession 17 --units ft"
        );
        options.units = None;
        options.file = None;
        assert_eq!(film(&options, "a"), "zoneprobe film --variant a --seed 4 --possession 17");
        options.beside = Some("b c".into());
        assert_eq!(film(&options, "a"), "zoneprobe film --variant a --beside 'b c' --seed 4 --possession 17");
    }
}
