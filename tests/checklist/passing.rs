//! How the ball goes round, pass by pass of the first chance, and what its passers believe.

use engine::film::Air;
use engine::law::floor::{HIGH_POST, LOW_POST, touch_class};
use engine::law::throw::{PERIMETER_INSIDE_ARC_M, SKIP_FROM_M};
use engine::math::Vec2;

use crate::trade::watch::{Pass, Watched, tally};

/// Kinds of pass, as the measures tell them apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Swing,
    Skip,
    HighPost,
    LowPost,
    Other,
}

/// Of two passes in a row, the second goes back to the man who threw the first.
fn returns(first: &Pass, second: &Pass) -> bool {
    let caught = first.caught.is_some_and(|(by, ..)| by == second.from);
    caught && second.to == first.from
}

/// Of the catches at the high post, those that the catcher's next pass brings back where the ball came from, with no drive
/// between.
pub fn straight_back(w: &Watched<'_>, sum: &mut (f64, f64)) {
    for (nth, pass) in w.passes.iter().enumerate() {
        if pass.caught.is_some_and(|(_, _, at)| touch_class(&w.setup.court, at) & HIGH_POST != 0) {
            let next = w.passes.get(nth + 1);
            let back = next.is_some_and(|next| returns(pass, next) && !next.drove);
            tally(sum, u8::from(back));
        }
    }
}

/// Of all passes, those back to the man it just came from.
pub fn returned(w: &Watched<'_>, sum: &mut (f64, f64)) {
    for (nth, pass) in w.passes.iter().enumerate() {
        tally(sum, u8::from(nth > 0 && returns(&w.passes[nth - 1], pass)));
    }
}

/// Of the strings of four touches, one pass from each to the next, those by two men in turn.
pub fn two_in_turn(w: &Watched<'_>, sum: &mut (f64, f64)) {
    for string in w.passes.windows(3) {
        let caught = string.iter().map(|pass| pass.caught.map(|(by, ..)| by));
        let touches: Option<Vec<usize>> = std::iter::once(Some(string[0].from)).chain(caught).collect();
        let Some(touches) = touches else { continue };
        // Whoever caught it has thrown it himself: it was not loose in between.
        if (1..3).all(|nth| touches[nth] == string[nth].from) {
            tally(sum, u8::from(touches[0] == touches[2] && touches[1] == touches[3]));
        }
    }
}

/// Where a pass comes down; where its receiver is as it is thrown, if a hand is on it at once.
fn comes_down(w: &Watched<'_>, pass: &Pass) -> Vec2 {
    let flies = w.film.frames.iter().skip_while(|frame| frame.time_s < pass.release_s).take(2);
    let end = flies.filter_map(|frame| match frame.air {
        Some(Air::Pass { from, to, end, .. })
            if usize::from(from) == pass.from && usize::from(to) == pass.to =>
        {
            Some(end)
        }
        _ => None,
    });
    end.last().unwrap_or(w.frame(pass.release_s).players[pass.to])
}

/// What kind of pass it is.
pub fn kind(w: &Watched<'_>, pass: &Pass) -> Kind {
    let court = &w.setup.court;
    let to = comes_down(w, pass);
    let touch = touch_class(court, to);
    let outside = |at: Vec2| at.len() > court.three_radius_m - PERIMETER_INSIDE_ARC_M;
    if touch & LOW_POST != 0 {
        Kind::LowPost
    } else if touch & HIGH_POST != 0 {
        Kind::HighPost
    } else if outside(pass.from_at) && outside(to) {
        if pass.metres >= SKIP_FROM_M { Kind::Skip } else { Kind::Swing }
    } else {
        Kind::Other
    }
}

