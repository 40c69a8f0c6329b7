//! The command lines that make a result, or a film, again.

use std::path::Path;

use crate::cli::{FilmOptions, RunOptions};
use crate::output::relative;

/// That of a run, without what cannot be seen in its result. The way to a file is left out if it began at the root.
pub fn run(command: &str, options: &RunOptions, possessions: u64) -> String {
    let file = options.file.as_ref().map(|file| format!(" {}", quoted(relative(&file.to_string_lossy()))));
    let rank_by = options.rank_by.as_ref().map(|column| format!(" --rank-by {column}"));
    format!(
        "zoneprobe {command}{} --possessions {possessions} --seed {}{}",
        file.unwrap_or_default(),
        options.seed,
        rank_by.unwrap_or_default()
    )
}

/// That of a film of a variant.
pub fn film(options: &FilmOptions, variant: &str) -> String {
    let file = options.file.as_deref().map(|file: &Path| format!(" {}", quoted(&file.to_string_lossy())));
    format!(
        "zoneprobe film{} --variant {} --seed {} --possession {}",
        file.unwrap_or_default(),
        quoted(variant),
        options.seed,
        options.possession
    )
}

/// A name as a shell takes it.
fn quoted(name: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "-_./".contains(c);
    if name.chars().all(plain) { name.into() } else { format!("'{}'", name.replace('\'', "'\\''")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_film_is_asked_for_as_a_shell_takes_it() {
        let mut options = FilmOptions {
            file: Some("my plays/night.toml".into()),
            variant: None,
            seed: 4,
            possession: 17,
            out: None,
            quiet: false,
        };
        let told = film(&options, "coach's, sink_back_m=0.6");
        let expected = "zoneprobe film 'my plays/night.toml' --variant 'coach'\\''s, sink_back_m=0.6' --seed 4 \
                        --possession 17";
        assert_eq!(told, expected);
        options.file = None;
        assert_eq!(film(&options, "a"), "zoneprobe film --variant a --seed 4 --possession 17");
    }
}
