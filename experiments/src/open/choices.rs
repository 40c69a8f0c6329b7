//! What can be chosen on the page, beside what the catalog has.

/// A kind of thing that is compared.
#[derive(Debug)]
pub struct Kind {
    /// Its name in the form.
    pub key: &'static str,
    /// Its kind in the catalog.
    pub catalog: &'static str,
    /// What people call several of them.
    pub many: &'static str,
    /// The key of a scenario that is varied.
    pub path: &'static str,
    /// The variant without any of them, which the others are compared with.
    pub without: Option<&'static str>,
}

/// What may be compared. The first of those ticked is the one that the others are compared with, where none stands for
/// doing without.
pub const KINDS: [Kind; 4] = [
    Kind {
        key: "route",
        catalog: "route",
        many: "routes of the rover",
        path: "attack.rover.route",
        without: None,
    },
    Kind {
        key: "posts",
        catalog: "post option",
        many: "options of the posts",
        path: "attack.posts.options",
        without: Some("no-option"),
    },
    Kind {
        key: "guards",
        catalog: "guard option",
        many: "options of the guards",
        path: "attack.guards.options",
        without: Some("no-option"),
    },
    Kind { key: "plan", catalog: "plan", many: "plans", path: "attack.plan", without: None },
];

/// Most that are compared at once.
pub const MOST: usize = 6;

/// Columns that may judge, and what the page calls them.
pub const JUDGED: [(&str, &str); 4] = [
    ("expected_net_points", "points"),
    ("good_look_rate", "good looks"),
    ("paint_touch_rate", "inside touches"),
    ("turnover_rate", "turnovers"),
];

/// Rule sets; the first is usual.
pub const RULES: [&str; 5] =
    ["us-high-school", "us-college-men", "us-college-women", "international", "us-professional"];

/// How long it is played, and what the page calls that; the first is usual.
pub const LONG: [(&str, &str); 2] =
    [("sure", "until it is sure"), ("set", "a set number of possessions of each")];

/// A difference that does not matter, in 20 possessions: least, usual, most. (a choice)
pub const MARGIN: (f64, f64, f64) = (0.0, 0.4, 10.0);

/// Possessions of each that are spent on a choice at most: fewest, usual, most. (a choice: what is played is held in memory)
pub const BUDGET: (u64, u64, u64) = (2048, 65_536, 65_536);

/// Possessions of each that are measured: fewest, usual, most.
pub const POSSESSIONS: (u64, u64, u64) = (64, 8192, 65_536);

/// The five players by role, and what people call them.
pub const ROLES: [(&str, &str); 5] = [
    ("lead-guard", "1 lead guard"),
    ("off-guard", "2 off guard"),
    ("rover", "3 rover"),
    ("rover-side-post", "4 post on the rover's side"),
    ("other-post", "5 other post"),
];

/// A column of the roster: its key, its heading, what may be typed, and the words to choose from where there are any.
pub struct PlayerColumn {
    /// Key of a player.
    pub key: &'static str,
    /// Heading.
    pub words: &'static str,
    /// An example.
    pub example: &'static str,
    /// Words to choose from; none where it is typed.
    pub among: &'static [&'static str],
}

const fn typed(key: &'static str, words: &'static str, example: &'static str) -> PlayerColumn {
    PlayerColumn { key, words, example, among: &[] }
}

const fn chosen(key: &'static str, words: &'static str, among: &'static [&'static str]) -> PlayerColumn {
    PlayerColumn { key, words, example: "", among }
}

/// What may be said of a player.
pub const PLAYER: [PlayerColumn; 11] = [
    typed("number", "number", "7"),
    typed("name", "or name", ""),
    typed("open_threes", "open threes", "38 of 95"),
    typed("rim", "at the rim", "52 of 90"),
    typed("free_throws", "free throws", "80 %"),
    typed("height_m", "height", "6'2\""),
    typed("sprint_s", "sprint, s", "3.15"),
    chosen("strength", "strength", &["weak", "average", "strong"]),
    chosen("passing", "passing", &["poor", "average", "good"]),
    chosen("handling", "handling", &["poor", "average", "good"]),
    chosen("licence", "may shoot", &["any-good", "open-only", "no-threes", "inside-only", "none"]),
];
