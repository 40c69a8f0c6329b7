//! Where two films of one possession part: the same players and the same draws, one thing changed. Up to this moment they
//! are one possession; from it on each shows what the change has made of it.
//!
//! They part where a player's or the ball's place differs by more than [`APART_M`], or where the man with the ball does
//! something else.

use engine::film::{Action, Air, Event, Film, Frame, Slot, What};
use engine::math::Vec2;
use engine::slots::ALL;

use super::Words;
use super::telling::decided;
use crate::wording::pass_kind;

/// Places that lie no farther apart count as one, m. (assumed: half a stride; less is not seen)
pub const APART_M: f32 = 0.25;

/// What is done no later than this after the other counts as done at once, s. (assumed: it covers no more than that)
const LATER_S: f32 = 0.1;

/// How far ahead a player's way is looked at for its words, s. (assumed)
const AHEAD_S: f32 = 0.5;

/// Who covers less than this in that time stays where he is, m. (assumed: a step)
const STAYS_M: f32 = 0.6;

/// Whose ways part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    /// A player's.
    Player(Slot),
    /// The ball's.
    Ball,
    /// Nobody's: one of the two is over.
    Nobody,
}

/// The moment at which two films part.
#[derive(Clone, Debug, PartialEq)]
pub struct Parting {
    /// When, s.
    pub time_s: f32,
    /// Who does something else.
    pub who: Who,
    /// What happens in the one film and in the other.
    pub did: [String; 2],
}

/// A film and the words for it.
pub type Told<'a> = (&'a Film, &'a dyn Words);

