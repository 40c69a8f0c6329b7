//! Who gains and who loses against an answer of the zone, and who is ahead of the one compared with there, in words.

use crate::columns::{Column, Told};
use crate::stats::Interval;
use crate::verdict::few;
use crate::wording::{alike, listed};

/// Said where nothing is claimed, before the name of the one compared with.
pub const NONE_DIFFERS: &str = "none clearly differs";

/// What is claimed of one variant against one answer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Claimed {
    /// The variant.
    pub variant: String,
    /// Its lead over the baseline here less its mean lead against the other answers.
    pub gain: Option<Said>,
    /// Its lead over the baseline here.
    pub lead: Option<Said>,
}

/// A difference that is claimed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Said {
    /// Good for the attack.
    pub good: bool,
    /// By how much.
    pub by: Interval,
}

/// `gains here: duck-in +0.4 (+0.1 to +0.8); loses here: none; ahead of no option: far-flash +0.8; behind it: none`,
/// the largest first. What is not claimed is not named.
pub fn told(column: &Column, baseline: &str, claimed: &[Claimed]) -> String {
    let among = among(claimed);
    let gains =
        |good| list(claimed, good, |own| own.gain, |name, said| one(column, name, (said, &among), true));
    let leads =
        |good| list(claimed, good, |own| own.lead, |name, said| one(column, name, (said, &among), false));
    let (gain, lead) =
        (claimed.iter().any(|own| own.gain.is_some()), claimed.iter().any(|own| own.lead.is_some()));
    if !gain && !lead {
        return format!("{NONE_DIFFERS} from {baseline}");
    }
    if !gain {
        let ends = [(true, "ahead of"), (false, "behind")].map(|(good, way)| (leads(good), way));
        let some = ends.iter().filter(|(names, _)| names != "none");
        let told: Vec<String> = some.map(|(names, way)| format!("{way} {baseline}: {names}")).collect();
        return format!("{}; nothing else differs here", told.join("; "));
    }
    let gained = format!("gains here: {}; loses here: {}", gains(true), gains(false));
    if lead {
        format!("{gained}; ahead of {baseline}: {}; behind it: {}", leads(true), leads(false))
    } else {
        format!("{gained}; all too close to call with {baseline}")
    }
}

