//! A player's shooting, stated as a share or as made and attempted, as differences from the curves of his level.
//!
//! A share holds under conditions: so far out, with so much space, off the catch or off the dribble. The law of the shot is
//! turned round at the mix of conditions under which players in his position take such shots ([`super::taken`]): the difference
//! is the one with which the law gives that share back, in every scenario the same, so that an easier shot shows as one. Few attempts say little: the level's share is added to what was counted as so many attempts more
//! (`prior_attempts`), which is the mean of a beta distribution after the count. A share without a count is taken as it is.

use engine::law::shot::make_chance;
use engine::math::vec2;
use engine::setup::{Court, Known, SHOT_CLASSES, Shooter, ShotClass, Skill};

use super::taken::{By, mean, taken};
use super::{Ground, clash};
use crate::declared::{Field, Kind, Need};
use crate::read::Reader;
use crate::tree::Entry;

/// A kind of shot of which a share may be stated.
struct Shots {
    /// Keys: the share, made, attempted.
    keys: [&'static str; 3],
    /// In words.
    words: &'static str,
    /// Its class; `None` for free throws.
    class: Option<ShotClass>,
}

const SHOTS: [Shots; 6] = [
    shots(["rim", "rim_made", "rim_attempted"], "shots at the rim", Some(ShotClass::Rim)),
    shots(["short", "short_made", "short_attempted"], "short twos", Some(ShotClass::Short)),
    shots(["mid_range", "mid_range_made", "mid_range_attempted"], "longer twos", Some(ShotClass::Mid)),
    shots(["threes", "threes_made", "threes_attempted"], "threes", Some(ShotClass::Three)),
    shots(
        ["open_threes", "open_threes_made", "open_threes_attempted"],
        "open threes",
        Some(ShotClass::Three),
    ),
    shots(["free_throws", "free_throws_made", "free_throws_attempted"], "free throws", None),
];

const fn shots(keys: [&'static str; 3], words: &'static str, class: Option<ShotClass>) -> Shots {
    Shots { keys, words, class }
}

/// The kinds of shots of which a roster may have counts: key, and words.
pub const ROSTER_SHOTS: [(&str, &str); SHOTS.len()] = {
    let mut all = [("", ""); SHOTS.len()];
    let mut at = 0;
    while at < SHOTS.len() {
        all[at] = (SHOTS[at].keys[0], SHOTS[at].words);
        at += 1;
    }
    all
};

/// Smallest and largest share that may be stated: of one who makes none, or all, no law can be turned round.
const STATED: (f64, f64) = (0.01, 0.99);
/// Most attempts that are counted. (a choice)
const ATTEMPTS_MOST: f64 = 100_000.0;
/// Attempts at the level's share that are added to a count. (assumed: about as many as the levels' spread of shooting between
/// team-mates, 0.4 logit, comes to at a share of a third: 1 / (p (1 - p) 0.4²) - 1 = 27)
const PRIOR_ATTEMPTS: f32 = 30.0;

const fn share(name: &'static str, doc: &'static str) -> Field {
    Field::number(name, "", STATED, doc)
}

const fn count(name: &'static str, beside: &'static str, doc: &'static str) -> Field {
    Field::number(name, "", (0.0, ATTEMPTS_MOST), doc).as_kind(Kind::Whole).with(beside)
}

/// The keys of a player's shooting.
pub(super) const FIELDS: [Field; 18] = [
    share("rim", "Share that he makes of shots from inside 1.22 m (4 ft)."),
    count("rim_made", "rim_attempted", "Of these so many made."),
    count("rim_attempted", "rim_made", "So many attempted from inside 1.22 m (4 ft)."),
    share("short", "Share that he makes of twos from 1.22 to 3.05 m (10 ft)."),
    count("short_made", "short_attempted", "Of these so many made."),
    count("short_attempted", "short_made", "So many twos attempted from 1.22 to 3.05 m (10 ft)."),
    share("mid_range", "Share that he makes of twos from beyond 3.05 m (10 ft)."),
    count("mid_range_made", "mid_range_attempted", "Of these so many made."),
    count("mid_range_attempted", "mid_range_made", "So many twos attempted from beyond 3.05 m (10 ft)."),
    share("threes", "Share that he makes of all his threes, guarded and open."),
    count("threes_made", "threes_attempted", "Of these so many made."),
    count("threes_attempted", "threes_made", "So many threes attempted, guarded and open."),
    share("open_threes", "Share that he makes of threes with nobody within 1.83 m (6 ft)."),
    count("open_threes_made", "open_threes_attempted", "Of these so many made."),
    count(
        "open_threes_attempted",
        "open_threes_made",
        "So many threes attempted with nobody within 1.83 m (6 ft).",
    ),
    share("free_throws", "Share that he makes of free throws."),
    count("free_throws_made", "free_throws_attempted", "Of these so many made."),
    count("free_throws_attempted", "free_throws_made", "So many free throws attempted."),
];

/// How strongly counts are drawn toward the level, a key of the scenario.
pub(crate) const PRIOR: Field = Field::number(
    "prior_attempts",
    "attempts",
    (0.0, 1000.0),
    "Attempts at the level's share that are added to what was counted of a player: few attempts say little.",
)
.or(Need::Number(PRIOR_ATTEMPTS));

/// The kind of shot that a key speaks of.
pub(super) fn shots_of(key: &str) -> Option<&'static str> {
    SHOTS.iter().find(|shots| shots.keys.contains(&key)).map(|shots| shots.keys[0])
}

/// A share that a player states, before the level has its say.
#[derive(Clone, Copy)]
pub(super) struct Share {
    /// Place in [`SHOTS`].
    shots: usize,
    counted: Option<(u32, u32)>,
    share: f32,
}

/// Reads what a player states of his shooting.
pub(super) fn shares(reader: &Reader<'_>) -> Vec<Share> {
    let found: Vec<Share> = (0..SHOTS.len()).filter_map(|shots| one(reader, shots)).collect();
    // Threes and open threes set the same.
    let three = |share: &&Share| matches!(SHOTS[share.shots].class, Some(ShotClass::Three));
    if found.iter().filter(three).count() > 1
        && let Some(entry) = standing(reader, "open_threes")
    {
        clash(reader, &entry.node, &entry.key, "threes and open_threes");
    }
    if let Some(entry) = super::nested(reader, "skill", "free_throw")
        && found.iter().any(|share| SHOTS[share.shots].class.is_none())
    {
        clash(reader, &entry.node, "skill.free_throw", "free_throws and skill.free_throw");
    }
    found
}

/// The first entry that speaks of a kind of shot.
fn standing<'d>(reader: &Reader<'d>, shots: &str) -> Option<&'d Entry> {
    reader.node().entries().iter().find(|entry| shots_of(&entry.key) == Some(shots))
}

