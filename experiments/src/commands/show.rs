//! `show`: a bundled file as it is, to be copied and changed.

use crate::console::Console;
use crate::error::Error;
use crate::wording::guess;

/// Prints the text of the bundled file of this name.
pub fn show(name: &str, console: &mut Console) -> Result<(), Error> {
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
