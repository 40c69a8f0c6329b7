//! The check: each rate as it was seen against what was predicted of so many possessions.

use scenarios::{Charted, Session};

use super::predicted::Predicted;
use super::rate::Rate;
use crate::stats::{Predictive, holm};

/// Confidence of intervals, for each rate by itself.
pub const CONFIDENCE: f64 = 0.95;
/// What the chance of any false word in a session is held to.
pub const ERROR: f64 = 0.05;
/// Of fewer possessions or shots it is not said how many it would take: what was seen of them is hardly a share. (a choice)
const SEEN_FOR_NEEDED: u32 = 10;
/// More than a season has. (a choice)
const NEEDED_MOST: u32 = 5_000;

/// A rate as it was seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Which.
    pub rate: Rate,
    /// So many were seen.
    pub seen: u32,
    /// Of so many.
    pub of: u32,
    /// Of so many possessions or shots of the result the prediction is.
    pub predicted_of: u64,
    /// So many were predicted, on average.
    pub mean: f64,
    /// Between these the count lies with a chance of 95 % if the model is right.
    pub between: (u32, u32),
    /// The chance of a count that is no likelier than the one seen, if the model is right.
    pub p: f64,
    /// The same with the number of rates counted in, after Holm.
    pub adjusted_p: f64,
}

impl Judged {
    /// Whether it is more than chance allows.
    pub fn is_outside(&self) -> bool {
        self.adjusted_p <= ERROR
    }

    /// What was predicted, as a share.
    pub fn predicted_share(&self) -> f64 {
        self.mean / f64::from(self.of.max(1))
    }
}

/// The rates of which any was seen, in the order of [`Rate::all`]. Each possession is held against the variant that was called,
/// and where none was against the planned one.
pub fn judged<'c>(
    rows: impl IntoIterator<Item = &'c Charted> + Clone,
    predicted: &[Predicted],
    planned: usize,
) -> Vec<Judged> {
    let variant = |row: &Charted| {
        let called = row.call.as_ref().and_then(|call| predicted.iter().position(|own| own.variant == *call));
        called.unwrap_or(planned)
    };
    let mut found: Vec<Judged> = Vec::new();
    for rate in Rate::all() {
        let mut counts = vec![(0, 0); predicted.len()];
        for row in rows.clone() {
            if let Some(yes) = rate.of(row) {
                let count = &mut counts[variant(row)];
                *count = (count.0 + u32::from(yes), count.1 + 1);
            }
        }
        let (seen, of) = counts.iter().fold((0, 0), |sum, own| (sum.0 + own.0, sum.1 + own.1));
        if of > 0 {
            found.push(one(rate, (seen, of), counts.iter().map(|own| own.1).zip(predicted)));
        }
    }
    let adjusted = holm(&found.iter().map(|own| own.p).collect::<Vec<_>>());
    found.iter_mut().zip(adjusted).for_each(|(own, adjusted)| own.adjusted_p = adjusted);
    found
}

fn one<'p>(rate: Rate, (seen, of): (u32, u32), trials: impl Iterator<Item = (u32, &'p Predicted)>) -> Judged {
    let (mut predictive, mut predicted_of) = (Predictive::nothing(), 0);
    for (trials, predicted) in trials.filter(|(trials, _)| *trials > 0) {
        let (counted, of) = predicted.count(rate);
        predictive = predictive.and(&Predictive::new(trials, counted, of));
        predicted_of += of;
    }
    let p = predictive.two_sided_p(seen);
    Judged {
        rate,
        seen,
        of,
        predicted_of,
        mean: predictive.mean(),
        between: predictive.interval(CONFIDENCE),
        p,
        adjusted_p: p,
    }
}

