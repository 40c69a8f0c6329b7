//! What a plan has for a player without the ball, in words: places that are not left empty, and who has the right of way
//! between the lines.

use engine::law::conduct::programs::{GAP_FROM_Y_M, GAP_TO_Y_M, GAP_X_M};
use engine::law::conduct::spacing::FILLS_WITHIN_M;
use engine::setup::{FillRule, Gap, Locus, PlaceSet, Relative, RoleSet, Setup};

use super::{Duty, named, places_of};
use crate::wording::{any_of, in_words};

/// The fills and the gap rule of a plan, for one position; `runs` where he has movements of his own, which come first.
pub(super) fn duties(setup: &Setup, role: usize, runs: bool) -> Vec<Duty> {
    let Some(plan) = &setup.attack.plan else { return Vec::new() };
    let own: Vec<&FillRule> = plan.fills.iter().filter(|fill| fill.by.has(role)).collect();
    let stays = || (!runs).then(|| ["Stay about your spot."; 2].map(str::to_owned));
    let job = fills(&own, role, runs).or_else(stays);
    // Who never goes there need not know who goes first, and for who never goes there nobody waits.
    let gap = plan.gap.filter(|_| leads_between(setup, role));
    let goes = |other: &usize| leads_between(setup, *other);
    let gap = gap.map(|gap| {
        let first = (0..5).filter(|other| gap.first.has(*other)).filter(goes);
        Gap { first: RoleSet(first.fold(0, |all, other| all | 1 << other)), ..gap }
    });
    let gap = gap.map(|gap| right_of_way(gap, role));
    let filled = own.iter().flat_map(|fill| places_of(PlaceSet(1 << fill.place as u8)));
    let filled: Vec<String> = filled.map(|place| named(place).to_owned()).collect();
    let duty = |[words, in_short]: [String; 2]| Duty {
        role,
        from: plan.name.clone(),
        share: 100,
        words,
        in_short,
        ends_at: String::new(),
        leads_to: filled.clone(),
        program: None,
    };
    job.into_iter().chain(gap).map(duty).collect()
}

/// Whether a movement of a position leads between the lines, by the places of its file.
fn leads_between(setup: &Setup, role: usize) -> bool {
    let leads = |to: Locus| match to {
        Locus::LineGap(x, _) => x.abs() < GAP_X_M,
        Locus::Seam(..) => true,
        Locus::Floor(at, _) => at.x.abs() < GAP_X_M && (GAP_FROM_Y_M..GAP_TO_Y_M).contains(&at.y),
        _ => false,
    };
    let own = setup.attack.programs.iter().filter(|program| program.who.has(role));
    own.flat_map(|program| &program.steps).any(|step| leads(step.to))
}

/// In short it is not said which place goes with which place of the ball.
const SHORT: &str = "Fill what is empty, by where the ball is (card)";

/// Places that are not left empty, in the order in which they are looked at, in full and in short: `Fill the first of these
/// that is empty and within 8 m of you: the corner on the ball's side when the ball is on the wing; .... You or 3: the nearer one goes.` In short: without
/// where the ball is then.
fn fills(own: &[&FillRule], role: usize, runs: bool) -> Option<[String; 2]> {
    let (first, rest) = own.split_first()?;
    let is_shared = rest.iter().all(|fill| fill.by == first.by);
    let one = |(nth, fill): (usize, &&FillRule)| {
        let who = if is_shared { String::new() } else { nearest(fill, role, [" (", ")"]) };
        let ball = if nth == 0 { "the ball" } else { "it" };
        format!("{} when {ball} is {}{who}", place_of(fill), any_of(&places_of(fill.ball)))
    };
    let all: Vec<String> = own.iter().enumerate().map(one).collect();
    let mut places: Vec<String> = own.iter().map(|fill| place_of(fill)).collect();
    places.dedup();
    let start = |several: bool| match (runs, several) {
        (true, false) => "Not on a run, fill this if it is empty and within {reach} of you: ",
        (true, true) => "Not on a run, fill the first of these that is empty and within {reach} of you: ",
        (false, false) => "Fill this if it is empty and within {reach} of you: ",
        (false, true) => "Fill the first of these that is empty and within {reach} of you: ",
    };
    let reach = format!("{FILLS_WITHIN_M} m");
    let who = if is_shared { nearest(first, role, [" ", "."]) } else { String::new() };
    Some([
        format!("{}{}.{who}", start(all.len() > 1).replace("{reach}", &reach), all.join("; ")),
        if runs {
            // Who has runs of his own has many words already; his card has the places.
            format!("Not on a run, fill what is empty (card).{who}")
        } else {
            format!("{SHORT}: {}.{who}", places.join(", "))
        },
    ])
}

