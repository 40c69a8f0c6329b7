//! Command lines as a shell takes them.

use std::path::Path;

use crate::output::relative;

/// A word that stays one word and means itself.
pub fn quoted(word: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "-_./".contains(c);
    if !word.is_empty() && word.chars().all(plain) {
        word.into()
    } else {
        format!("'{}'", word.replace('\'', "'\\''"))
    }
}

/// An option with its value and a blank before it; a value that begins with a dash is no option of its own.
pub fn option(name: &str, value: &str) -> String {
    let between = if value.starts_with('-') { '=' } else { ' ' };
    format!(" {name}{between}{}", quoted(value))
}

/// A file that was named on the command line, with a blank before it, as it is named where it lies: a way from the
/// root would say more of a machine than of the input, so there the command is for the file's own folder. What another
/// process handed over comes as standard input the next time.
pub fn file(file: &Path) -> String {
    if scenarios::is_stream(file) {
        return " /dev/stdin".into();
    }
    let text = file.to_string_lossy();
    let own = relative(&text);
    // Without a way before it, it might be taken for an option or for something bundled.
    let here = if own.starts_with('-') || file.has_root() { "./" } else { "" };
    format!(" {}", quoted(&format!("{here}{own}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_words() {
        for (word, expected) in [
            ("a-b_c.toml", "a-b_c.toml"),
            ("", "''"),
            ("two words", "'two words'"),
            ("coach's", "'coach'\\''s'"),
            ("$HOME", "'$HOME'"),
        ] {
            assert_eq!(quoted(word), expected);
        }
        assert_eq!(option("--variant", "-2+3"), " --variant='-2+3'");
        assert_eq!(option("--variant", "seal"), " --variant seal");
    }

    #[test]
    fn a_file_is_named_where_it_lies() {
        for (name, expected) in [
            ("plays/night.toml", " plays/night.toml"),
            ("sunken-122", " sunken-122"),
            ("/home/coach/my plays/night.toml", " ./night.toml"),
            ("/home/coach/-night.toml", " ./-night.toml"),
            ("-night.toml", " ./-night.toml"),
            ("our night.toml", " 'our night.toml'"),
            ("/dev/fd/63", " /dev/stdin"),
        ] {
            assert_eq!(file(Path::new(name)), expected);
        }
    }
}
