//! The bundled files load, the zone's numbers are right, and broken files say what is wrong with them.

mod agreement;
pub(crate) mod declared;
mod designs;
mod inputs;
mod kinds;
mod levels;
mod messages;
mod opponents;
mod plans;
mod players;
mod reference;
mod setups;
mod texts;
mod units;
mod values;

use std::path::{Path, PathBuf};

use crate::Faults;

/// A folder of files that goes away with the test.
struct Folder(tempfile::TempDir);

impl Folder {
    /// A folder with these files.
    fn with(files: &[(&str, &str)]) -> Folder {
        let folder = tempfile::tempdir().expect("a temporary folder");
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).expect("a written file");
        }
        Folder(folder)
    }

    /// The path of a file in it.
    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// A message without the folder's own path.
    fn shown(&self, message: &str) -> String {
        message.replace(&format!("{}/", self.0.path().display()), "")
    }
}

/// The kind of a file, or what is wrong with it.
fn check(file: &Path) -> Result<&'static str, Faults> {
    let found = crate::check(&[file.to_owned()]).pop().expect("one file, one answer");
    found.map(|checked| checked.kind)
}

/// The smallest scenario, with room for more tables.
const SMALL: &str = r#"name = "small"
rules = "us-high-school"
level = { attack = "high-school", defence = "high-school" }
"#;

/// The smallest scenario with a `[zone]` and an `[attack]` table and these lines at its end.
fn small(rest: &str) -> String {
    format!("{SMALL}zone = {{ use = \"1-2-2\" }}\nattack = {{ use = \"rover\" }}\n{rest}")
}
