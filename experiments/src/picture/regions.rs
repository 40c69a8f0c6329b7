//! What happens in each region that a coach names: how often, and what one is worth, darker for more; and how often somebody
//! is free with the ball there.

use engine::math::vec2;
use engine::names;
use engine::setup::{BallPlace, Court, Region, Setup, Zone};
use maud::{Markup, html};

use super::drawing::{Picture, joined, label, n};
use super::floor::{Floor, TURNED, Words};
use super::scale::{Classes, raw};
use crate::marks::{At, gap};
use crate::places::{Counted, Regions, region_key};
use crate::wording::{listed, per_twenty};

/// Of fewer than so many no worth is told: it would be luck.
const LEAST: i64 = 30;
/// What is worth the points of its whole possession.
const PAINT: &str = "paint_touch";
/// Which side is which, in keys.
const ROVERS_SIDE: &str = "on the right: the side on which the rover started";
/// What of the lane is where, in keys.
const LANE: &str = "low posts: with the rim and the middle of the lane";
/// A share that is smaller is not written, nor is a place told where the ball is for less of the time.
const LEAST_SHARE: f64 = 0.005;
/// How far across a border another region is looked for, m.
const ACROSS_M: f64 = 0.01;

/// The floor cut into the places that are nearest to each ball place, on either side: the ball place, where that is, and its area.
pub(super) fn cells(zone: &Zone, court: &Court) -> Vec<(BallPlace, At, Vec<At>)> {
    let places = BallPlace::ALL.iter().zip(&zone.ball_places).flat_map(|(place, at)| {
        let (x, y) = (f64::from(at.x), f64::from(at.y));
        let sides = if x == 0.0 { vec![(x, y)] } else { vec![(x, y), (-x, y)] };
        sides.into_iter().map(|at| (*place, at))
    });
    let places: Vec<(BallPlace, At)> = places.collect();
    let half = f64::from(court.half_width_m);
    let (base, mid) = (f64::from(court.baseline_y_m), f64::from(court.midcourt_y_m));
    let whole = vec![(-half, base), (half, base), (half, mid), (-half, mid)];
    let own = |&(place, at): &(BallPlace, At)| {
        let others = places.iter().filter(|other| other.1 != at);
        (place, at, others.fold(whole.clone(), |area, other| nearer(&area, at, other.1)))
    };
    places.iter().map(own).filter(|(_, _, area)| area.len() > 2).collect()
}

/// The same, each with its region.
fn cut(zone: &Zone, court: &Court) -> Vec<(Region, Vec<At>)> {
    let region = |at: At| Region::of(zone, vec2(at.0 as f32, at.1 as f32));
    cells(zone, court).into_iter().map(|(_, at, area)| (region(at), area)).collect()
}

/// What of an area lies nearer to one place than to another.
fn nearer(area: &[At], to: At, than: At) -> Vec<At> {
    let off = |a: At, b: At| (a.0 - b.0).powi(2) + (a.1 - b.1).powi(2);
    let beyond = |at: At| off(at, to) - off(at, than);
    let mut kept = Vec::new();
    for (nth, &from) in area.iter().enumerate() {
        let next = area[(nth + 1) % area.len()];
        let (a, b) = (beyond(from), beyond(next));
        if a <= 0.0 {
            kept.push(from);
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            let share = a / (a - b);
            kept.push((from.0 + share * (next.0 - from.0), from.1 + share * (next.1 - from.1)));
        }
    }
    kept
}

/// Twice the area, and its middle.
pub(super) fn middle(area: &[At]) -> (f64, At) {
    let (mut twice, mut x, mut y) = (0.0, 0.0, 0.0);
    for (nth, a) in area.iter().enumerate() {
        let b = area[(nth + 1) % area.len()];
        let cross = a.0 * b.1 - b.0 * a.1;
        twice += cross;
        x += (a.0 + b.0) * cross;
        y += (a.1 + b.1) * cross;
    }
    (twice.abs(), (x / (3.0 * twice), y / (3.0 * twice)))
}

/// The middle of each region of a cut floor.
fn middles(areas: &[(Region, Vec<At>)], region: Region) -> At {
    let own: Vec<(f64, At)> =
        areas.iter().filter(|(of, _)| *of == region).map(|(_, area)| middle(area)).collect();
    let whole: f64 = own.iter().map(|(size, _)| size).sum();
    let sum = |pick: fn(&At) -> f64| own.iter().map(|(size, at)| size * pick(at)).sum::<f64>() / whole;
    (sum(|at| at.0), sum(|at| at.1))
}

