//! Words for players and places, for output only.

use crate::math::Vec2;
use crate::setup::{BallPlace, Pairing, Region, Setup};
use crate::slots::Slot;

/// Nearer to the rim than this is "under the rim", m. (assumed; for words only, as all numbers here)
pub const UNDER_RIM_M: f32 = 1.3;
/// The middle of the lane begins this far in front of the rim, m. (assumed)
pub const LANE_MIDDLE_FROM_Y_M: f32 = 1.6;
/// And ends this far below the free-throw line, m. (assumed)
pub const LANE_MIDDLE_BELOW_LINE_M: f32 = 0.7;
/// Nearer than this to the middle of the floor a place is on neither side, m. (assumed)
const MIDDLE_HALF_WIDTH_M: f32 = 1.2;

/// "left" or "right" as the attack faces the rim.
fn side_word(x: f32) -> &'static str {
    if x < 0.0 { "left" } else { "right" }
}

/// What a player is called who is known by himself.
pub fn own(setup: &Setup, player: Slot) -> Option<&str> {
    let individual = setup.individuals[player].as_ref()?;
    Some(individual.name.as_str()).filter(|name| !name.is_empty())
}

/// The name of a player: his own, or else the trade's: `rover`, `left post`, `point`, `right wing`, ... `side` is +1 where the
/// rover started on the right.
pub fn player(setup: &Setup, side: f32, player: Slot) -> String {
    if let Some(name) = own(setup, player) {
        return name.to_owned();
    }
    match player.index() {
        0 => "lead guard".into(),
        1 => "off guard".into(),
        2 => "rover".into(),
        3 => format!("{} post", side_word(side)),
        4 => format!("{} post", side_word(-side)),
        _ => {
            let position = &setup.zone.positions[player.in_team()];
            match position.pairing {
                Pairing::Lone => position.name.clone(),
                Pairing::Near(_) => format!("{} {}", side_word(side), position.name),
                Pairing::Far(_) => format!("{} {}", side_word(-side), position.name),
            }
        }
    }
}

/// A place in words: `the left wing`, `the top`, `the lane`, `under the rim`.
pub fn place(setup: &Setup, at: Vec2) -> String {
    if at.len() < UNDER_RIM_M {
        return "under the rim".into();
    }
    let middle_to_y = setup.court.free_throw_y_m - LANE_MIDDLE_BELOW_LINE_M;
    if setup.court.in_lane(at) && at.y > LANE_MIDDLE_FROM_Y_M && at.y < middle_to_y {
        return "the middle of the lane".into();
    }
    let nearest = setup.zone.nearest_place(at);
    if at.x.abs() < MIDDLE_HALF_WIDTH_M {
        match nearest {
            BallPlace::Elbow => return "the free-throw line".into(),
            BallPlace::Slot | BallPlace::Top => return "the top".into(),
            BallPlace::LowPost => return "the middle of the lane".into(),
            _ => {}
        }
    }
    let word = match nearest {
        BallPlace::Top => return "the top".into(),
        BallPlace::Slot => "slot",
        BallPlace::Wing => "wing",
        BallPlace::Corner => "corner",
        BallPlace::ShortCorner => "short corner",
        BallPlace::LowPost => "low post",
        BallPlace::Elbow => "elbow",
    };
    format!("the {} {word}", side_word(at.x))
}

/// A region in words, without an article: `right corner`, `high post`.
pub const fn region(region: Region) -> &'static str {
    match region {
        Region::RightCorner => "right corner",
        Region::LeftCorner => "left corner",
        Region::RightWing => "right wing",
        Region::LeftWing => "left wing",
        Region::Top => "top and slots",
        Region::HighPost => "high post",
        Region::RightLowPost => "right low post",
        Region::LeftLowPost => "left low post",
        Region::RightShortCorner => "right short corner",
        Region::LeftShortCorner => "left short corner",
    }
}

/// The same as where somebody is: `in the right corner`, `at the top`.
pub fn in_region(of: Region) -> String {
    match of {
        Region::Top => "at the top".into(),
        Region::RightWing | Region::LeftWing => format!("on the {}", region(of)),
        Region::HighPost | Region::RightLowPost | Region::LeftLowPost => format!("at the {}", region(of)),
        _ => format!("in the {}", region(of)),
    }
}