/// Who of those of a fill goes: ` You or 3: the nearer one goes.`
fn nearest(fill: &FillRule, role: usize, [before, after]: [&str; 2]) -> String {
    match numbers(fill.by, role).as_slice() {
        [] => String::new(),
        [one] => format!("{before}You or {one}: the nearer one goes{after}"),
        all => format!("{before}You, {}: the nearest one goes{after}", any_of(all)),
    }
}

/// The place of a fill: `the corner on the ball's side`, `the other wing`.
fn place_of(fill: &FillRule) -> String {
    let places = places_of(PlaceSet(1 << fill.place as u8));
    let place = places.first().map_or("your place", |place| named(place));
    match fill.side {
        Relative::Same => format!("{place} on the ball's side"),
        Relative::Other => place.replacen("the ", "the other ", 1),
        Relative::Any => place.to_owned(),
    }
}

/// The rule of the room between the lines, in full and in short.
fn right_of_way(gap: Gap, role: usize) -> [String; 2] {
    let most = in_words(usize::from(gap.most), "nobody");
    let first = numbers(gap.first, role);
    let (who, wait) = if gap.first.has(role) {
        ("you first".into(), "")
    } else {
        match first.as_slice() {
            [] => ("wait until he who is there has left".into(), ""),
            [one] => (format!("{one} first"), "; wait while he is there or on his way"),
            several => {
                (format!("{} first", any_of(several)), "; wait while one of them is there or on his way")
            }
        }
    };
    [
        format!("Between their front and back lines {most} of your team at a time: {who}{wait}."),
        format!("Between their lines {most} at a time: {who}."),
    ]
}

/// The other positions of a set, by number.
fn numbers(roles: RoleSet, role: usize) -> Vec<String> {
    (0..5).filter(|other| *other != role && roles.has(*other)).map(|other| (other + 1).to_string()).collect()
}

#[cfg(test)]
mod tests {
    use super::super::duties;

    #[test]
    fn who_fills_and_who_goes_first_is_said_to_those_whom_the_plan_names() {
        let home = tempfile::tempdir().unwrap();
        let file = home.path().join("s.toml");
        let text = |plan: &str, route: &str| {
            format!(
                "name = \"s\"\nrules = \"us-high-school\"\nzone = {{ use = \"1-2-2\" }}\n\
                 level = {{ attack = \"high-school\", defence = \"high-school\" }}\n\
                 [attack]\nuse = \"rover\"\nplan = \"{plan}\"\nrover = {{ route = \"{route}\" }}\n"
            )
        };
        let told = |plan: &str, route: &str| {
            std::fs::write(&file, text(plan, route)).unwrap();
            let all = duties(&scenarios::scenario(&file).unwrap().setup);
            all.into_iter()
                .filter(|duty| duty.from == plan)
                .map(|duty| (duty.role, duty.words))
                .collect::<Vec<_>>()
        };
        let all = told("inside-first", "seam-cross");
        let of = |role: usize| {
            all.iter().filter(|own| own.0 == role).map(|own| own.1.as_str()).collect::<Vec<_>>()
        };
        assert_eq!(
            of(1)[0],
            "Fill the first of these that is empty and within 8 m of you: the corner on the ball's side when the ball is on the wing; the other wing \
             when it is in the slot, on the wing or at the elbow; the other corner when it is on the wing, in the corner, in \
             the short corner or in the low post. You or 3: the nearer one goes."
        );
        assert_eq!(of(1).len(), 1, "who never goes between the lines is not told who goes first");
        assert_eq!(of(0), ["Stay about your spot."]);
        assert_eq!(
            of(2).last(),
            Some(&"Between their front and back lines one of your team at a time: you first.")
        );
        // A route that leads elsewhere has no use for the right of way, whatever the plan says.
        let rule = |route: &str| {
            let all = told("inside-first", route);
            all.iter()
                .filter(|own| own.1.starts_with("Between their front"))
                .map(|own| own.0)
                .collect::<Vec<_>>()
        };
        assert_eq!(rule("seam-cross"), [2]);
        assert_eq!(rule("corner-drop"), [0; 0]);
        assert!(told("free", "hold-wing").is_empty());
    }
}