/// Where the figures of regions stand: clear of the lines of the court, and near the middle of their region.
struct Spots<'a> {
    floor: &'a Floor<'a>,
    zone: &'a Zone,
    areas: &'a [(Region, Vec<At>)],
    lines: Vec<At>,
}

/// How far up and down from its place a figure reaches, with some air.
const REACH: (f64, f64) = (56.0, 68.0);
/// Half of the width of its letters, each.
const LETTER: f64 = 21.0;
/// The same of the smaller ones.
const SMALL_LETTER: f64 = 17.0;
/// Farther from a line no figure has to be.
const CLEAR: f64 = 24.0;
/// Steps in which places for a figure are tried, m.
const STEP_M: f64 = 0.125;

impl<'a> Spots<'a> {
    fn new(floor: &'a Floor<'a>, setup: &'a Setup, areas: &'a [(Region, Vec<At>)]) -> Self {
        Self { floor, zone: &setup.zone, areas, lines: floor.along_lines() }
    }

    /// In units, for a figure of so many letters. A region that has no room for it is left as little as can be, the floor never.
    fn of(&self, region: Region, letters: usize) -> At {
        let (middle, wide) = (middles(self.areas, region), LETTER * letters as f64 + 8.0);
        let reach = 2.0;
        let steps = (2.0 * reach / STEP_M) as i32 + 1;
        let step = |nth: i32| STEP_M * f64::from(nth) - reach;
        let all = (0..steps).flat_map(|across| {
            (0..steps).map(move |along| (middle.0 + step(across), middle.1 + step(along)))
        });
        let off = |at: &At| gap(*at, middle);
        let mut all: Vec<(f64, At)> = all.map(|at| (20.0 * off(&at), at)).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        // The nearest first: what is as far off as the best is dear needs no look at the lines, which are long.
        let mut best = (f64::INFINITY, middle);
        for (far, at) in all {
            if far >= best.0 {
                break;
            }
            let outside = far + 200.0 * self.outside(region, at, wide) as f64;
            if outside < best.0 && corners(at, wide).iter().all(|at| self.floor.shows(at.0, at.1)) {
                let cost = outside + 4.0 * (CLEAR - self.room(at, wide)).max(0.0);
                if cost < best.0 {
                    best = (cost, at);
                }
            }
        }
        self.floor.at(best.1.0, best.1.1)
    }

    /// How many of a figure's corners lie in another region.
    fn outside(&self, region: Region, at: At, wide: f64) -> usize {
        let own = |at: &At| Region::of(self.zone, vec2(at.0 as f32, at.1 as f32)) == region;
        corners(at, wide).iter().filter(|at| !own(at)).count()
    }

    /// How far the lines of the court lie from a figure there, in units.
    fn room(&self, (x, y): At, wide: f64) -> f64 {
        let (x, y) = self.floor.at(x, y);
        let gap = |(lx, ly): &At| {
            let across = ((lx - x).abs() - wide).max(0.0);
            let along = (y - REACH.0 - ly).max(ly - y - REACH.1).max(0.0);
            across * across + along * along
        };
        self.lines.iter().map(gap).fold(f64::INFINITY, f64::min).sqrt()
    }
}

/// The corners of a figure at a place, m, and the middles of its upper and lower edge.
fn corners((x, y): At, wide: f64) -> [At; 6] {
    let (wide, up, down) = (wide / 100.0, REACH.0 / 100.0, REACH.1 / 100.0);
    [(-wide, -up), (0.0, -up), (wide, -up), (-wide, down), (0.0, down), (wide, down)]
        .map(|(dx, dy)| (x + dx, y + dy))
}

/// The regions in their colours, and the borders between them.
fn drawn(
    floor: &Floor<'_>,
    setup: &Setup,
    areas: &[(Region, Vec<At>)],
    class: impl Fn(Region) -> Option<&'static str>,
) -> Markup {
    let points = |area: &[At]| {
        let at = |place: &At| {
            let (x, y) = floor.at(place.0, place.1);
            format!("{} {}", n(x), n(y))
        };
        area.iter().map(at).collect::<Vec<_>>().join(" ")
    };
    let filled = areas.iter().filter_map(|(region, area)| {
        Some(html! { polygon class=(format!("{} area", class(*region)?)) points=(points(area)) {} })
    });
    let mut borders = String::new();
    for (region, area) in areas {
        for (nth, &a) in area.iter().enumerate() {
            let b = area[(nth + 1) % area.len()];
            let long = gap(a, b).max(1e-9);
            let across = |sign: f64| {
                let (x, y) = ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0);
                let (dx, dy) = (sign * (b.1 - a.1) / long, -sign * (b.0 - a.0) / long);
                let at = (x + ACROSS_M * dx, y + ACROSS_M * dy);
                (floor.shows(at.0, at.1)).then(|| Region::of(&setup.zone, vec2(at.0 as f32, at.1 as f32)))
            };
            // Each border is met from both sides and drawn from one.
            let other = [across(1.0), across(-1.0)].into_iter().flatten().find(|other| other != region);
            if other.is_some_and(|other| other > *region) {
                let ((ax, ay), (bx, by)) = (floor.at(a.0, a.1), floor.at(b.0, b.1));
                borders.push_str(&format!("M{} {}L{} {}", n(ax), n(ay), n(bx), n(by)));
            }
        }
    }
    html! { (joined(filled)) path class="border" d=(borders) {} }
}