/// Chance of the passes of a kind as their passers believed it, less those that were caught and that no hand had touched.
pub fn believed_less_true(w: &Watched<'_>, of: Kind, sum: &mut (f64, f64)) {
    for pass in w.passes.iter().filter(|pass| kind(w, pass) == of) {
        if let Some(believed) = pass.believed {
            let caught = f64::from(u8::from(pass.caught.is_some()));
            tally(sum, f64::from(believed) - caught);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::few;
    use super::*;
    use crate::reference::line::LEVELS;
    use crate::trade::estimate::Series;
    use engine::film::What;
    use engine::math::vec2;
    use engine::{Arena, Measure};

    /// A film with these passes, each from whom to whom and caught by him.
    fn with(passes: &[(usize, usize)], look: fn(&Watched<'_>, &mut (f64, f64))) -> (f64, f64) {
        let (_, played) = few(&LEVELS[0], 1);
        let film = Arena::new(1).film(&played[0].setup, 1, 0);
        let mut watched = Watched::of(&played[0].setup, &film);
        let elbow = vec2(1.8, 4.1);
        let pass = |&(from, to): &(usize, usize)| Pass {
            from,
            to,
            metres: 4.0,
            release_s: 1.0,
            from_at: elbow,
            caught: Some((to, 1.5, elbow)),
            touched: false,
            fakes: 0,
            drove: false,
            believed: None,
        };
        watched.passes = passes.iter().map(pass).collect();
        let mut sum = (0.0, 0.0);
        look(&watched, &mut sum);
        sum
    }

    #[test]
    fn passes_back_and_strings_of_two_men_are_told_from_others() {
        let round = [(0, 1), (1, 2), (2, 0), (0, 1)];
        let twice = [(0, 1), (1, 0), (0, 1), (1, 2)];
        assert_eq!([with(&round, returned), with(&twice, returned)], [(0.0, 4.0), (2.0, 4.0)]);
        assert_eq!([with(&round, two_in_turn), with(&twice, two_in_turn)], [(0.0, 2.0), (1.0, 2.0)]);
        assert_eq!([with(&round, straight_back), with(&twice, straight_back)], [(0.0, 4.0), (2.0, 4.0)]);
        // Somebody picked it up in between: no pass back, and no string.
        let loose = [(0, 1), (3, 0), (0, 3)];
        assert_eq!((with(&loose, returned), with(&loose, two_in_turn)), ((1.0, 3.0), (0.0, 0.0)));
    }

    #[test]
    fn passes_fall_into_the_kinds_that_the_measures_count_and_are_those_that_were_chosen() {
        const COUNTED: [(Kind, Measure); 4] = [
            (Kind::Swing, Measure::SwingPasses),
            (Kind::Skip, Measure::SkipPasses),
            (Kind::HighPost, Measure::HighPostPasses),
            (Kind::LowPost, Measure::LowPostPasses),
        ];
        let (file, played) = few(&LEVELS[0], 1);
        let mut arena = Arena::new(1);
        let mut counts: [Series; 4] = Default::default();
        let (mut chosen, mut thrown) = (0, 0);
        for possession in 0..200 {
            let film = arena.film(&played[0].setup, file.seed, possession);
            // What is watched ends with a rebound.
            if film.events.iter().any(|event| matches!(event.what, What::Rebound { .. })) {
                continue;
            }
            let watched = Watched::of(&played[0].setup, &film);
            thrown += watched.passes.len();
            chosen += watched.passes.iter().filter(|pass| pass.believed.is_some()).count();
            for (nth, (of, measure)) in COUNTED.into_iter().enumerate() {
                let own = watched.passes.iter().filter(|pass| kind(&watched, pass) == of).count();
                counts[nth].push((own as f64, film.record.real(measure)));
            }
        }
        let all: f64 = counts.iter().flatten().map(|count| count.1).sum();
        let wrong: f64 = counts.iter().flatten().map(|count| (count.0 - count.1).abs()).sum();
        // The film has where a pass comes down, and the measures where it was aimed.
        assert!(all > 200.0 && wrong < 0.03 * all, "{wrong} of {all}");
        // Who throws a pass has chosen it, and what he believed of it is known.
        assert!(thrown > 200 && 100 * chosen > 98 * thrown, "{chosen} of {thrown}");
    }
}
