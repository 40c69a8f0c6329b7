//! The moments that decide a possession, in one picture: where everyone was, and what had been run, dribbled and passed
//! since the moment before.
//!
//! Which moments: the last shot, or what ended the possession without one; the catch that led to it and the pass before
//! that; the rebound or what the shot brought; passes caught in the lane and routes that were started; drives and other shots.
//! No more than six; of fewer than four the rest are other catches and the start.

use std::fmt::Write as _;

use engine::film::{Event, Film, What};
use engine::setup::ProgramKind;
use scenarios::shown_lines;

use super::beside::{Side, ends};
use super::court::around_cm;
use super::moments::{frame_of, last_in_hands};
use super::narrate::{Line, lines};
use super::scene::Scenes;
use super::telling::Tier;
use crate::marks::{CARD, DARK, INK, SOFT};
use crate::wording::{capital, escaped};
use crate::wrapping::{Overlong, glued, letters, lines as broken};

/// Fewest and most moments.
const FEWEST: usize = 4;
const MOST: usize = 6;
/// From this rank on a moment only fills up what there is too little of.
const FILLS: u8 = 7;
/// Two moments that lie nearer together are one, s. (assumed)
const ONE_MOMENT_S: f32 = 0.35;
/// Ways that are longer ago are not drawn, s. (assumed: more of them cannot be told apart)
const WAYS_S: f32 = 4.0;
/// Room between and around floors, cm.
const GAP: f64 = 70.0;
/// Height of letters, cm.
const SIZE: f64 = 46.0;
/// Width of a letter by its height, on average. (assumed: the broadest of the usual faces)
const WIDE: f64 = 0.58;

/// A moment of a storyboard.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// When, s.
    pub time_s: f32,
    /// Its frame.
    pub frame: usize,
    /// How much it decides: the lower, the more.
    rank: u8,
    /// What happens.
    pub text: String,
}

/// The moments that decide, in order of time.
pub fn moments(side: &Side<'_>) -> Vec<Moment> {
    let (film, setup) = (side.film, side.setup);
    let told = lines(film, &side.words());
    let decisive = film.events.iter().rev().find(|event| matches!(event.what, What::Shot { .. }));
    let until_s = decisive.map_or(f32::INFINITY, |event| event.time_s);
    let last = |is: fn(&What) -> bool| {
        film.events.iter().rfind(|event| is(&event.what) && event.time_s <= until_s).map(|event| event.time_s)
    };
    let last_catch = last(|what| matches!(what, What::Catch { .. }));
    let last_pass = last(|what| matches!(what, What::Pass { .. }));
    let rank = |event: &Event| {
        let own = |time_s: Option<f32>| time_s == Some(event.time_s);
        Some(match event.what {
            What::Shot { .. } if event.time_s == until_s => 0,
            What::Turnover { .. } | What::Foul { .. } => 1,
            What::Rebound { .. } | What::Made { .. } | What::FreeThrows { .. } => 2,
            What::Catch { .. } if own(last_catch) => 3,
            What::Pass { .. } if own(last_pass) => 4,
            What::Catch { .. } if setup.court.in_lane(event.at) => 5,
            What::ProgramStart { kind: ProgramKind::Route, .. } => 5,
            What::Shot { .. } | What::DriveStart { .. } => 6,
            What::ProgramStart { .. } | What::Catch { .. } => FILLS,
            What::Start { .. } => FILLS + 1,
            _ => return None,
        })
    };
    let mut found: Vec<Moment> =
        film.events.iter().filter_map(|event| Some(moment(film, event, rank(event)?, &told))).collect();
    found.sort_by(|a, b| a.rank.cmp(&b.rank).then(b.time_s.total_cmp(&a.time_s)));
    let mut chosen: Vec<Moment> = Vec::new();
    for moment in found {
        let wanted = chosen.len() < FEWEST || (moment.rank < FILLS && chosen.len() < MOST);
        let apart = chosen.iter().all(|other| (other.time_s - moment.time_s).abs() >= ONE_MOMENT_S);
        if wanted && apart {
            chosen.push(moment);
        }
    }
    chosen.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    chosen
}

fn moment(film: &Film, event: &Event, rank: u8, told: &[Line]) -> Moment {
    let frame = match event.what {
        // A ball is seen best in the hands that it leaves.
        What::Shot { by, .. } => last_in_hands(film, event.time_s, by),
        What::Pass { from, .. } => last_in_hands(film, event.time_s, from),
        _ => frame_of(film, event.time_s),
    };
    let tier = Tier::of(&event.what);
    let own = told.iter().filter(|line| line.time_s == event.time_s && line.tier == tier);
    let text = own.map(|line| line.text.as_str()).collect::<Vec<_>>().join("; ");
    Moment { time_s: event.time_s, frame, rank, text }
}

/// What the marks are.
const LEGEND: &str = "Numbers attack, letters defend, yellow: the ball. Each line is the way that a player came; wavy: with the ball; \
                      dashed: pass; dotted: shot; bar: screen or seal. Lines begin at the picture before, but no more than four \
                      seconds ago. As it was played: left and right as in its film.";

