//! Where everyone starts, and what one position has to do from there.

use engine::math::vec2;
use engine::setup::Setup;
use engine::starting_places;
use maud::{Markup, html};

use super::drawing::{Picture, joined, label};
use super::floor::{
    Floor, LARGER, TURNED, Words, all_beside, attacker, ball_of, defender, marked, who_is_who,
};
use super::labels::{self, Labels, covered};
use super::later::Later;
use super::play::as_run;
use crate::marks::{self, At, gap};
use crate::places::{ATTACKERS, Moment, Scene, Way, position_words};
use crate::wording::ordinal;

/// The ten starting places.
pub fn start((id, variant): (&str, &str), setup: &Setup) -> Picture {
    let floor = Floor::holding(&setup.court, starting_places(setup));
    let players = floor.apart(starting_places(setup));
    let ball = players[usize::from(setup.attack.ball_starts_with)];
    let over = html! {
        (joined((5..10).map(|p| defender(players[p], (setup, p - 5), 1.0))))
        (joined((0..5).map(|p| attacker(players[p], p))))
        (ball_of(ball, &players))
    };
    let caption = format!(
        "The ball starts with the {}.",
        position_words(ATTACKERS[usize::from(setup.attack.ball_starts_with)])
    );
    let names = Words { id, head: variant, sub: "where everyone starts", desc: TURNED, caption };
    floor.picture(names, html! {}, over, who_is_who(&floor, setup, &[]))
}

