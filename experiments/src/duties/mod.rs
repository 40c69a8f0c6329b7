//! A program of movement in plain words, as a player is told it.

mod glass;
mod place;
mod plan;
mod when;

use engine::setup::{Locus, Pace, Program, ProgramKind, Role, Setup, Step, Then};

pub(crate) use self::glass::SHOT_UP;
use self::place::{to, words_of};
use self::when::conditions;
use crate::places::ATTACKERS;
use crate::wording::capital;

/// A job of one position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Duty {
    /// Slot of the position.
    pub role: usize,
    /// Name of the route, the option or the plan that it comes from.
    pub from: String,
    /// Share of its chances on which it is done, in hundredths.
    pub share: u32,
    /// What he does, in one sentence.
    pub words: String,
    /// The same for a page that has little room: what only tells when, and who else, may be left out.
    pub in_short: String,
    /// Where on the floor his last move leads him, without its side: `the short corner`; empty where that is no place of the
    /// floor.
    pub ends_at: String,
    /// Places of the floor to which it leads him, without their sides.
    pub leads_to: Vec<String>,
    /// Which of the attack's programs it is; None where it is none.
    pub program: Option<usize>,
}

/// Duties of all positions of an attack, in slot order: their movements in the order in which they are tried, then what the
/// plan has for them without the ball, then where they go when a shot is up.
pub fn duties(setup: &Setup) -> Vec<Duty> {
    let of_role = |role: usize| {
        let all = setup.attack.programs.iter().enumerate();
        let own = all.filter(move |(_, program)| program.who.has(role));
        own.map(move |(nth, program)| {
            let words = sentence(setup, program);
            let share = (program.weight * 100.0 + 0.5) as u32;
            let leads_to = place::all_of(setup, program);
            let ends_at = leads_to.last().cloned().unwrap_or_default();
            let from = program.name.clone();
            Duty { role, from, share, in_short: words.clone(), words, ends_at, leads_to, program: Some(nth) }
        })
    };
    let all = |role: usize| {
        let own: Vec<Duty> = of_role(role).collect();
        let planned = plan::duties(setup, role, !own.is_empty());
        own.into_iter().chain(planned).chain([glass::duty(setup, role)])
    };
    (0..ATTACKERS.len()).flat_map(all).collect()
}

/// Where a duty comes from that is done with the ball: a pass that sets off the run of another.
pub(crate) const SETS_OFF: &str = "sets-off";

/// The duty of who sets off another's run by his pass to somebody, in a share of its runs.
pub(crate) fn sets_off(runner: usize, (from, to, share): (usize, usize, f64)) -> Duty {
    // All of them only if it was all.
    let times = if share < 1.0 { (10.0 * share).round().min(9.0) } else { 10.0 };
    let words = format!(
        "To start the run of {0} from his spot: hit {1} ({times:.0} of every 10 begin so).",
        runner + 1,
        to + 1
    );
    Duty {
        role: from,
        from: SETS_OFF.into(),
        share: 100,
        in_short: words.clone(),
        words,
        ends_at: String::new(),
        leads_to: Vec::new(),
        program: None,
    }
}

/// One program: when, then leg by leg, then what follows.
fn sentence(setup: &Setup, program: &Program) -> String {
    let when = conditions(setup, &program.when);
    let mut legs: Vec<String> = Vec::new();
    for (nth, step) in program.steps.iter().enumerate() {
        legs.push(leg(setup, step, nth == 0));
    }
    let mut text =
        if when.is_empty() { legs.join(", then ") } else { format!("{when}: {}", legs.join(", then ")) };
    let stays = matches!(program.then, Then::Stay);
    let last_is_home = program.steps.last().is_some_and(|step| words_of(setup, step.to) == place::HOME);
    if !stays && !last_is_home {
        text.push_str(", then back to your spot");
    } else if stays && program.kind == ProgramKind::Route {
        text.push_str(", and stay there");
    }
    capital(&text) + "."
}

fn leg(setup: &Setup, step: &Step, first: bool) -> String {
    let verb = match (step.pace, first) {
        (Pace::Walk, _) => "walk",
        (Pace::Jog, _) => "jog",
        (Pace::Sprint, true) => "sprint",
        (Pace::Sprint, false) => "go on",
    };
    // Whom he screens or seals he holds.
    let waits = if matches!(step.to, Locus::Seal | Locus::Screen(..)) { "hold him" } else { "wait" };
    let stay =
        if step.linger_s >= 0.5 { format!(", {waits} {}", counted(step.linger_s)) } else { String::new() };
    let leave = conditions(setup, &step.leave_when);
    let leave =
        if leave.is_empty() || stay.is_empty() { String::new() } else { format!(" (go sooner {leave})") };
    format!("{}{stay}{leave}", to(setup, (verb, !first), step.to))
}