/// A measure of one variant by region: `what` it is. `top` is the most that any region of any variant has in 20 possessions,
/// as [`crate::places::top`] says.
pub fn regions(
    (id, variant, what): (&str, &str, &str),
    setup: &Setup,
    counted: &Counted,
    possessions: u64,
    top: f64,
) -> Picture {
    let floor = Floor::new(&setup.court);
    let areas = cut(&setup.zone, &setup.court);
    let classes = Classes::ladder(top);
    let in_twenty = |count: i64| per_twenty(count, possessions);
    let count = |region: Region| counted.counts[region as usize];
    let is_told = |region: Region| counted.share(region) >= LEAST_SHARE;
    // The shade is that of the number as it is told: two that read alike are shaded alike.
    let shade = |count: i64| classes.name(often(in_twenty(count)).parse().unwrap_or_default());
    let class = |region: Region| is_told(region).then(|| shade(count(region)));
    let spots = Spots::new(&floor, setup, &areas);
    let words = Region::ALL.into_iter().map(|region| {
        let on = lettered(class(region));
        let worth = told(counted, region).map(|worth| format!("{worth:.2}"));
        let often = often(in_twenty(count(region)));
        let at = spots.of(region, often.len());
        let (x, y) = at;
        let plate = plate(at, class(region), (often.len(), worth.as_ref().map_or(0, String::len)));
        let up = if worth.is_some() { 0.0 } else { 24.0 };
        html! {
            g data-region=(region_key(region)) data-count=(count(region)) {
                @if is_told(region) {
                    (plate)
                    (label(&format!("{on} mid big"), x, y + up, &often))
                    @if let Some(worth) = worth { (label(&format!("{on} mid"), x, y + 60.0, &worth)) }
                }
            }
        }
    });
    let keys: &[&str] = match counted.worth(counted.most().first().copied().unwrap_or(Region::Top)) {
        Some(_) => &[
            "large, and shade: how many in 20 possessions, by all five",
            if counted.measure == PAINT {
                "below: points of a possession with one on average"
            } else {
                "below: points of one on average"
            },
            "(none below: too few to tell); no number: next to none",
            LANE,
            ROVERS_SIDE,
        ],
        None => &["how many in 20 possessions; no number: next to none", LANE, ROVERS_SIDE],
    };
    let legend = classes.legend(floor.width(), floor.bottom(), keys);
    let sub = format!("{what}, {:.1} in 20 possessions", in_twenty(counted.total()));
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: TURNED, caption: finding(counted) },
        drawn(&floor, setup, &areas, class),
        joined(words),
        legend,
    )
}

/// A piece of the region's own shade under a figure of so many letters, and the smaller one below it, so that no line of the court
/// runs through them.
fn plate((x, y): At, class: Option<&str>, (large, small): (usize, usize)) -> Markup {
    let half = (LETTER * large as f64).max(SMALL_LETTER * small as f64) + 4.0;
    let (top, bottom) = if small > 0 { (y - 54.0, y + 66.0) } else { (y - 30.0, y + 30.0) };
    html! {
        @if let Some(class) = class {
            rect class=(class) x=(n(x - half)) y=(n(top)) width=(n(2.0 * half)) height=(n(bottom - top)) rx="14" {}
        }
    }
}

/// How letters stand on a colour: with a rim of paper, or in the colour of paper on the strongest two.
fn lettered(class: Option<&str>) -> &'static str {
    if matches!(class, Some("h4" | "h5")) { "inv" } else { "on" }
}

/// What one of a region is worth, where there are enough of them.
fn told(counted: &Counted, region: Region) -> Option<f64> {
    counted.worth(region).filter(|_| counted.counts[region as usize] >= LEAST)
}

