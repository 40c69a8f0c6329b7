//! Who gains and who loses against an answer of the zone, in words.

use crate::columns::{Column, Told};
use crate::stats::Interval;
use crate::wording::alike;

/// One claim: a variant's lead over the baseline against this answer, less its mean lead against the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Gain {
    /// The variant.
    pub variant: String,
    /// It gains; else it loses.
    pub gains: bool,
    /// By how much its lead changes.
    pub change: Interval,
    /// Where it stands against the baseline here: `ahead`, `behind`, or empty where neither is claimed.
    pub stands: String,
}

/// `gains: far-flash +1.2 (0.4 to 2.0), ahead of no option; loses: none`, largest first; `no difference seen`
/// without a claim.
pub fn told(column: &Column, baseline: &str, claims: &[Gain]) -> String {
    let side = |gains: bool| {
        let mut own: Vec<&Gain> = claims.iter().filter(|claim| claim.gains == gains).collect();
        own.sort_by(|a, b| b.change.estimate.abs().total_cmp(&a.change.estimate.abs()));
        let own: Vec<String> = own.into_iter().map(|claim| one(column, baseline, claim)).collect();
        if own.is_empty() { "none".into() } else { own.join(", ") }
    };
    if claims.is_empty() {
        return "no difference seen".into();
    }
    format!("gains: {}; loses: {}", side(true), side(false))
}

fn one(column: &Column, baseline: &str, claim: &Gain) -> String {
    let part = |value: f64| signed(column, value, &claim.change);
    let stands = match claim.stands.as_str() {
        "ahead" => format!("ahead of {baseline}"),
        "behind" => format!("behind {baseline}"),
        _ => format!("not told from {baseline}"),
    };
    let Interval { estimate, low, high } = claim.change;
    format!("{} {} ({} to {}; {stands} here)", claim.variant, part(estimate), part(low), part(high))
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

    fn gain(variant: &str, estimate: f64, stands: &str) -> Gain {
        let change = Interval { estimate, low: estimate - 0.02, high: estimate + 0.02 };
        Gain { variant: variant.into(), gains: estimate > 0.0, change, stands: stands.into() }
    }

    #[test]
    fn claims_read_aloud_largest_first_with_where_each_stands() {
        let net = Column::named("expected_net_points").unwrap();
        let claims = [gain("seal", 0.05, ""), gain("flash", 0.10, "ahead"), gain("pop-out", -0.04, "behind")];
        assert_eq!(
            told(net, "no option", &claims),
            "gains: flash +2.0 (+1.6 to +2.4; ahead of no option here), seal +1.0 (+0.6 to +1.4; not told from no option \
             here); loses: pop-out \u{2212}0.8 (\u{2212}1.2 to \u{2212}0.4; behind no option here)"
        );
        assert_eq!(told(net, "no option", &[]), "no difference seen");
        assert!(told(net, "no option", &claims[2..]).starts_with("gains: none; loses: pop-out"));
        assert_eq!(counted(net), format!("{} in 20", net.words));
    }
}
