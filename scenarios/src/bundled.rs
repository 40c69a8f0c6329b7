//! The bundled data files, embedded in the binary.

/// The experiment that is played when none is named.
pub(crate) const QUESTION: &str = "routes-against-sink";

macro_rules! files {
    ($($folder:literal: $($name:literal)*;)*) => {
        &[$($(($folder, $name, include_str!(concat!("../data/", $folder, "/", $name, ".toml"))),)*)*]
    };
}

/// Folder, name and text of each file, in the catalog's order within a folder.
pub(crate) const FILES: &[(&str, &str, &str)] = files! {
    "zones": "1-2-2" "3-2" "2-3" "2-1-2" "1-3-1" "man-to-man";
    "attacks": "rover" "one-three-one" "four-out" "overload-runner" "gap-drives" "point-screen" "pass-only";
    "routes": "hold-wing" "seam-cross" "seam-sit" "seam-loop" "split-drop" "corner-drop" "corner-lift"
        "baseline-run" "baseline-loop" "under-flash" "over-flash" "lift-high" "free-run";
    "options/posts": "seal-helper" "far-flash" "run-under" "pop-out" "park-low" "back-line-screen" "duck-in" "dive";
    "options/guards": "quick-reversal" "fake-twice" "look-off" "seam-cut" "dribble-at-curl" "arc-relocate" "drive-and-kick";
    "plans": "inside-first" "ball-movement" "drive-first" "free";
    "levels": "youth" "high-school" "high-school-girls" "college" "college-women" "pro" "pro-women";
    "worth": "youth-worth" "youth-untaught-worth" "high-school-worth" "high-school-untaught-worth" "high-school-girls-worth" "high-school-girls-untaught-worth" "college-worth" "college-untaught-worth" "college-women-worth" "college-women-untaught-worth" "pro-worth" "pro-untaught-worth" "pro-women-worth" "pro-women-untaught-worth";
    "rules": "us-high-school" "us-college-men" "us-college-women" "international" "us-professional";
    "scenarios": "sunken-122" "plain-122" "sunken-32" "plain-32";
    "experiments": "routes-against-sink" "every-route" "routes-by-sink-and-help" "routes-by-zone" "post-options" "post-options-wing-drops"
        "post-options-point-drops"
        "guard-options" "attacks-by-zone" "zone-dials" "mixture" "mixture-untaught";
};

/// The text of a bundled file.
pub(crate) fn find(folder: &str, name: &str) -> Option<&'static str> {
    FILES.iter().find(|(f, n, _)| *f == folder && *n == name).map(|(_, _, text)| *text)
}

/// The names in a folder.
pub(crate) fn names(folder: &str) -> Vec<&'static str> {
    FILES.iter().filter(|(f, _, _)| *f == folder).map(|(_, name, _)| *name).collect()
}

/// The names of all bundled files.
pub(crate) fn all_names() -> Vec<&'static str> {
    FILES.iter().map(|(_, name, _)| *name).collect()
}