/// Seconds as they are counted aloud: `one second`, `2 to 3 seconds`.
fn counted(value: f32) -> String {
    let halves = (value * 2.0 + 0.5) as u32;
    match (halves / 2, halves.is_multiple_of(2)) {
        (0, _) | (1, true) => "one second".into(),
        (whole, true) => format!("{whole} seconds"),
        (low, false) => format!("{low} to {} seconds", low + 1),
    }
}

/// Half seconds are finer than anyone counts.
fn seconds(value: f32) -> String {
    let halves = (value * 2.0 + 0.5) as u32;
    if halves.is_multiple_of(2) { (halves / 2).to_string() } else { format!("{}.5", halves / 2) }
}

/// The roles of a set in words: `a guard`, `the rover`, `a post`, `the lead guard or the rover`.
pub(crate) fn roles(set: engine::setup::RoleSet) -> String {
    let has = |role: Role| set.has(role as usize);
    let (guards, posts) =
        (has(Role::LeadGuard) && has(Role::OffGuard), has(Role::RoverSidePost) && has(Role::OtherPost));
    if guards && posts && has(Role::Rover) {
        return "anyone".into();
    }
    let mut names: Vec<&str> = Vec::new();
    if guards {
        names.push("a guard");
    } else if has(Role::LeadGuard) {
        names.push("the lead guard");
    } else if has(Role::OffGuard) {
        names.push("the off guard");
    }
    if has(Role::Rover) {
        names.push("the rover");
    }
    if posts {
        names.push("a post");
    } else if has(Role::RoverSidePost) {
        names.push("the post on the rover's side");
    } else if has(Role::OtherPost) {
        names.push("the other post");
    }
    crate::wording::any_of(&names)
}

/// `the corner`, `the slot or the wing`.
fn places_of(set: engine::setup::PlaceSet) -> Vec<&'static str> {
    const WORDS: [&str; 7] = [
        "on top",
        "in the slot",
        "on the wing",
        "in the corner",
        "in the short corner",
        "in the low post",
        "at the elbow",
    ];
    WORDS.into_iter().enumerate().filter(|(nth, _)| set.0 >> nth & 1 == 1).map(|(_, words)| words).collect()
}

/// A place without its preposition: `the slot`.
fn named(place: &'static str) -> &'static str {
    match place.split_once(' ') {
        Some((_, "top")) => "the top",
        Some((_, rest)) => rest,
        None => place,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(route: &str) -> Vec<Duty> {
        let home = tempfile::tempdir().unwrap();
        let file = home.path().join("s.toml");
        let text = format!(
            "name = \"s\"\nrules = \"us-high-school\"\nzone = {{ use = \"1-2-2\" }}\n\
             level = {{ attack = \"high-school\", defence = \"high-school\" }}\n\
             [attack]\nuse = \"rover\"\nrover = {{ route = \"{route}\" }}\nposts = {{ options = {{ far-flash = 0.5 }} }}\n"
        );
        std::fs::write(&file, text).unwrap();
        duties(&scenarios::scenario(&file).unwrap().setup)
    }

    #[test]
    fn a_route_reads_aloud() {
        let duties = told("baseline-run");
        let rover: Vec<&Duty> = duties.iter().filter(|duty| duty.role == Role::Rover as usize).collect();
        assert_eq!(
            rover[0].words,
            "When the ball is on the other side from you, in the slot or on the wing: sprint to your short corner, then on \
             to the other short corner, then on to the other corner, and stay there."
        );
        assert_eq!(rover[0].ends_at, "the corner");
        assert_eq!((rover[0].from.as_str(), rover[0].share), ("baseline-run", 100));
    }

    #[test]
    fn both_posts_have_an_option_and_its_share() {
        let duties = told("hold-wing");
        let posts: Vec<(usize, u32)> = duties
            .iter()
            .filter(|duty| duty.from == "far-flash")
            .map(|duty| (duty.role, duty.share))
            .collect();
        assert_eq!(posts, [(3, 50), (4, 50)]);
        let first = duties.iter().find(|duty| duty.from == "far-flash").unwrap();
        assert_eq!(
            first.words,
            "When you are the post away from the ball, the ball is in the slot or on the wing, and nobody stands at the free-throw \
             line: sprint to the free-throw line, wait one second, then back to your spot."
        );
    }

    #[test]
    fn every_bundled_route_and_option_has_words_for_every_part() {
        for entry in scenarios::catalog().iter().filter(|entry| entry.kind == "route") {
            for duty in told(&entry.name) {
                assert!(duty.words.len() > 30 && duty.words.ends_with('.'), "{}: {}", entry.name, duty.words);
                assert!(!duty.words.contains("  ") && !duty.words.contains(" ,"), "{}", duty.words);
            }
        }
    }
}