/// So many in 20 possessions: whole ones, tenths where there are few, hundredths where it would be nothing.
pub(crate) fn often(count: f64) -> String {
    let decimals = match count {
        count if count >= 9.95 => 0,
        count if count >= 0.095 => 1,
        _ => 2,
    };
    format!("{count:.decimals$}")
}

/// Whole percents, and tenths where there are few.
fn percent(share: f64) -> String {
    let tenths = usize::from(share < 0.095);
    format!("{:.tenths$} %", 100.0 * share)
}

/// Where most of it is, and what that is worth.
fn finding(counted: &Counted) -> String {
    let most: Vec<String> = counted
        .most()
        .into_iter()
        .take(2)
        .map(|region| {
            let worth =
                told(counted, region).map_or_else(String::new, |worth| format!(", {worth:.2} points each"));
            format!("the {} ({} of all{worth})", names::region(region), percent(counted.share(region)))
        })
        .collect();
    if most.is_empty() { "There were none.".into() } else { format!("Mostly from {}.", listed(&most)) }
}

/// How much of the time somebody is free, by the ball's region; `top` is the largest such share of all variants shown.
pub fn free((id, variant): (&str, &str), setup: &Setup, own: &Regions, top: f64) -> Picture {
    let floor = Floor::new(&setup.court);
    let areas = cut(&setup.zone, &setup.court);
    let classes = Classes::ladder(100.0 * top);
    let shown = |region: Region| own.free(region).filter(|_| own.time(region) >= LEAST_SHARE);
    let class = |region: Region| shown(region).map(|free| classes.name(100.0 * free));
    let spots = Spots::new(&floor, setup, &areas);
    let words = Region::ALL.into_iter().filter_map(|region| {
        let free = shown(region)?;
        // The key says that they are percents.
        let told = percent(free).trim_end_matches(" %").to_owned();
        let (x, y) = spots.of(region, told.len());
        let plate = plate((x, y), class(region), (told.len(), 0));
        Some(html! {
            g data-region=(region_key(region)) data-free=(raw(free)) {
                (plate)
                (label(&format!("{} mid big", lettered(class(region))), x, y + 24.0, &told))
            }
        })
    });
    let legend = classes.legend(
        floor.width(),
        floor.bottom(),
        &[
            "% of the time with the ball there in which somebody",
            "is free; empty: the ball is seldom there",
            ROVERS_SIDE,
        ],
    );
    let most = Region::ALL.into_iter().filter(|region| shown(*region).is_some());
    let most = most.max_by(|a, b| shown(*a).unwrap_or_default().total_cmp(&shown(*b).unwrap_or_default()));
    let caption = most.map_or_else(
        || "The ball was nowhere for long enough.".into(),
        |region| {
            format!(
                "Most with the ball {}: somebody is free for {} of that time. The ball is there for {} of all.",
                names::in_region(region),
                percent(shown(region).unwrap_or_default()),
                percent(own.time(region))
            )
        },
    );
    let words_of = Words { id, head: variant, sub: "how often somebody is free", desc: TURNED, caption };
    floor.picture(words_of, drawn(&floor, setup, &areas, class), joined(words), legend)
}

/// The largest share of the time in which somebody is free, of all regions in which the ball is for long enough.
pub fn most_free<'a>(all: impl IntoIterator<Item = &'a Regions>) -> f64 {
    let of = |own: &'a Regions| {
        let shown = Region::ALL.into_iter().filter(|region| own.time(*region) >= LEAST_SHARE);
        shown.filter_map(|region| own.free(region)).fold(0.0, f64::max)
    };
    all.into_iter().map(of).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_floor_is_cut_without_a_gap_and_each_part_is_its_region() {
        for name in ["plain-122", "plain-32"] {
            let setup = scenarios::scenario(std::path::Path::new(name)).unwrap().setup;
            let areas = cut(&setup.zone, &setup.court);
            let whole: f64 = areas.iter().map(|(_, area)| middle(area).0 / 2.0).sum();
            let court = &setup.court;
            let floor = f64::from(2.0 * court.half_width_m * (court.midcourt_y_m - court.baseline_y_m));
            assert!((whole - floor).abs() < 1e-3, "{whole} of {floor}");
            for (region, area) in &areas {
                let (x, y) = middle(area).1;
                assert_eq!(Region::of(&setup.zone, vec2(x as f32, y as f32)), *region);
            }
            assert!(Region::ALL.iter().all(|region| areas.iter().any(|(of, _)| of == region)));
        }
    }
}
