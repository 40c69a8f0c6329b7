//! `keys` and `schema`: what files may hold, for readers and for editors.

use crate::cli::COLUMNS;
use crate::columns;
use crate::console::Console;
use crate::error::Error;

/// Prints the key reference; of one kind of file, or the columns of a result, where that is named.
pub fn keys(kind: Option<&str>, console: &mut Console) -> Result<(), Error> {
    if kind == Some(COLUMNS) {
        return Ok(console.print_exactly(&columns::reference())?);
    }
    let reference = scenarios::key_reference_markdown();
    Ok(console.print_exactly(&kind.map_or(reference.clone(), |kind| section(&reference, kind)))?)
}

/// Prints the JSON Schema of a kind of file.
pub fn schema(kind: &str, console: &mut Console) -> Result<(), Error> {
    let unknown = || Error::Option(format!("no kind of file is called {}", scenarios::shown(kind)));
    let schema = scenarios::json_schema(kind).ok_or_else(unknown)?;
    Ok(console.print_exactly(&format!("{}\n", schema.trim_end()))?)
}

/// The part of the reference whose heading names a kind; all of it, if none does.
fn section(reference: &str, kind: &str) -> String {
    let names = |part: &&str| {
        let heading = part.lines().next().unwrap_or_default().to_lowercase();
        heading.split_whitespace().any(|word| word == kind)
    };
    let part = reference.split("\n## ").skip(1).find(names);
    part.map_or(reference.into(), |part| format!("## {}\n", part.trim_end()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_its_part_of_the_reference() {
        let reference = scenarios::key_reference_markdown();
        for kind in scenarios::FILE_KINDS {
            let part = section(&reference, kind);
            assert!(part.starts_with("## ") && part.contains("\n| "), "{kind}: {part}");
            assert!(part.len() < reference.len() && part.matches("\n## ").count() == 0, "{kind}");
        }
        assert_eq!(
            section("# Keys\n\n## Zone\n\na\n\n## Route or option\n\nb\n", "option"),
            "## Route or option\n\nb\n"
        );
    }
}
