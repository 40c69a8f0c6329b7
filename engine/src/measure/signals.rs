//! Counting what happened in the step, from its signals.

use super::Seen;
use crate::law::conduct::driving::POST_MOVE_M;
use crate::law::counting::{
    AFTER_DEAD_BALL, AFTER_LIVE_LOSS, CORNER_BELOW_Y_M, CORNER_BESIDE_LANE_M, RIM_SHOT_WITHIN_M,
    reversal_side,
};
use crate::law::shot::{
    FREE_M, GOOD_LOOK_POINTS, GOOD_POINTS, IN_RANGE_POINTS, OPEN_M, WIDE_OPEN_M, make_chance, worth,
};
use crate::math::Vec2;
use crate::measures::Measure as M;
use crate::record::TurnoverKind;
use crate::setup::{PassKind, ProgramKind};
use crate::slots::Slot;
use crate::state::{Glass, PassClass, Plans, Signal, Tally};

/// Counts one signal.
pub fn count(seen: &Seen<'_>, plans: &Plans, at: Vec2, signal: Signal, tally: &mut Tally) {
    match signal {
        Signal::Pass { class, kind, .. } => {
            tally.add(M::Passes, 1);
            let thrown = match class {
                PassClass::Swing => Some(M::SwingPasses),
                PassClass::Skip => Some(M::SkipPasses),
                PassClass::HighPost => Some(M::HighPostPasses),
                PassClass::LowPost => Some(M::LowPostPasses),
                PassClass::Other => None,
            };
            if let Some(m) = thrown {
                tally.add(m, 1);
            }
            if kind == PassKind::Lob {
                tally.add(M::Lobs, 1);
                tally.lob = true;
            } else {
                tally.lob = false;
            }
        }
        Signal::Catch { by, class, .. } => caught(seen, by, at, class, tally),
        Signal::Tip { .. } => tally.add(M::PassesTipped, 1),
        Signal::Pickup { by } => tally.live_loss = by.defends(),
        Signal::Fake { bitten: 0, .. } => tally.add(M::Fakes, 1),
        Signal::Fake { .. } => tally.add(M::FakesBitten, 1),
        Signal::DriveStart { .. } => {
            tally.add(M::Drives, 1);
            // A post move is a part of the shot: it takes no assist away.
            tally.drove |= at.len() > POST_MOVE_M;
        }
        Signal::Shot { by, metres, space_m, chance, three } => {
            let shot = Shot { by, at, metres, space_m, chance, three };
            shoot(seen, &shot, tally);
        }
        Signal::Missed { .. } => to_glass(plans, tally),
        Signal::Made { points, .. } => {
            to_glass(plans, tally);
            tally.last_made = true;
            tally.points += points;
            tally.add(M::ShotsMade, 1);
            if points == 3 {
                tally.add(M::ThreesMade, 1);
                if tally.space_m >= WIDE_OPEN_M {
                    tally.add(M::ThreesWideOpenMade, 1);
                } else if tally.space_m < OPEN_M {
                    tally.add(M::ThreesContestedMade, 1);
                }
            }
            if seen.progress.passer.is_some() && !tally.drove {
                tally.add(M::Assists, 1);
            }
        }
        Signal::Rebound { offensive, .. } => {
            tally.add(M::Rebounds, 1);
            tally.add(M::OffensiveRebounds, i64::from(offensive));
        }
        Signal::FreeThrows { made, of, expected, shot_points, .. } => {
            tally.fouled_points = shot_points;
            tally.add(M::FreeThrowAttempts, i64::from(of));
            tally.add(M::FreeThrowsMade, i64::from(made));
            tally.points += made;
            tally.expected += expected;
        }
        Signal::Turnover { kind, .. } => turnover(kind, tally),
        Signal::Foul { offensive: false, shooting, .. } => {
            tally.add(if shooting { M::ShootingFouls } else { M::CommonFouls }, 1);
        }
        _ => {}
    }
}

fn caught(seen: &Seen<'_>, by: Slot, at: Vec2, class: Option<PassClass>, tally: &mut Tally) {
    tally.add(M::Catches, 1);
    tally.drove = false;
    let (m, swing) = match class {
        Some(PassClass::Swing) => (Some(M::SwingPassesCaught), true),
        Some(PassClass::Skip) => (Some(M::SkipPassesCaught), false),
        Some(PassClass::HighPost) => (Some(M::HighPostPassesCaught), false),
        Some(PassClass::LowPost) => (Some(M::LowPostPassesCaught), false),
        _ => (None, false),
    };
    if let Some(m) = m {
        tally.add(m, 1);
    }
    if class.is_some() && tally.lob {
        tally.add(M::LobsCaught, 1);
    }
    // A reversal: from one side to the other by a swing that a guard threw or caught.
    let side = reversal_side(at.x);
    if side != 0.0 {
        let guards = by.is_guard() || seen.progress.passer.is_some_and(Slot::is_guard);
        if tally.reversal_from * side < 0.0 && swing && guards {
            tally.add(M::Reversals, 1);
        }
        tally.reversal_from = side;
    }
}

/// Counts who has gone to the glass by the time the ball is at the rim.
fn to_glass(plans: &Plans, tally: &mut Tally) {
    let gone = plans.attack.iter().filter(|plan| plan.glass == Glass::Goes).count();
    tally.add(M::AttackersOnGlass, gone as i64);
}

struct Shot {
    by: Slot,
    at: Vec2,
    metres: f32,
    space_m: f32,
    chance: f32,
    three: bool,
}

