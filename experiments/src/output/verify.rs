//! Whether a folder still is what was written: the files against the fingerprints in the manifest.

use std::collections::BTreeSet;
use std::path::{Component, Path};
use std::{fs, io};

use scenarios::path_text;

use super::Fingerprint;

/// Folder that `sheet` makes inside of a result; it is no part of it.
pub const SHEET: &str = "sheet";

/// What is not as it was written, each by name, in order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    /// Files of the manifest that are not there.
    pub missing: Vec<String>,
    /// Files that have other bytes.
    pub changed: Vec<String>,
    /// Files that the manifest does not name.
    pub extra: Vec<String>,
}

impl Findings {
    /// Holds a folder against the fingerprints; `own` is the file that has them and is not held against any.
    ///
    /// # Errors
    /// A file or folder cannot be read.
    pub fn of(folder: &Path, outputs: &[Fingerprint], own: &str) -> io::Result<Self> {
        let mut findings = Self::default();
        for output in outputs {
            let path = folder.join(&output.name);
            // A name that leads out of the folder is none of its files.
            let inside =
                Path::new(&output.name).components().all(|part| matches!(part, Component::Normal(_)));
            match fs::metadata(&path) {
                Ok(found) if inside && found.is_file() => {
                    if Fingerprint::of_file(&output.name, &path)? != *output {
                        findings.changed.push(output.name.clone());
                    }
                }
                _ => findings.missing.push(output.name.clone()),
            }
        }
        let named: BTreeSet<&str> = outputs.iter().map(|output| output.name.as_str()).chain([own]).collect();
        gather(folder, "", &mut |name| {
            if !named.contains(name.as_str()) {
                findings.extra.push(name);
            }
        })?;
        findings.extra.sort();
        Ok(findings)
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Hands over all that is no folder, named from the top with `/`.
fn gather(folder: &Path, before: &str, each: &mut impl FnMut(String)) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = format!("{before}{}", path_text(Path::new(&entry.file_name())));
        // A link is not followed: it may lead anywhere.
        if !entry.file_type()?.is_dir() {
            each(name);
        } else if name != SHEET {
            gather(&entry.path(), &format!("{name}/"), each)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_changed_or_extra_is_named() {
        let home = tempfile::tempdir().unwrap();
        let write = |name: &str, text: &str| fs::write(home.path().join(name), text).unwrap();
        for folder in ["pictures", "sheet"] {
            fs::create_dir(home.path().join(folder)).unwrap();
        }
        let names = ["a.csv", "b.csv", "pictures/c.svg"];
        names.iter().for_each(|name| write(name, name));
        write("manifest.json", "{}");
        write("sheet/sheet.pdf", "made later");
        let mut outputs: Vec<Fingerprint> =
            names.iter().map(|name| Fingerprint::of(name, name.as_bytes())).collect();
        let findings = |outputs: &[Fingerprint]| Findings::of(home.path(), outputs, "manifest.json").unwrap();
        assert!(findings(&outputs).is_empty());
        write("a.csv", "A.csv");
        write("pictures/d.svg", "");
        fs::remove_file(home.path().join("b.csv")).unwrap();
        let found = findings(&outputs);
        assert_eq!((found.missing, found.changed), (vec!["b.csv".into()], vec!["a.csv".into()]));
        assert_eq!(found.extra, ["pictures/d.svg"]);
        outputs.push(Fingerprint::of("../outside", b""));
        assert_eq!(findings(&outputs).missing, ["b.csv", "../outside"]);
    }
}