/// The one moment that a card shows.
#[derive(Clone, Copy, Debug)]
pub enum OnCard<'a> {
    /// He sets out on a way, or screens or seals at its end; mirrored or not.
    Way((&'a Way, bool)),
    /// He passes to these, the better one first, everyone where he is in a typical such moment.
    Passes(&'a Scene, [Option<usize>; 2]),
    /// He sets off a run by his pass: whose (a slot), and to whom.
    SetsOff(&'a Scene, usize, usize),
}

/// In the description of a card: everyone stands where he does as the run begins.
pub const SETS_OUT: &str = "as he sets out";
/// The same, as its runner has his body on the first whom he screens or seals: `as he seals, 1.5 s after he sets out`.
pub const SCREENS: &str = "as he screens, ";
/// See [`SCREENS`].
pub const SEALS: &str = "as he seals, ";
/// See [`SCREENS`].
pub const AFTER: &str = " s after he sets out";
/// The same as his pass to another starts a run: `as he starts the run of 3`.
pub const STARTS: &str = "as he starts the run of ";
/// The same as he passes.
pub const PASSES: &str = "as he passes";
/// After these: that a pass flies.
pub const ON_ITS_WAY: &str = "; dashed: the pass on its way";
/// And where the ball is caught later.
pub const LATER: &str = "; smaller balls: where it is later";

/// Whether a card of this position can show everyone as a way begins: it is his own, and the rover's side is on the right.
pub fn can_set_out(way: &Way, is_mirrored: bool, role: usize) -> bool {
    let side = if is_mirrored { -1.0 } else { 1.0 };
    way.runner == role && way.scene.as_ref().is_some_and(|scene| side * scene.side > 0.0)
}

/// One position at one moment: as he sets out on what he runs, or holds whom he screens or seals, or passes: everyone and the ball
/// where they are then if that can be drawn, or else where they start.
pub fn card(id: &str, setup: &Setup, role: usize, shown: Option<OnCard<'_>>) -> Picture {
    let floor = Floor::new(&setup.court);
    let way = match shown {
        Some(OnCard::Way(own)) => Some(own),
        _ => None,
    };
    let (passes, mates) = match shown {
        Some(OnCard::Passes(scene, mates)) => (Some(scene), mates),
        Some(OnCard::SetsOff(scene, _, to)) => (Some(scene), [Some(to), None]),
        _ => (None, [None; 2]),
    };
    let side = way.map_or(1.0, |(_, is_mirrored)| if is_mirrored { -1.0 } else { 1.0 });
    let scene = passes.or(way
        .filter(|(own, is_mirrored)| can_set_out(own, *is_mirrored, role))
        .and_then(|(own, _)| own.scene.as_ref()));
    let places = match scene {
        Some(scene) => scene.players.map(|(x, y)| vec2((side * x) as f32, y as f32)),
        None => starting_places(setup),
    };
    let mut all = floor.apart(places);
    let turned = |way: &Way| -> Vec<At> {
        way.led().iter().map(|(x, y)| players_at(&floor, side, (*x, *y))).collect()
    };
    let along: Vec<At> = way.map_or_else(Vec::new, |(own, _)| turned(own));
    let mut clear_of = along.clone();
    let mut stay = vec![role];
    let holds = scene.is_some_and(|scene| [Moment::Screens, Moment::Seals].contains(&scene.moment));
    // A bar stands on somebody: whom he holds is drawn there.
    let held = way.and_then(|(own, _)| own.held.as_ref().filter(|held| side * held.side > 0.0));
    let held = held.filter(|_| holds || scene.is_none());
    if let (Some((own, _)), Some(held)) = (way, held) {
        let end = own.led().last().copied().unwrap_or(held.from);
        let end = if holds { all[role] } else { players_at(&floor, side, end) };
        let (dx, dy) = (side * (held.at.0 - held.from.0), held.at.1 - held.from.1);
        let far = marks::BEYOND_BAR * LARGER / libm::hypot(dx, dy).max(0.01);
        let held = 5 + held.position;
        all[held] = (end.0 + far * dx, end.1 + far * dy);
        // Nobody else stands under the bar, or on whom it holds.
        clear_of.extend(labels::along([end, all[held]]));
        stay.push(held);
    }
    all_beside(&mut all, &clear_of, &stay, floor.frame());
    let players: [At; 5] = core::array::from_fn(|p| all[p]);
    let thrown = Thrown {
        from: players[role],
        to: mates.into_iter().flatten().map(|to| players[to]).collect(),
        marks: all.to_vec(),
        lines: floor.along_lines(),
    };
    let holder = scene.map_or(Some(usize::from(setup.attack.ball_starts_with)), |scene| scene.holder);
    let ball = match (holder, scene) {
        (Some(holder), _) => ball_of(players[holder], &all),
        (None, Some(scene)) => {
            let at = players_at(&floor, side, scene.ball);
            marked(&[at], |at| marks::ball(at[0], 1.0))
        }
        (None, None) => html! {},
    };
    let own = way.map(|(own, _)| {
        let draw = |at: &[At]| if held.is_some() { as_run(setup, own, at, side) } else { marks::cut(at) };
        let along = turned(own);
        let along = if holds { to_mark(along, players[role]) } else { from_mark(along, players[role]) };
        marked(&along, draw)
    });
    let later = way.zip(scene).map(|((own, _), scene)| Later::new(&floor, scene, (own, side), &all));
    let later = later.unwrap_or_default();
    // Nobody stands farther out than this, but for room to read his number, and words under the marks.
    let lowest = all.iter().map(|at| at.1).fold(floor.at(0.0, 0.0).1, f64::max);
    let to_y_m = (lowest - floor.at(0.0, 0.0).1) / 100.0 + 1.0;
    let to_y_m = if later.is_empty() { to_y_m } else { to_y_m + 0.8 };
    let mut labels = Labels::new((floor.width(), floor.at(0.0, to_y_m).1));
    let later_balls =
        later.drawn(&mut labels, &[&along[..], &covered(&all)[..], &later.along()[..]].concat());
    let over = html! {
        (joined((0..5).filter(|p| *p != role).map(|p| marked(&[players[p]], |at| marks::mate(at[0], &(p + 1).to_string())))))
        (thrown.lines())
        // A pass by a defender does not go over his letters; a way that ends at somebody is seen to its end.
        (joined((0..5).map(|position| defender(all[5 + position], (setup, position), 1.0))))
        (joined(own))
        (attacker(players[role], role))
        (ball)
        (thrown.words())
        (later_balls)
    };
    let head = format!("{} {}", role + 1, position_words(ATTACKERS[role]));
    let solid = if way.is_some() { "solid: his usual way; " } else { "" };
    let dashed = match shown {
        Some(OnCard::Passes(..)) => "dashed: his best passes; ",
        Some(OnCard::SetsOff(..)) => "dashed: his pass; ",
        _ => "",
    };
    let when = match (shown, scene) {
        (Some(OnCard::SetsOff(_, runner, _)), _) => format!("everyone and the ball {STARTS}{}", runner + 1),
        (_, Some(scene)) => format!("everyone and the ball {}", when(scene)),
        (_, None) => "everyone where he starts".into(),
    };
    let on_its_way = if later.is_thrown() { ON_ITS_WAY } else { "" };
    let later = if later.is_empty() { "" } else { LATER };
    let desc = format!(
        "{TURNED} Filled: he; outlined: his team-mates; squares: their defenders; {solid}{dashed}{when}{on_its_way}{later}."
    );
    floor.part(Words { id, head: &head, sub: "", desc: &desc, caption: String::new() }, over, to_y_m)
}

/// Of which moment a scene is, in words.
fn when(scene: &Scene) -> String {
    let held = |words: &str| format!("{words}{:.1}{AFTER}", scene.time_s);
    match scene.moment {
        Moment::Passes => PASSES.into(),
        Moment::SetsOut => SETS_OUT.into(),
        Moment::Screens => held(SCREENS),
        Moment::Seals => held(SEALS),
    }
}

/// A place of a way in units.
pub(super) fn players_at(floor: &Floor<'_>, side: f64, at: (f64, f64)) -> At {
    floor.at(side * at.0, at.1)
}

/// A way that begins at his mark, wherever that is drawn: its beginning is moved there, what comes later less and less, so
/// that it has no kink that nobody ran.
fn from_mark(mut places: Vec<At>, mark: At) -> Vec<At> {
    let Some(&first) = places.first() else { return places };
    let (dx, dy) = (mark.0 - first.0, mark.1 - first.1);
    let mut come = vec![0.0];
    for pair in places.windows(2) {
        come.push(come[come.len() - 1] + gap(pair[0], pair[1]));
    }
    let whole = come[come.len() - 1].max(1.0);
    for (at, come) in places.iter_mut().zip(come) {
        let kept = (1.0 - 2.0 * come / whole).max(0.0);
        *at = (at.0 + kept * dx, at.1 + kept * dy);
    }
    places
}

/// The same for one that ends at his mark; what is not seen beside that is none.
fn to_mark(mut places: Vec<At>, mark: At) -> Vec<At> {
    places.reverse();
    let mut places = from_mark(places, mark);
    places.reverse();
    let is_seen = places.iter().any(|at| gap(*at, mark) > 2.5 * LARGER * marks::DISC);
    if is_seen { places } else { vec![mark] }
}

/// The best passes of a position, as a card draws them.
struct Thrown {
    /// From where.
    from: At,
    /// To whom.
    to: Vec<At>,
    /// All marks, which no word may cover.
    marks: Vec<At>,
    /// Places along the lines of the court, which no word may lie on where there is room elsewhere.
    lines: Vec<At>,
}

/// Farther from a line of the court no number has to be.
const OFF_LINES: f64 = 50.0;
/// How far beside its line the number of a pass stands.
const BESIDE: f64 = 58.0;

impl Thrown {
    fn lines(&self) -> Markup {
        joined(self.to.iter().map(|to| marked(&[self.from, *to], |at| marks::pass(at[0], at[1]))))
    }

    /// Their order, beside the lines; one alone has none.
    fn words(&self) -> Markup {
        if self.to.len() < 2 {
            return html! {};
        }
        let mut taken: Vec<At> = Vec::new();
        let mut numbers = Vec::new();
        for (nth, to) in self.to.iter().enumerate() {
            let at = self.beside(*to, &taken);
            taken.push(at);
            numbers.push(label("mid on", at.0, at.1 + 18.0, &ordinal(nth)));
        }
        joined(numbers)
    }

    /// A place beside the line to a team-mate: clear of the marks, the other lines and the other numbers.
    fn beside(&self, to: At, taken: &[At]) -> At {
        let (dx, dy) = (to.0 - self.from.0, to.1 - self.from.1);
        let length = gap(self.from, to).max(1.0);
        let spot = |share: f64, side: f64| {
            let off = side * (BESIDE + 14.0 * (dy / length).abs()) / length;
            (self.from.0 + share * dx - off * dy, self.from.1 + share * dy + off * dx)
        };
        let room = |at: At| {
            let others = self.to.iter().filter(|other| **other != to);
            let along = others.flat_map(|other| {
                (1..10).map(move |step| {
                    let share = f64::from(step) / 10.0;
                    (
                        self.from.0 + share * (other.0 - self.from.0),
                        self.from.1 + share * (other.1 - self.from.1),
                    )
                })
            });
            let marks = self.marks.iter().map(|mark| gap(at, *mark) - 30.0 * LARGER);
            let clear = along
                .map(|place| gap(at, place))
                .chain(marks)
                .chain(taken.iter().map(|other| gap(at, *other)))
                .fold(110.0, f64::min);
            let court = self.lines.iter().map(|place| gap(at, *place)).fold(OFF_LINES, f64::min);
            clear + court
        };
        let spots =
            [0.5, 0.42, 0.58, 0.34, 0.66].into_iter().flat_map(|share| [spot(share, 1.0), spot(share, -1.0)]);
        spots
            .fold(None, |best: Option<At>, at| match best {
                Some(own) if room(own) >= room(at) => Some(own),
                _ => Some(at),
            })
            .unwrap_or(to)
    }
}
