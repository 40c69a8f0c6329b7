//! `show`: a bundled file as it is, to be copied and changed; of a file of your own, its players as they were read.

use std::path::Path;

use super::input;
use crate::console::Console;
use crate::error::Error;
use crate::players::told;
use crate::wording::guess;
use crate::wrapping::wrapped;

/// Prints the text of the bundled file of this name; of a file of one's own what was made of its players.
pub fn show(name: &str, console: &mut Console) -> Result<(), Error> {
    if name.ends_with(".toml") {
        return Ok(console.print(&players(name)?)?);
    }
    let Some(text) = scenarios::bundled_text(name) else {
        let entries = scenarios::catalog();
        let names: Vec<&str> = entries.iter().map(|entry| entry.name.as_str()).collect();
        let nearest = guess(name, &names);
        return Err(Error::Option(format!(
            "nothing bundled is called {}{nearest}; `zoneprobe catalog` lists all names",
            scenarios::shown(name)
        )));
    };
    Ok(console.print_exactly(text)?)
}

/// The players of a scenario or a question, variant by variant where they differ.
fn players(name: &str) -> Result<String, Error> {
    let experiment = input::experiment(Some(Path::new(name)))?;
    let mut text = format!("{}: the players as they were read\n", scenarios::shown(name));
    let mut before: Option<Vec<String>> = None;
    let alone = experiment.variants.len() == 1;
    for variant in &experiment.variants {
        let told = told(&variant.setup);
        if before.as_ref() == Some(&told) {
            continue;
        }
        if !alone {
            text.push_str(&format!("\n{} and those after it:\n", scenarios::shown(&variant.name)));
        }
        if told.is_empty() {
            text.push_str("Nothing is said of single players: all are as their level has them.\n");
        }
        told.iter().for_each(|said| text.push_str(&format!("- {}\n", wrapped(said, 100))));
        before = Some(told);
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shown_file_is_the_bundled_one_and_an_unknown_name_is_answered_with_the_nearest() {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut console = Console { out: &mut out, err: &mut err, colour: false, width: 100 };
        show("1-2-2", &mut console).expect("a bundled zone");
        let error = show("1-2-3", &mut console).expect_err("no such zone").to_string();
        assert!(error.contains("did you mean 1-2-2?"), "{error}");
        let shown = String::from_utf8(out).expect("text");
        assert!(shown.contains("[rows.corner]") && shown.contains("on_ball"), "{shown}");
    }
}