/// How many possessions or shots it takes until a rate that goes on just as it was seen is told from its prediction, among so
/// many rates, by the check itself; `None` where fewer than ten were seen, or not even 5,000 would do.
/// A share that stood out among several by chance does not go on so.
pub fn needed(own: &Judged, rates: usize) -> Option<u32> {
    if own.of < SEEN_FOR_NEEDED || own.is_outside() {
        return None;
    }
    let share = f64::from(own.seen) / f64::from(own.of);
    let counted = (own.predicted_share() * own.predicted_of as f64).round() as u64;
    let mut many = own.of + 1;
    while many <= NEEDED_MOST {
        // Whole ones, on the side of the prediction.
        let exact = share * f64::from(many);
        let seen = if share > own.predicted_share() { exact.floor() } else { exact.ceil() } as u32;
        let p = Predictive::new(many, counted.min(own.predicted_of), own.predicted_of).two_sided_p(seen);
        if p * rates as f64 <= ERROR {
            return Some(many);
        }
        many = (many + many / 20).max(many + 1);
    }
    None
}

/// The possessions of each session, games first, those of which nothing was said last; `together`: as one.
pub fn by_session(charted: &[Charted], together: bool) -> Vec<(Option<Session>, Vec<&Charted>)> {
    if together {
        return vec![(None, charted.iter().collect())];
    }
    let sessions = [Some(Session::Game), Some(Session::Practice), None];
    let of = |session| (session, charted.iter().filter(|own| own.session == session).collect::<Vec<_>>());
    sessions.map(of).into_iter().filter(|(_, rows)| !rows.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use engine::ends::End;

    use super::*;

    fn ended(end: End) -> Charted {
        Charted { end: Some(end), ..Charted::default() }
    }

    fn predicted(variant: &str, turnovers: u64) -> Predicted {
        let ends = vec![(ended(End::Turnover), turnovers), (ended(End::TwoMade), 1_000 - turnovers)];
        Predicted { variant: variant.into(), zone: "2-3".into(), ends }
    }

    fn turnovers(charted: &[Charted], planned: usize) -> Judged {
        let predicted = [predicted("safe", 100), predicted("wild", 500)];
        judged(charted, &predicted, planned).into_iter().find(|own| own.rate == Rate::Turnovers).unwrap()
    }

    #[test]
    fn what_was_seen_is_held_against_what_was_called() {
        let mut charted = [vec![ended(End::Turnover); 25], vec![ended(End::TwoMade); 25]].concat();
        assert!(turnovers(&charted, 0).is_outside() && !turnovers(&charted, 1).is_outside());
        charted.iter_mut().for_each(|own| own.call = Some("wild".into()));
        let called = turnovers(&charted, 0);
        assert!(!called.is_outside() && called.between.0 < 25 && called.between.1 > 25, "{called:?}");
        charted[..20].iter_mut().for_each(|own| own.call = None);
        assert!((turnovers(&charted, 0).mean - (20.0 * 0.1 + 30.0 * 0.5)).abs() < 0.1);
    }

    #[test]
    fn few_possessions_say_little_and_it_is_said_how_many_would_do() {
        let few = [vec![ended(End::Turnover); 2], vec![ended(End::TwoMade); 6]].concat();
        assert_eq!(needed(&turnovers(&few, 0), 20), None, "eight possessions are no share");
        let charted = [vec![ended(End::Turnover); 3], vec![ended(End::TwoMade); 9]].concat();
        let own = turnovers(&charted, 0);
        assert!(!own.is_outside());
        let more = needed(&own, 20).unwrap();
        // So many are told off by the check, and somewhat fewer are not.
        let goes_on = |many: u32| {
            let lost = many / 4;
            let charted = [
                vec![ended(End::Turnover); lost as usize],
                vec![ended(End::TwoMade); (many - lost) as usize],
            ];
            turnovers(&charted.concat(), 0).p * 20.0 <= ERROR
        };
        assert!(goes_on(more) && !goes_on(more / 2), "{more}");
    }

    #[test]
    fn sessions_are_kept_apart() {
        let of = |session| Charted { session, ..ended(End::TwoMade) };
        let charted = [Some(Session::Practice), None, Some(Session::Game), Some(Session::Practice)].map(of);
        let sizes =
            |together| by_session(&charted, together).iter().map(|own| own.1.len()).collect::<Vec<_>>();
        assert_eq!((sizes(false), sizes(true)), (vec![1, 2, 1], vec![4]));
    }
}
