//! The columns, in the order of the files.

use engine::Measure as M;

use super::{Column, Kind};
use crate::row::Quantity;
use crate::stats::Better::{self, Higher, Lower};

const fn rate(key: &'static str, measure: M, better: Better, words: &'static str) -> Column {
    Column { key, kind: Kind::Rate(measure), better, words }
}

const fn mean(key: &'static str, measure: M, better: Better, words: &'static str) -> Column {
    Column { key, kind: Kind::Mean(measure), better, words }
}

const fn share(key: &'static str, part: M, whole: M, better: Better, words: &'static str) -> Column {
    Column { key, kind: Kind::Share(part, whole), better, words }
}

const fn ratio(key: &'static str, above: M, below: M, better: Better, words: &'static str) -> Column {
    let kind = Kind::Ratio(Quantity::Measured(above), Quantity::Measured(below));
    Column { key, kind, better, words }
}

/// All columns.
pub static COLUMNS: &[Column] = &[
    // Looks.
    rate("good_look_rate", M::GoodLook, Higher, "good looks"),
    rate("good_look_085_rate", M::GoodLookLow, Higher, "good looks at a bar of 0.85 points"),
    rate("good_look_105_rate", M::GoodLookHigh, Higher, "good looks at a bar of 1.05 points"),
    rate("open_look_rate", M::OpenLookTaken, Higher, "open looks taken"),
    rate("wide_open_look_rate", M::WideOpenTaken, Higher, "wide-open looks taken"),
    rate("open_look_available_rate", M::OpenLookAvailable, Higher, "possessions with an open look on offer"),
    rate("good_shot_rate", M::GoodShotTaken, Higher, "good shots"),
    rate("first_chance_open_look_rate", M::FirstOpenLookTaken, Higher, "open looks on the first chance"),
    ratio(
        "time_to_open_look_s",
        M::TimeToOpenLook,
        M::OpenLookAvailable,
        Lower,
        "time to the first open look",
    ),
    // Touches.
    rate("paint_touch_rate", M::PaintTouch, Higher, "possessions with a paint touch"),
    rate("low_post_touch_rate", M::LowPostTouch, Higher, "possessions with a low-post touch"),
    rate("high_post_touch_rate", M::HighPostTouch, Higher, "possessions with a high-post touch"),
    rate("short_corner_touch_rate", M::ShortCornerTouch, Higher, "possessions with a short-corner touch"),
    rate("post_touch_rate", M::PostTouch, Higher, "possessions with a touch in either post"),
    mean("low_post_touches", M::LowPostTouches, Higher, "low-post touches"),
    mean("high_post_touches", M::HighPostTouches, Higher, "high-post touches"),
    mean("short_corner_touches", M::ShortCornerTouches, Higher, "short-corner touches"),
    ratio("points_per_post_touch", M::PointsWithPostTouch, M::PostTouch, Higher, "points with a post touch"),
    // Points.
    mean("points_per_possession", M::Points, Higher, "points"),
    mean("expected_points_per_possession", M::ExpectedPoints, Higher, "expected points"),
    mean("first_chance_points_per_possession", M::FirstChancePoints, Higher, "points on the first chance"),
    mean("net_points_per_possession", M::NetPoints, Higher, "net points"),
    mean("expected_net_points", M::ExpectedNetPoints, Higher, "expected net points"),
    // Endings.
    rate("made_rate", M::Made, Higher, "possessions ended by a made shot"),
    rate("missed_rate", M::Missed, Lower, "possessions ended by a missed shot"),
    rate("turnover_rate", M::Turnover, Lower, "turnovers"),
    rate("free_throws_rate", M::FreeThrows, Higher, "possessions ended at the free-throw line"),
    rate("expired_rate", M::Expired, Lower, "possessions ended by the cap"),
    rate("fault_rate", M::Fault, Lower, "numerical faults"),
    rate("turnover_intercepted_rate", M::TurnoverSteal, Lower, "passes taken by a defender"),
    rate("turnover_bad_pass_rate", M::TurnoverBadPass, Lower, "passes lost without a steal"),
    rate("turnover_handling_rate", M::TurnoverHandling, Lower, "balls lost from the hands"),
    rate("turnover_travel_rate", M::TurnoverTravel, Lower, "travelling turnovers"),
    rate("turnover_stepped_out_rate", M::TurnoverSteppedOut, Lower, "steps out of bounds with the ball"),
    rate("turnover_offensive_foul_rate", M::TurnoverOffensiveFoul, Lower, "offensive fouls"),
    rate("turnover_three_seconds_rate", M::TurnoverThreeSeconds, Lower, "three-second violations"),
    rate("turnover_five_seconds_rate", M::TurnoverFiveSeconds, Lower, "five-second violations"),
    rate("turnover_shot_clock_rate", M::TurnoverShotClock, Lower, "shot-clock violations"),
    // Cost.
    mean("break_exposure", M::BreakExposure, Lower, "risk of a fast break"),
    mean("break_points", M::BreakPoints, Lower, "points conceded on the break"),
    share("offensive_rebound_share", M::OffensiveRebounds, M::Rebounds, Higher, "offensive rebound rate"),
    mean("offensive_rebounds", M::OffensiveRebounds, Higher, "offensive rebounds"),
    mean("rebound_chances", M::Rebounds, Higher, "misses to rebound"),
    ratio("attackers_on_glass", M::AttackersOnGlass, M::Shots, Higher, "attackers on the glass a shot"),
    // Shots.
    mean("shots", M::Shots, Higher, "shots"),
    mean("shots_made", M::ShotsMade, Higher, "shots made"),
    share("field_goal_share", M::ShotsMade, M::Shots, Higher, "shots that go in"),
    Column {
        key: "effective_field_goal_share",
        kind: Kind::Ratio(Quantity::EffectiveMakes, Quantity::Measured(M::Shots)),
        better: Higher,
        words: "effective field goals a shot",
    },
    share("three_point_share", M::Threes, M::Shots, Higher, "shots that are threes"),
    share("corner_three_share", M::CornerThrees, M::Shots, Higher, "shots that are corner threes"),
    share("corner_shot_share", M::CornerShots, M::Shots, Higher, "shots from the corner"),
    share("rim_shot_share", M::RimShots, M::Shots, Higher, "shots at the rim"),
    share("mid_shot_share", M::MidShots, M::Shots, Higher, "two-point shots from 2 m and more"),
    share("three_point_make_share", M::ThreesMade, M::Threes, Higher, "threes that go in"),
    share("wide_open_three_share", M::ThreesWideOpen, M::Threes, Higher, "threes that are wide open"),
    share(
        "wide_open_three_make_share",
        M::ThreesWideOpenMade,
        M::ThreesWideOpen,
        Higher,
        "wide-open threes that go in",
    ),
    share("contested_three_share", M::ThreesContested, M::Threes, Lower, "threes that are contested"),
    share(
        "contested_three_make_share",
        M::ThreesContestedMade,
        M::ThreesContested,
        Higher,
        "contested threes that go in",
    ),
    ratio("free_throws_per_shot", M::FreeThrowAttempts, M::Shots, Higher, "free throws a shot"),
    share("free_throw_make_share", M::FreeThrowsMade, M::FreeThrowAttempts, Higher, "free throws that go in"),
    share("assists_per_made_shot", M::Assists, M::ShotsMade, Higher, "made shots that were assisted"),
    // Passing.
    mean("passes", M::Passes, Higher, "passes"),
    share("passes_intercepted_share", M::PassesIntercepted, M::Passes, Lower, "passes that are intercepted"),
    share("passes_tipped_share", M::PassesTipped, M::Passes, Lower, "passes that are tipped"),
    mean("swing_passes", M::SwingPasses, Higher, "swing passes"),
    share("swing_pass_completion", M::SwingPassesCaught, M::SwingPasses, Higher, "swing passes caught"),
    mean("high_post_passes", M::HighPostPasses, Higher, "passes to the high post"),
    share(
        "high_post_pass_completion",
        M::HighPostPassesCaught,
        M::HighPostPasses,
        Higher,
        "passes to the high post caught",
    ),
    mean("low_post_passes", M::LowPostPasses, Higher, "passes to the low post"),
    share(
        "low_post_pass_completion",
        M::LowPostPassesCaught,
        M::LowPostPasses,
        Higher,
        "passes to the low post caught",
    ),
    mean("skip_passes", M::SkipPasses, Higher, "skip passes"),
    share("skip_pass_completion", M::SkipPassesCaught, M::SkipPasses, Higher, "skip passes caught"),
    mean("lobs", M::Lobs, Higher, "lobs"),
    share("lob_completion", M::LobsCaught, M::Lobs, Higher, "lobs caught"),
    mean("reversals", M::Reversals, Higher, "reversals"),
    mean("fakes", M::Fakes, Higher, "pass fakes"),
    ratio("fakes_bitten_per_fake", M::FakesBitten, M::Fakes, Higher, "defenders who bite on a fake"),
    mean("catches", M::Catches, Higher, "catches"),
    ratio("hold_time_per_catch_s", M::HoldTime, M::Catches, Lower, "hold time a catch"),
    mean("drives", M::Drives, Higher, "drives"),
    mean("common_fouls", M::CommonFouls, Higher, "common fouls by the defence"),
    mean("shooting_fouls", M::ShootingFouls, Higher, "fouls on a shot"),
    mean("seconds_used", M::SecondsUsed, Lower, "seconds used"),
    // Stress of the zone.
    mean("back_line_lateness_s", M::LatenessMean, Higher, "back-line lateness"),
    mean("back_line_lateness_peak_s", M::LatenessPeak, Higher, "peak back-line lateness"),
    mean("unguarded_share", M::UnguardedShare, Higher, "time with somebody free"),
    mean("two_on_one", M::TwoOnOne, Higher, "two-on-ones against a back-line defender"),
    mean("line_gap_m", M::LineGap, Higher, "line gap"),
    mean("widest_seam_m", M::WidestSeam, Higher, "widest seam"),
    mean("defence_metres", M::DefenceMetres, Higher, "metres run by the defence"),
    mean("attack_metres", M::AttackMetres, Lower, "metres run by the attack"),
    mean("back_line_metres", M::BackLineMetres, Higher, "metres run by the back line"),
    mean("help_uses", M::HelpUses, Higher, "drops to help in the low post"),
    mean("hand_off_failures", M::HandOffFailures, Higher, "hand-offs that failed"),
    // Credit.
    rate("look_from_route_rate", M::CreditRoute, Higher, "looks made by the route"),
    rate("look_from_post_option_rate", M::CreditPostOption, Higher, "looks made by a post option"),
    rate("look_from_guard_option_rate", M::CreditGuardOption, Higher, "looks made by a guard option"),
    rate("look_from_set_rate", M::CreditSet, Higher, "looks made by the attack's own movement"),
    rate("shot_lead_guard_rate", M::ShotLeadGuard, Higher, "last shots by the lead guard"),
    rate("shot_off_guard_rate", M::ShotOffGuard, Higher, "last shots by the off guard"),
    rate("shot_rover_rate", M::ShotRover, Higher, "last shots by the rover"),
    rate("shot_post_rate", M::ShotPost, Higher, "last shots by a post"),
    rate("right_side_rate", M::RightSide, Higher, "possessions on the right side"),
];