fn one(reader: &Reader<'_>, shots: usize) -> Option<Share> {
    let [share, made, attempted] = SHOTS[shots].keys;
    let stated = reader.maybe_number(share);
    let of = (reader.maybe_whole(made), reader.maybe_whole(attempted));
    for (key, other) in [(made, attempted), (attempted, made)] {
        if reader.has(key) && !reader.has(other) {
            reader.missing(other, format!("a whole number, beside {key}"));
        }
    }
    if let (Some(_), Some(entry)) = (stated, reader.node().get(made)) {
        clash(reader, &entry.node, made, &format!("{share}, or {made} and {attempted}"));
    }
    match (stated, of) {
        (Some(share), _) => Some(Share { shots, counted: None, share }),
        (None, (Some(made_of), Some(of))) if made_of <= of => {
            let counted = Some((made_of as u32, of as u32));
            (of > 0).then(|| Share { shots, counted, share: made_of as f32 / of as f32 })
        }
        (None, (Some(_), Some(of))) => {
            if let Some(entry) = reader.node().get(made) {
                reader.refuse(made, &entry.node, format!("no more than {attempted}, {of}"), None);
            }
            None
        }
        _ => None,
    }
}

/// What shares are turned into parameters on.
pub(super) struct On<'a> {
    pub court: &'a Court,
    /// The player's own skill; free throws are set in it.
    pub own: &'a mut Skill,
    /// How a player of this role differs from the curves where nothing is known of him, logit.
    pub base: [f32; SHOT_CLASSES],
    /// As whose shots his are taken.
    pub by: By,
    pub prior_attempts: f32,
}

/// What a player's shooting comes to.
pub(super) struct Played {
    pub logits: [Option<f32>; SHOT_CLASSES],
    pub known: Vec<Known>,
}

/// How a player of a role differs from his level's curves where nothing is known of him, logit.
pub(super) fn base(slot: usize, ground: &Ground<'_, '_>) -> [f32; SHOT_CLASSES] {
    let mut base = [ground.role_shooting[slot]; SHOT_CLASSES];
    if engine::slots::Slot::attacker(slot).is_post() {
        base[ShotClass::Three as usize] += ground.team.skill.shot.post_three;
    }
    base
}