/// The storyboard of a film as an SVG of its own: every colour beside its mark, others for the dark on top.
pub fn storyboard(side: &Side<'_>, title: &str) -> String {
    let (film, setup) = (side.film, side.setup);
    let moments = moments(side);
    let scenes = Scenes::new(film, setup);
    let seen = film.frames.iter().flat_map(|frame| frame.players.iter().copied().chain([frame.ball]));
    let [left, top, width, height] = around_cm(&setup.court, seen).map(f64::from);
    let most = ((width / (WIDE * SIZE)) as usize).max(1) as f64;
    let told: Vec<Vec<String>> = moments
        .iter()
        .enumerate()
        .map(|(nth, moment)| {
            let text = format!("{}. At {:.1}\u{a0}s, {}", nth + 1, moment.time_s, moment.text);
            broken(&glued(&text), &[most], Overlong::Broken, letters)
        })
        .collect();
    let words = told.iter().map(Vec::len).max().unwrap_or(0) as f64 * 1.3 * SIZE + 0.6 * SIZE;
    let columns = if moments.len() > 4 { 3 } else { 2 };
    let rows = moments.len().div_ceil(columns);
    let head = 3.6 * SIZE;
    let across = GAP + columns as f64 * (width + GAP);
    let most = ((across - 2.0 * GAP) / (WIDE * SIZE)).max(1.0).floor();
    let legend = broken(&glued(LEGEND), &[most], Overlong::Broken, letters);
    let foot = head + rows as f64 * (words + height + GAP);
    let whole = (across, foot + (0.9 + 1.3 * legend.len() as f64) * SIZE);
    let mut body = String::new();
    for (nth, (moment, told)) in moments.iter().zip(&told).enumerate() {
        let x = GAP + (nth % columns) as f64 * (width + GAP);
        let y = head + (nth / columns) as f64 * (words + height + GAP);
        for (line, text) in told.iter().enumerate() {
            body += &written(text, (x, y + SIZE * (1.0 + 1.3 * line as f64)), SIZE, ("ink", INK));
        }
        let before = nth.checked_sub(1).map_or(0, |before| moments[before].frame);
        let since = scenes.frame_of(film.frames[moment.frame].time_s - WAYS_S).max(before);
        let _ = write!(
            body,
            "<svg x=\"{x:.0}\" y=\"{:.0}\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"{left:.0} {top:.0} \
             {width:.0} {height:.0}\">{}</svg>",
            y + words,
            scenes.drawn(since, moment.frame)
        );
    }
    let end = format!("{}.", capital(&ends(side)));
    let legend = legend.iter().enumerate().map(|(nth, line)| {
        written(line, (GAP, foot + (1.2 + 1.3 * nth as f64) * SIZE), SIZE, ("soft", SOFT))
    });
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0} {:.0}\" font-family=\"DejaVu Sans Condensed, \
         system-ui, sans-serif\"><title>{}</title><desc>{}</desc><style>{DARK}</style><rect width=\"{:.0}\" \
         height=\"{:.0}\" class=\"card\" fill=\"{CARD}\"/><g font-weight=\"700\">{}</g>{}{body}{}</svg>\n",
        whole.0,
        whole.1,
        escaped(title),
        escaped(&told.iter().map(|lines| lines.join(" ")).collect::<Vec<_>>().join(". ")),
        whole.0,
        whole.1,
        written(title, (GAP, 1.5 * SIZE), 1.25 * SIZE, ("ink", INK)),
        written(&end, (GAP, 2.8 * SIZE), SIZE, ("soft", SOFT)),
        legend.collect::<String>(),
    );
    // Whatever text came from outside: a picture with a control character in it is no XML.
    shown_lines(&svg).into_owned()
}

/// A line of text from its left; its class and colour.
pub fn written(text: &str, (x, y): (f64, f64), size: f64, (class, colour): (&str, &str)) -> String {
    format!(
        "<text x=\"{x:.0}\" y=\"{y:.0}\" font-size=\"{size:.0}\" class=\"{class}\" fill=\"{colour}\">{}</text>",
        escaped(text)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;

    #[test]
    fn four_to_six_moments_tell_a_possession_and_the_picture_looks_the_same_everywhere() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let mut whole = 0;
        for possession in 0..24 {
            let film = engine::film_possession(&setup, 1, possession);
            let side = Side { name: "a < b", film: &film, setup: &setup, units: Units::M };
            let moments = moments(&side);
            assert!(moments.len() <= MOST && moments.is_sorted_by(|a, b| a.time_s < b.time_s), "{moments:?}");
            whole += u32::from(moments.len() >= FEWEST);
            let shot = film.events.iter().rfind(|event| matches!(event.what, What::Shot { .. }));
            if let Some(shot) = shot {
                assert!(moments.iter().any(|moment| moment.time_s == shot.time_s), "the shot is one of them");
            }
            assert!(moments.iter().all(|moment| !moment.text.is_empty()), "{moments:?}");
            let svg = storyboard(&side, "a < b & c");
            usvg::Tree::from_str(&svg, &usvg::Options::default()).expect("a picture");
            assert!(!svg.contains("var("), "colours stand beside their marks");
            let coloured = |tag: &str| {
                svg.split(tag).skip(1).all(|rest| {
                    let own = rest.split('>').next().unwrap_or_default();
                    own.contains("fill=\"") || own.contains("stroke=\"")
                })
            };
            assert!(
                ["<path ", "<circle ", "<text ", "<rect "].into_iter().all(coloured),
                "no mark is left to a style"
            );
            // No line of the key runs over the edge, in letters as wide as they are reckoned with.
            let wide: f64 = svg
                .split("viewBox=\"0 0 ")
                .nth(1)
                .and_then(|rest| rest.split(' ').next())
                .unwrap()
                .parse()
                .unwrap();
            let soft = svg.split("class=\"soft\"").skip(1).filter_map(|rest| rest.split(['>', '<']).nth(1));
            for line in soft {
                assert!(GAP + WIDE * SIZE * line.chars().count() as f64 <= wide, "{line}");
            }
            assert_eq!(svg, storyboard(&side, "a < b & c"));
        }
        assert!(whole >= 20, "{whole} of 24 have four moments at least");
    }
}