fn shoot(seen: &Seen<'_>, shot: &Shot, tally: &mut Tally) {
    let setup = &seen.given.setup;
    let worth = shot.chance * worth(shot.three);
    tally.expected += worth;
    tally.space_m = shot.space_m;
    tally.last_shot_m = shot.metres;
    tally.last_made = false;
    count_kind(seen, shot, tally);
    // The flags speak of the shot that ends the possession: a later one replaces an earlier one.
    forget_shot(tally);
    let (free, points) = make_chance(
        &setup.court,
        &setup.player(shot.by).skill.shot,
        seen.traits.shooter(shot.by),
        shot.at,
        FREE_M,
        seen.hold.off_catch,
    );
    if free * points >= IN_RANGE_POINTS && shot.space_m >= OPEN_M {
        took_open_look(seen, shot, tally);
    }
    if worth >= GOOD_POINTS {
        tally.flag(M::GoodShotTaken);
    }
    good_look(worth, tally);
    tally.flag(match shot.by.index() {
        0 => M::ShotLeadGuard,
        1 => M::ShotOffGuard,
        2 => M::ShotRover,
        _ => M::ShotPost,
    });
}

/// Flags a look worth so many points, if it is a good one.
pub fn good_look(points: f32, tally: &mut Tally) {
    for (bar, m) in GOOD_LOOK_POINTS.into_iter().zip([M::GoodLook, M::GoodLookLow, M::GoodLookHigh]) {
        if points >= bar {
            tally.flag(m);
        }
    }
}

/// Counts what kind of a shot it was, by distance, place and space.
fn count_kind(seen: &Seen<'_>, shot: &Shot, tally: &mut Tally) {
    let court = &seen.given.setup.court;
    tally.add(M::Shots, 1);
    if shot.three {
        tally.add(M::Threes, 1);
        if shot.at.y < CORNER_BELOW_Y_M {
            tally.add(M::CornerThrees, 1);
        }
        if shot.space_m >= WIDE_OPEN_M {
            tally.add(M::ThreesWideOpen, 1);
        } else if shot.space_m < OPEN_M {
            tally.add(M::ThreesContested, 1);
        }
    } else if shot.metres < RIM_SHOT_WITHIN_M {
        tally.add(M::RimShots, 1);
    } else {
        tally.add(M::MidShots, 1);
    }
    if shot.at.x.abs() > court.lane_half_m + CORNER_BESIDE_LANE_M && shot.at.y < CORNER_BELOW_Y_M {
        tally.add(M::CornerShots, 1);
    }
}

/// Flags an open look that was taken, and the program that made it.
fn took_open_look(seen: &Seen<'_>, shot: &Shot, tally: &mut Tally) {
    tally.flag(M::OpenLookTaken);
    if tally.values[M::OpenLookAvailable as usize] == 0 {
        tally.flag(M::OpenLookAvailable);
        tally.real(M::TimeToOpenLook, f64::from(seen.clocks.now));
    }
    if seen.clocks.first_chance {
        tally.flag(M::FirstOpenLookTaken);
    }
    if shot.space_m >= WIDE_OPEN_M {
        tally.flag(M::WideOpenTaken);
    }
    let programs = &seen.given.setup.attack.programs;
    if let Some(program) = seen.progress.credit.and_then(|read| programs.get(usize::from(read))) {
        tally.flag(match program.kind {
            ProgramKind::Route => M::CreditRoute,
            ProgramKind::PostOption => M::CreditPostOption,
            ProgramKind::GuardOption => M::CreditGuardOption,
            ProgramKind::Set => M::CreditSet,
        });
    }
}

/// Takes back what was said of a shot that did not end the possession.
pub fn forget_shot(tally: &mut Tally) {
    const OF_THE_SHOT: [M; 15] = [
        M::OpenLookTaken,
        M::WideOpenTaken,
        M::GoodShotTaken,
        M::GoodLook,
        M::GoodLookLow,
        M::GoodLookHigh,
        M::FirstOpenLookTaken,
        M::CreditRoute,
        M::CreditPostOption,
        M::CreditGuardOption,
        M::CreditSet,
        M::ShotLeadGuard,
        M::ShotOffGuard,
        M::ShotRover,
        M::ShotPost,
    ];
    for m in OF_THE_SHOT {
        tally.values[m as usize] = 0;
    }
}

fn turnover(kind: TurnoverKind, tally: &mut Tally) {
    // How the ball is lost decides how well the opponents can run with it.
    let (m, factor) = match kind {
        TurnoverKind::Intercepted => (M::TurnoverSteal, AFTER_LIVE_LOSS),
        TurnoverKind::BadPass => {
            (M::TurnoverBadPass, if tally.live_loss { AFTER_LIVE_LOSS } else { AFTER_DEAD_BALL })
        }
        TurnoverKind::Handling => (M::TurnoverHandling, AFTER_LIVE_LOSS),
        TurnoverKind::Travel => (M::TurnoverTravel, AFTER_DEAD_BALL),
        TurnoverKind::SteppedOut => (M::TurnoverSteppedOut, AFTER_DEAD_BALL),
        TurnoverKind::OffensiveFoul => (M::TurnoverOffensiveFoul, AFTER_DEAD_BALL),
        TurnoverKind::ThreeSeconds => (M::TurnoverThreeSeconds, AFTER_DEAD_BALL),
        TurnoverKind::FiveSeconds => (M::TurnoverFiveSeconds, AFTER_DEAD_BALL),
        TurnoverKind::ShotClock => (M::TurnoverShotClock, AFTER_DEAD_BALL),
    };
    tally.flag(m);
    if kind == TurnoverKind::Intercepted {
        tally.add(M::PassesIntercepted, 1);
    }
    tally.loss_factor = factor;
}