/// Turns shares into differences from the curves, and free throws into their chance.
pub(super) fn played(shares: &[Share], on: &mut On<'_>) -> Played {
    let mut logits = [None; SHOT_CLASSES];
    let mut known = Vec::new();
    for share in shares {
        let shots = &SHOTS[share.shots];
        let level = match shots.class {
            // Who shoots poorly shoots less: so much is known of a player of whom shots were counted, before any of them.
            Some(class) => {
                let takers = mean(taken(shots.keys[0], on.by), |own| own.takers);
                made(on, shots, on.base[class as usize] + takers)
            }
            None => on.own.free_throw,
        };
        let played = after_count(share, level, on.prior_attempts);
        match shots.class {
            Some(class) => logits[class as usize] = Some(turned_round(on, shots, played)),
            None => on.own.free_throw = played,
        }
        let &Share { counted, share, .. } = share;
        let prior_attempts = if counted.is_some() { on.prior_attempts } else { 0.0 };
        known.push(Known { shots: shots.words, counted, share, level, prior_attempts, played });
    }
    Played { logits, known }
}

/// The mean of a beta distribution after a count; a share without a count as it is.
fn after_count(share: &Share, level: f32, prior_attempts: f32) -> f32 {
    match share.counted {
        None => share.share,
        Some((made, attempted)) => {
            let mean = (made as f32 + prior_attempts * level) / (attempted as f32 + prior_attempts);
            mean.clamp(STATED.0 as f32, STATED.1 as f32)
        }
    }
}

/// The share that goes in of shots as they are taken, by one who differs so much from the curve.
fn made(on: &On<'_>, shots: &Shots, logit: f32) -> f32 {
    let Some(class) = shots.class else { return on.own.free_throw };
    let mut own = [0.0; SHOT_CLASSES];
    own[class as usize] = logit;
    let from = if matches!(class, ShotClass::Three) { on.court.three_radius_m } else { 0.0 };
    mean(taken(shots.keys[0], on.by), |taken| {
        let at = vec2(0.0, from + taken.distance_m);
        make_chance(on.court, &on.own.shot, Shooter(own), at, taken.space_m, taken.off_catch).0
    })
}

/// The difference from the curve with which the law gives a share back, logit.
fn turned_round(on: &On<'_>, shots: &Shots, share: f32) -> f32 {
    /// Wider than any share that may be stated needs. (a choice)
    const WIDEST: f32 = 20.0;
    /// Halvings of it that leave less than a 32-bit number can tell.
    const HALVINGS: usize = 40;
    let (mut low, mut high) = (-WIDEST, WIDEST);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if made(on, shots, middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_law_gives_every_stated_share_back() {
        let setup = crate::scenario(std::path::Path::new("sunken-122")).expect("a bundled scenario").setup;
        let mut skill = setup.attackers.skill.clone();
        let base = [0.0; SHOT_CLASSES];
        let mut on = On { court: &setup.court, own: &mut skill, base, by: By::Rover, prior_attempts: 30.0 };
        for (nth, shots) in SHOTS.iter().enumerate().filter(|(_, shots)| shots.class.is_some()) {
            for share in [0.05, 0.25, 0.33, 0.4, 0.48, 0.9] {
                let stated = Share { shots: nth, counted: None, share };
                let class = shots.class.expect("a class") as usize;
                let logit = played(&[stated], &mut on).logits[class].expect("a difference");
                assert!((made(&on, shots, logit) - share).abs() < 1e-4, "{} {share}", shots.words);
            }
        }
        let free = Share { shots: 5, counted: None, share: 0.8 };
        played(&[free], &mut on);
        assert_eq!(skill.free_throw, 0.8);
    }

    #[test]
    fn few_attempts_are_drawn_toward_the_level_and_many_hardly() {
        let of = |made, attempted| Share {
            shots: 4,
            counted: Some((made, attempted)),
            share: made as f32 / attempted as f32,
        };
        assert!((after_count(&of(3, 5), 0.3, 30.0) - 12.0 / 35.0).abs() < 1e-6);
        assert!((after_count(&of(600, 1000), 0.3, 30.0) - 0.6).abs() < 0.01);
        assert_eq!(after_count(&of(38, 95), 0.3, 0.0), 0.4);
        // Who has made all of a few is not held to make all.
        assert!(after_count(&of(2, 2), 0.3, 0.0) < 1.0);
    }

    #[test]
    fn distances_of_a_kind_of_shot_lie_in_its_class() {
        let setup = crate::scenario(std::path::Path::new("sunken-122")).expect("a bundled scenario").setup;
        for shots in &SHOTS {
            let Some(class) = shots.class else { continue };
            for own in [By::Guards, By::Rover, By::Posts, By::Everybody]
                .into_iter()
                .flat_map(|by| taken(shots.keys[0], by))
            {
                let three = matches!(class, ShotClass::Three);
                let from = if three { setup.court.three_radius_m } else { 0.0 };
                assert_eq!(engine::law::shot::class_of(three, from + own.distance_m), class, "{own:?}");
                assert!(setup.court.is_three(vec2(0.0, from + own.distance_m)) == three);
                let is_open = own.space_m >= engine::law::shot::WIDE_OPEN_M;
                assert!(shots.keys[0] != "open_threes" || is_open, "{own:?}");
            }
        }
    }
}