/// Who is clearly behind by measures by which nothing is ranked, with whom and which: ` Played again for the calls: park-low is
/// clearly behind no-option in good looks.` Empty where nobody is.
pub fn behind(besides: &[(Vec<&str>, String)]) -> String {
    let told = besides.iter().map(|(names, by)| {
        let are = if names.len() == 1 { "is" } else { "are" };
        format!("{} {are} clearly behind {by}", listed(&few(names)))
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() { String::new() } else { format!(" Played again for the calls: {}.", told.join("; ")) }
}

/// From the end nearest to 0 to the farthest of all that is claimed: all of it is told with the same decimals.
fn among(claimed: &[Claimed]) -> Interval {
    let all = claimed.iter().flat_map(|own| [own.gain, own.lead]).flatten();
    let ends = all.map(|said| (said.by.low.abs(), said.by.high.abs()));
    let (near, far) =
        ends.fold((f64::INFINITY, 0.0_f64), |(near, far), (a, b)| (near.min(a).min(b), far.max(a).max(b)));
    Interval { estimate: far, low: near, high: far }
}

fn list(
    claimed: &[Claimed],
    good: bool,
    part: fn(&Claimed) -> Option<Said>,
    one: impl Fn(&str, Said) -> String,
) -> String {
    let own = claimed.iter().filter_map(|own| Some((own.variant.as_str(), part(own)?)));
    let mut own: Vec<(&str, Said)> = own.filter(|(_, said)| said.good == good).collect();
    own.sort_by(|a, b| b.1.by.estimate.abs().total_cmp(&a.1.by.estimate.abs()));
    let own: Vec<String> = own.into_iter().map(|(name, said)| one(name, said)).collect();
    if own.is_empty() { "none".into() } else { own.join(", ") }
}

fn one(column: &Column, name: &str, (said, among): (Said, &Interval), ends: bool) -> String {
    // What is claimed does not reach 0, however it is rounded.
    let part = |value: f64| {
        let text = signed(column, value, among);
        match text.strip_prefix(['+', '\u{2212}']) {
            Some(_) => text,
            None => format!("{}{text}", if value < 0.0 { '\u{2212}' } else { '+' }),
        }
    };
    let Interval { estimate, low, high } = said.by;
    let ends = if ends { format!(" ({} to {})", part(low), part(high)) } else { String::new() };
    format!("{name} {}{ends}", part(estimate))
}

/// A number with its sign, to as many decimals as all of its interval.
pub fn signed(column: &Column, value: f64, among: &Interval) -> String {
    let text = alike(column, value, among);
    let is_zero = text.bytes().all(|byte| b"0.".contains(&byte));
    if value > 0.0 && !is_zero { format!("+{text}") } else { text.replace('-', "\u{2212}") }
}

/// What a column's numbers count, with their unit: `expected net points in 20`.
pub fn counted(column: &Column) -> String {
    let unit = match column.told() {
        Told::InTwenty => " in 20",
        Told::Percent => ", %",
        Told::Seconds => ", s",
        Told::Metres => ", m",
        Told::Number => "",
    };
    format!("{}{unit}", column.words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_is_behind_besides_is_told_with_whom_and_by_which_measure() {
        let one = (vec!["park-low"], "no-option in good looks".to_owned());
        let told = " Played again for the calls: park-low is clearly behind no-option in good looks.";
        assert_eq!(behind(std::slice::from_ref(&one)), told);
        let two = behind(&[(vec!["a", "b"], "c in good looks".to_owned()), one]);
        assert!(two.contains(": a and b are clearly behind c in good looks; park-low is"), "{two}");
        assert_eq!(behind(&[]), "");
    }

    fn said(estimate: f64) -> Option<Said> {
        let by = Interval { estimate, low: estimate - 0.02, high: estimate + 0.02 };
        (estimate != 0.0).then_some(Said { good: estimate > 0.0, by })
    }

    #[test]
    fn claims_read_aloud_largest_first_and_what_is_not_claimed_is_not_named() {
        let net = Column::named("expected_net_points").unwrap();
        let told = |claims: &[(&str, f64, f64)]| {
            let of = |&(name, gain, lead): &(&str, f64, f64)| Claimed {
                variant: name.into(),
                gain: said(gain),
                lead: said(lead),
            };
            super::told(net, "no option", &claims.iter().map(of).collect::<Vec<_>>())
        };
        assert_eq!(
            told(&[("seal", 0.05, 0.0), ("flash", 0.10, 0.15), ("out", -0.05, -0.06), ("low", 0.0, 0.0)]),
            "gains here: flash +2.0 (+1.6 to +2.4), seal +1.0 (+0.6 to +1.4); loses here: out \u{2212}1.0 (\u{2212}1.4 to \
             \u{2212}0.6); ahead of no option: flash +3.0; behind it: out \u{2212}1.2"
        );
        let alike = told(&[("seal", 0.0, -0.5), ("flash", 0.0, -0.041)]);
        assert!(alike.starts_with("behind no option: seal \u{2212}10.0, flash \u{2212}0.8; "), "{alike}");
        assert_eq!(told(&[("low", 0.0, 0.0)]), "none clearly differs from no option");
        assert_eq!(
            told(&[("flash", 0.0, 0.15)]),
            "ahead of no option: flash +3.0; nothing else differs here"
        );
        assert_eq!(
            told(&[("out", -0.05, 0.0)]),
            "gains here: none; loses here: out \u{2212}1.0 (\u{2212}1.4 to \u{2212}0.6); all too close to call with no option"
        );
        let by = Interval { estimate: 0.05, low: 0.0001, high: 0.0999 };
        let near = Claimed { variant: "low".into(), gain: Some(Said { good: true, by }), lead: None };
        assert!(super::told(net, "x", &[near]).starts_with("gains here: low +1.000 (+0.002 to +1.998);"));
        assert_eq!(counted(net), format!("{} in 20", net.words));
    }
}
