//! Where everyone starts, and what one position has to do from there.

use engine::math::{Vec2, vec2};
use engine::setup::{Region, Setup};
use engine::starting_places;
use maud::{Markup, html};

use super::drawing::{Picture, joined, label};
use super::floor::{Floor, LARGER, TURNED, Words, attacker, ball_of, beside, defender, marked, who_is_who};
use super::play::as_run;
use crate::marks::{self, At, gap};
use crate::places::{ATTACKERS, Regions, Way, position_words};

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
    /// He sets out on a way, mirrored or not.
    Way((&'a Way, bool)),
    /// He has the ball in a place that is named without its side, and passes.
    Passes(&'a str, [Option<usize>; 2]),
}

/// In the description of a card: everyone stands where he does as the run begins.
pub const SETS_OUT: &str = "as he sets out";

/// Whether a card of this position can show everyone as a way begins: it is his own, and the rover's side is on the right.
pub fn can_set_out(way: &Way, is_mirrored: bool, role: usize) -> bool {
    let side = if is_mirrored { -1.0 } else { 1.0 };
    way.runner == role && way.scene.is_some_and(|scene| side * scene.side > 0.0)
}

/// One position at one moment: as he sets out on what he runs, everyone and the ball where they are then if that can be drawn, or
/// else where they start; or as he passes, the defenders where they stand on average with the ball there.
pub fn card(id: &str, (setup, seen): (&Setup, &Regions), role: usize, shown: Option<OnCard<'_>>) -> Picture {
    let floor = Floor::new(&setup.court);
    let starts = starting_places(setup);
    let way = match shown {
        Some(OnCard::Way(own)) => Some(own),
        _ => None,
    };
    let passes = match shown {
        Some(OnCard::Passes(place, mates)) => Some((place, mates)),
        _ => None,
    };
    let side = way.map_or(1.0, |(_, is_mirrored)| if is_mirrored { -1.0 } else { 1.0 });
    let scene =
        way.filter(|(own, is_mirrored)| can_set_out(own, *is_mirrored, role)).and_then(|(own, _)| own.scene);
    let mut places = starts;
    if let Some(scene) = &scene {
        places = scene.players.map(|(x, y)| vec2((side * x) as f32, y as f32));
    }
    let from = passes.map(|(place, _)| middle_of(setup, place, starts[role]).unwrap_or(starts[role]));
    let means = from.and_then(|at| seen.defenders(Region::of(&setup.zone, at)));
    for (place, (x, y)) in places[5..].iter_mut().zip(means.into_iter().flatten()) {
        *place = vec2(x as f32, y as f32);
    }
    let mut all = floor.apart(places);
    let turned = |way: &Way| -> Vec<At> {
        way.led().iter().map(|(x, y)| players_at(&floor, side, (*x, *y))).collect()
    };
    let along: Vec<At> = way.map_or_else(Vec::new, |(own, _)| turned(own));
    for (_, mark) in all.iter_mut().enumerate().filter(|(player, _)| *player != role) {
        *mark = beside(*mark, &along);
    }
    // A bar stands on somebody: whom he holds last is drawn there.
    let held = way.and_then(|(own, _)| own.held.last().filter(|held| side * held.side > 0.0));
    if let (Some((own, _)), Some(held)) = (way, held) {
        let end = own.led().last().copied().unwrap_or(held.from);
        let end = players_at(&floor, side, end);
        let (dx, dy) = (side * (held.at.0 - held.from.0), held.at.1 - held.from.1);
        let far = marks::BEYOND_BAR * LARGER / libm::hypot(dx, dy).max(0.01);
        all[5 + held.position] = (end.0 + far * dx, end.1 + far * dy);
    }
    let players: [At; 5] = core::array::from_fn(|p| all[p]);
    let thrown =
        passes.map(|(place, mates)| Thrown::new(&floor, setup, (role, starts[role]), (place, mates), &all));
    let is_elsewhere = thrown.as_ref().is_some_and(|thrown| thrown.elsewhere);
    let holder = match (&scene, &passes) {
        (Some(scene), _) => scene.holder,
        (None, Some(_)) => Some(role),
        (None, None) => Some(usize::from(setup.attack.ball_starts_with)),
    };
    let ball = match (holder, &scene) {
        (Some(holder), _) => ball_of(players[holder], &all),
        (None, Some(scene)) => {
            let at = players_at(&floor, side, scene.ball);
            marked(&[at], |at| marks::ball(at[0], 1.0))
        }
        (None, None) => html! {},
    };
    let own = way.map(|(own, _)| {
        let draw = |at: &[At]| if held.is_some() { as_run(setup, own, at, side) } else { marks::cut(at) };
        marked(&from_mark(turned(own), players[role]), draw)
    });
    let over = html! {
        (joined((0..5).filter(|p| *p != role).map(|p| marked(&[players[p]], |at| marks::mate(at[0], &(p + 1).to_string())))))
        @if let Some(thrown) = &thrown { (thrown.lines()) }
        // A pass by a defender does not go over his letters; a way that ends at somebody is seen to its end.
        (joined((0..5).map(|position| defender(all[5 + position], (setup, position), 1.0))))
        (joined(own))
        (attacker(players[role], role))
        @if !is_elsewhere { (ball) }
        @if let Some(thrown) = &thrown { (thrown.words()) }
    };
    let head = format!("{} {}", role + 1, position_words(ATTACKERS[role]));
    let what = match (way, &scene, &passes) {
        (Some(_), Some(_), _) => format!("solid: his usual way; everyone and the ball {SETS_OUT}"),
        (Some(_), None, _) => "solid: his usual way; everyone where he starts".into(),
        (None, _, Some(_)) => {
            "dashed: his best passes; squares: their defenders on average with the ball there".into()
        }
        (None, _, None) => "everyone where he starts".into(),
    };
    let desc = format!("{TURNED} Filled: he; open: his team-mates; squares: their defenders; {what}.");
    // Nobody stands farther out than this, but for room to read his number.
    let to_y_m = places.iter().map(|at| f64::from(at.y)).fold(0.0, f64::max) + 1.0;
    floor.part(Words { id, head: &head, sub: "", desc: &desc, caption: String::new() }, over, to_y_m)
}

/// A place of a way in units.
fn players_at(floor: &Floor<'_>, side: f64, at: (f64, f64)) -> At {
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

/// The best passes of a position, as a card draws them.
struct Thrown {
    /// From where.
    from: At,
    /// Whether that is not where he starts: it has a mark of its own then.
    elsewhere: bool,
    /// To whom.
    to: Vec<At>,
    /// All marks, which no word may cover.
    marks: Vec<At>,
    /// Places along the lines of the court, which no word may lie on where there is room elsewhere.
    lines: Vec<At>,
}

/// A pass thrown so near to where he starts is thrown from there, m. (assumed)
const AT_START_M: f32 = 1.5;
/// Farther from a line of the court no number has to be.
const OFF_LINES: f64 = 50.0;
/// How far beside its line the number of a pass stands.
const BESIDE: f64 = 58.0;

impl Thrown {
    fn new(
        floor: &Floor<'_>,
        setup: &Setup,
        (role, start): (usize, Vec2),
        (place, mates): (&str, [Option<usize>; 2]),
        players: &[At; 10],
    ) -> Self {
        let at = middle_of(setup, place, start).filter(|at| at.distance(start) > AT_START_M);
        Self {
            from: at.map_or(players[role], |at| floor.of(at)),
            elsewhere: at.is_some(),
            to: mates.into_iter().flatten().map(|to| players[to]).collect(),
            marks: players.iter().copied().chain(at.map(|at| floor.of(at))).collect(),
            lines: floor.along_lines(),
        }
    }

    fn lines(&self) -> Markup {
        html! {
            @if self.elsewhere {
                (marked(&[self.from], |at| marks::ball(at[0], 1.0)))
            }
            (joined(self.to.iter().map(|to| marked(&[self.from, *to], |at| marks::pass(at[0], at[1])))))
        }
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
            numbers.push(label("mid on", at.0, at.1 + 18.0, ["1st", "2nd"][nth]));
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

/// The middle of a place that is named without its side: the one on the side of `near`; None where no place is called so.
fn middle_of(setup: &Setup, place: &str, near: Vec2) -> Option<Vec2> {
    let court = &setup.court;
    let steps =
        |from: f32, to: f32| (0..).map(move |nth| from + 0.25 * nth as f32).take_while(move |at| *at <= to);
    let half = court.half_width_m;
    let all = steps(-half, half).flat_map(|x| steps(court.baseline_y_m, DEEPEST_M).map(move |y| vec2(x, y)));
    let is_own = |at: &Vec2| {
        let name = engine::names::place(setup, *at).replace("left ", "").replace("right ", "");
        name == place && (at.x * near.x >= 0.0)
    };
    let own: Vec<Vec2> = all.filter(is_own).collect();
    // Of a place that reaches far out the near part counts: there they play.
    let nearest = own.iter().map(|at| at.len()).fold(f32::INFINITY, engine::math::min);
    let own: Vec<Vec2> = own.into_iter().filter(|at| at.len() < nearest + 2.5).collect();
    let count = own.len() as f32;
    let sum = own.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.x, sum.1 + at.y));
    (count > 0.0).then(|| vec2(sum.0 / count, sum.1 / count))
}

/// Nobody passes from farther out, as a card has it, m. (assumed)
const DEEPEST_M: f32 = 9.0;