/// The first moment at which anybody's way, or what the man with the ball does, differs; `None` if nothing does.
pub fn first(films: [Told<'_>; 2]) -> Option<Parting> {
    let way = ways(films, |a, b| {
        let player = ALL
            .into_iter()
            .find(|p| a.players[usize::from(*p)].distance(b.players[usize::from(*p)]) > APART_M);
        player.map(Who::Player)
    });
    [way, ball(films)].into_iter().flatten().min_by(|a, b| a.time_s.total_cmp(&b.time_s))
}

/// The first moment at which the ball goes another way, or is treated in another way.
pub fn ball(films: [Told<'_>; 2]) -> Option<Parting> {
    let way = ways(films, |a, b| {
        let height = (a.ball_height_m - b.ball_height_m).abs();
        (a.ball.distance(b.ball) > APART_M || height > APART_M).then_some(match (a.holder, b.holder) {
            (Some(a), Some(b)) if a == b => Who::Player(a),
            _ => Who::Ball,
        })
    });
    [actions(films), way].into_iter().flatten().min_by(|a, b| a.time_s.total_cmp(&b.time_s))
}

/// The first pair of frames in which something differs.
fn ways(films: [Told<'_>; 2], differs: impl Fn(&Frame, &Frame) -> Option<Who>) -> Option<Parting> {
    let [(one, _), (other, _)] = films;
    for frame in &one.frames {
        let Some(against) = frame_at(other, frame.time_s) else {
            return Some(parting(films, frame.time_s, Who::Nobody));
        };
        if let Some(who) = differs(frame, against) {
            return Some(parting(films, frame.time_s, who));
        }
    }
    let end_s = one.frames.last()?.time_s;
    let on = other.frames.iter().find(|frame| frame.time_s > end_s + 1e-4)?;
    Some(parting(films, on.time_s, Who::Nobody))
}

/// The first thing that the man with the ball does in one film and not at the same time in the other.
fn actions(films: [Told<'_>; 2]) -> Option<Parting> {
    let [one, other] = films.map(|(film, _)| film.events.iter().filter_map(deed).collect::<Vec<_>>());
    let same = one.iter().zip(&other).take_while(|(a, b)| a.1 == b.1 && (a.0 - b.0).abs() <= LATER_S).count();
    let next = [one.get(same), other.get(same)].into_iter().flatten();
    let (time_s, Deed { by, .. }) = *next.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(parting(films, time_s, Who::Player(by)))
}

/// What a man with the ball does with it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Deed {
    by: Slot,
    action: Action,
}

/// Of a decision: a deed begins with it.
fn deed(event: &Event) -> Option<(f32, Deed)> {
    match &event.what {
        What::Decision { by, options, chosen } => {
            Some((event.time_s, Deed { by: *by, action: options.get(*chosen)?.action }))
        }
        _ => None,
    }
}

fn parting(films: [Told<'_>; 2], time_s: f32, who: Who) -> Parting {
    let did = films.map(|told| match who {
        Who::Player(player) => does(told, player, time_s),
        Who::Ball | Who::Nobody => ball_does(told, time_s),
    });
    Parting { time_s, who, did }
}

/// The last frame by a time; `None` once the film is over.
fn frame_at(film: &Film, time_s: f32) -> Option<&Frame> {
    let after = film.frames.partition_point(|frame| frame.time_s <= time_s + 1e-4);
    let over = film.frames.last()?.time_s < time_s - 1e-4;
    film.frames.get(after.checked_sub(1)?).filter(|_| !over)
}

/// What a player does at a time, in words: `holds the ball`, `runs seam-cross`, `stays (the right wing)`.
fn does((film, words): Told<'_>, player: Slot, time_s: f32) -> String {
    let Some(frame) = frame_at(film, time_s) else { return "is done: the possession is over".into() };
    if frame.holder == Some(player)
        && let Some(now) = with_the_ball((film, words), player, time_s)
    {
        return now;
    }
    if let Some(program) = program(film, player, time_s) {
        return format!(
            "is on {} ({})",
            words.program(program),
            words.place(frame.players[usize::from(player)])
        );
    }
    let at = |frame: &Frame| frame.players[usize::from(player)];
    let ahead = frame_at(film, time_s + AHEAD_S).or(film.frames.last()).map_or(at(frame), at);
    moves(words, at(frame), ahead)
}

/// What he has decided to do with the ball.
fn with_the_ball((film, words): Told<'_>, player: Slot, time_s: f32) -> Option<String> {
    let until = film.events.iter().filter(|event| event.time_s <= time_s + 1e-3);
    until.rev().find_map(|event| match &event.what {
        What::Decision { by, options, chosen } if *by == player => Some(decided(options, *chosen, words)),
        What::Catch { by, .. }
        | What::Pickup { by }
        | What::Rebound { by, .. }
        | What::Start { holder: by }
            if *by == player =>
        {
            Some(Some("holds".into()))
        }
        _ => None,
    })?
}

/// The program that a player is on.
fn program(film: &Film, player: Slot, time_s: f32) -> Option<u8> {
    let until = film.events.iter().filter(|event| event.time_s <= time_s + 1e-3);
    until.rev().find_map(|event| match event.what {
        What::ProgramStart { by, program, .. } | What::ProgramStep { by, program, .. } if by == player => {
            Some(Some(program))
        }
        What::ProgramEnd { by, .. } if by == player => Some(None),
        _ => None,
    })?
}

fn moves(words: &dyn Words, from: Vec2, to: Vec2) -> String {
    let (here, there) = (words.place(from), words.place(to));
    if from.distance(to) < STAYS_M {
        format!("stays ({here})")
    } else if here == there {
        format!("moves ({here})")
    } else {
        format!("moves from {here} to {there}")
    }
}

/// Where the ball is or goes, in words.
fn ball_does((film, words): Told<'_>, time_s: f32) -> String {
    let Some(frame) = frame_at(film, time_s) else { return "the possession is over".into() };
    match (frame.holder, frame.air) {
        (Some(by), _) => format!("{} has the ball ({})", words.player(by), words.place(frame.ball)),
        (_, Some(Air::Pass { from, to, kind, .. })) => {
            format!("{} has thrown the {} pass to {}", words.player(from), pass_kind(kind), words.player(to))
        }
        (_, Some(Air::Shot { by, .. })) => format!("{} has shot", words.player(by)),
        (_, Some(Air::Rebound { .. })) => "the ball is off the rim".into(),
        (_, Some(Air::Loose { at })) => format!("the ball is loose ({})", words.place(at)),
        (None, None) => "the ball is dead".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::film::SetupWords;

    #[test]
    fn two_films_are_one_until_they_part() {
        let question = scenarios::experiment(std::path::Path::new("routes-against-sink")).unwrap();
        let setup = |name: &str| {
            let variant = question.variants.iter().find(|variant| variant.name == name).unwrap();
            variant.setup.clone()
        };
        let setups = [setup("corner-drop"), setup("hold-wing")];
        let mut parted = 0;
        for possession in 0..12 {
            let films = setups.each_ref().map(|setup| engine::film_possession(setup, 1, possession));
            let words = [0, 1].map(|n| SetupWords::new(&setups[n], &films[n], crate::units::Units::M));
            let told: [Told<'_>; 2] = [(&films[0], &words[0]), (&films[1], &words[1])];
            let Some(first) = first(told) else { continue };
            let apart = |frame: usize| {
                let both = [&films[0].frames[frame], &films[1].frames[frame]];
                let gaps = (0..10).map(|p| both[0].players[p].distance(both[1].players[p]));
                gaps.chain([both[0].ball.distance(both[1].ball)]).fold(0.0, engine::math::max)
            };
            let before =
                films[0].frames.iter().take_while(|frame| frame.time_s < first.time_s - 1e-3).count();
            assert!((0..before).all(|frame| apart(frame) <= APART_M), "possession {possession}");
            assert_ne!(first.who, Who::Nobody);
            if let Some(ball) = ball(told) {
                assert!(ball.time_s >= first.time_s, "the ball parts before anything does");
            }
            // The same film has nothing to part from.
            assert_eq!(super::first([told[0], told[0]]), None);
            parted += 1;
        }
        assert!(parted > 8, "{parted} possessions parted");
    }
}
