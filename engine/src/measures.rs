//! Names, units and scales of everything that a possession adds to the totals (the only
//! definitions; the counting itself is in the stage `measure`).
//!
//! Every value is an integer, so that totals merge exactly in any order: counts as they are, reals in
//! millionths.

macro_rules! measures {
    ($($(#[doc = $doc:literal])+ $name:ident, $key:literal, $unit:ident;)+) => {
        /// One additive quantity of a possession.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[repr(u8)]
        pub enum Measure { $($(#[doc = $doc])+ $name,)+ }

        impl Measure {
            /// All measures, in order of their index.
            pub const ALL: &'static [Measure] = &[$(Measure::$name,)+];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();
            /// Name in files, snake case.
            pub const fn key(self) -> &'static str {
                match self { $(Measure::$name => $key,)+ }
            }
            /// Unit.
            pub const fn unit(self) -> Unit {
                match self { $(Measure::$name => Unit::$unit,)+ }
            }
            /// One sentence on what it is.
            pub const fn meaning(self) -> &'static str {
                match self { $(Measure::$name => concat!($($doc),+),)+ }
            }
        }
    };
}

/// Unit of a measure, and with it the scale of its integer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// 0 or 1: happened in this possession.
    Flag,
    /// How many times.
    Count,
    /// Points, in millionths.
    Points,
    /// Seconds, in millionths.
    Seconds,
    /// Metres, in millionths.
    Metres,
    /// A share or probability, in millionths.
    Share,
}

impl Unit {
    /// Divide the integer by this to get the value in its unit.
    pub const fn scale(self) -> f64 {
        match self {
            Unit::Flag | Unit::Count => 1.0,
            _ => 1e6,
        }
    }
}

measures! {
    /// Ended by a made shot.
    Made, "made", Flag;
    /// Ended by a missed shot and a defensive rebound.
    Missed, "missed", Flag;
    /// Ended by a turnover.
    Turnover, "turnover", Flag;
    /// Ended at the free-throw line.
    FreeThrows, "free_throws", Flag;
    /// Ended by the cap where there is no shot clock.
    Expired, "expired", Flag;
    /// Ended by a fault of the model: a number that is none, or a body far off the floor.
    Fault, "fault", Flag;

    /// An open look was taken: the shot was released with the nearest defender 1.22 m away or more.
    OpenLookTaken, "open_look", Flag;
    /// A wide-open look (1.83 m or more) was taken.
    WideOpenTaken, "wide_open_look", Flag;
    /// An open look occurred, taken or not.
    OpenLookAvailable, "open_look_available", Flag;
    /// A shot worth at least 1.0 expected points was taken.
    GoodShotTaken, "good_shot", Flag;
    /// Ended by a shot worth at least 0.95 expected points, or by free throws for a foul on one.
    GoodLook, "good_look", Flag;
    /// The same at 0.85 points.
    GoodLookLow, "good_look_085", Flag;
    /// The same at 1.05 points.
    GoodLookHigh, "good_look_105", Flag;
    /// An open look was taken on the first chance.
    FirstOpenLookTaken, "first_chance_open_look", Flag;
    /// Time from the start to the first open look (0 where none occurred).
    TimeToOpenLook, "time_to_open_look_s", Seconds;

    /// Controlled ball in the lane (widened by 0.45 m on each side) on the first chance.
    PaintTouch, "paint_touch", Flag;
    /// Controlled ball in the low post on the first chance.
    LowPostTouch, "low_post_touch", Flag;
    /// Controlled ball in the high post on the first chance.
    HighPostTouch, "high_post_touch", Flag;
    /// Controlled ball in the short corner on the first chance.
    ShortCornerTouch, "short_corner_touch", Flag;
    /// Times that the ball came into control in the low post.
    LowPostTouches, "low_post_touches", Count;
    /// Times that the ball came into control in the high post.
    HighPostTouches, "high_post_touches", Count;
    /// Times that the ball came into control in the short corner.
    ShortCornerTouches, "short_corner_touches", Count;
    /// Points of the possession where it had a low- or high-post touch, else 0.
    PointsWithPostTouch, "points_with_post_touch", Points;
    /// The possession had a low- or high-post touch.
    PostTouch, "post_touch", Flag;

    /// Points scored.
    Points, "points", Points;
    /// Points scored before any offensive rebound.
    FirstChancePoints, "first_chance_points", Points;
    /// Points with every shot and free throw at its make probability.
    ExpectedPoints, "expected_points", Points;
    /// Points less the opponents' expected break points.
    NetPoints, "net_points", Points;
    /// Expected points less the opponents' expected break points.
    ExpectedNetPoints, "expected_net_points", Points;
    /// Chance that the defence's fastest runner beats the last attacker to midcourt at the end.
    BreakExposure, "break_exposure", Share;
    /// Expected points conceded on the opponents' break.
    BreakPoints, "break_points", Points;

    /// Field-goal attempts.
    Shots, "shots", Count;
    /// Field goals made.
    ShotsMade, "shots_made", Count;
    /// Three-point attempts.
    Threes, "threes", Count;
    /// Threes made.
    ThreesMade, "threes_made", Count;
    /// Three-point attempts from the corner (lower on the floor than 1.5 m).
    CornerThrees, "corner_threes", Count;
    /// Shots from the corner or the short corner's width, outside the lane, two or three points.
    CornerShots, "corner_shots", Count;
    /// Shots from less than 2 m.
    RimShots, "rim_shots", Count;
    /// Two-point shots from 2 m and more.
    MidShots, "mid_shots", Count;
    /// Threes with the nearest defender 1.83 m away or more.
    ThreesWideOpen, "threes_wide_open", Count;
    /// Wide-open threes made.
    ThreesWideOpenMade, "threes_wide_open_made", Count;
    /// Threes with the nearest defender nearer than 1.22 m.
    ThreesContested, "threes_contested", Count;
    /// Contested threes made.
    ThreesContestedMade, "threes_contested_made", Count;
    /// Free-throw attempts.
    FreeThrowAttempts, "free_throw_attempts", Count;
    /// Free throws made.
    FreeThrowsMade, "free_throws_made", Count;
    /// Made field goals off a pass, without a drive since the catch.
    Assists, "assists", Count;

    /// Turnovers: pass taken by a defender.
    TurnoverSteal, "turnover_intercepted", Flag;
    /// Turnovers: pass out of bounds or lost without a steal.
    TurnoverBadPass, "turnover_bad_pass", Flag;
    /// Turnovers: ball lost from the hands.
    TurnoverHandling, "turnover_handling", Flag;
    /// Turnovers: travelling and the like.
    TurnoverTravel, "turnover_travel", Flag;
    /// Turnovers: a foot of the man with the ball on a line or beyond it.
    TurnoverSteppedOut, "turnover_stepped_out", Flag;
    /// Turnovers: offensive foul.
    TurnoverOffensiveFoul, "turnover_offensive_foul", Flag;
    /// Turnovers: three seconds in the lane.
    TurnoverThreeSeconds, "turnover_three_seconds", Flag;
    /// Turnovers: five seconds closely guarded.
    TurnoverFiveSeconds, "turnover_five_seconds", Flag;
    /// Turnovers: shot clock.
    TurnoverShotClock, "turnover_shot_clock", Flag;

    /// Passes thrown.
    Passes, "passes", Count;
    /// Passes taken by a defender.
    PassesIntercepted, "passes_intercepted", Count;
    /// Passes that a defender's hand touched, taken or not.
    PassesTipped, "passes_tipped", Count;
    /// Swing passes (round the perimeter, under 7.5 m) thrown.
    SwingPasses, "swing_passes", Count;
    /// Swing passes caught.
    SwingPassesCaught, "swing_passes_caught", Count;
    /// Passes to the high post thrown.
    HighPostPasses, "high_post_passes", Count;
    /// Passes to the high post caught.
    HighPostPassesCaught, "high_post_passes_caught", Count;
    /// Passes to the low post thrown.
    LowPostPasses, "low_post_passes", Count;
    /// Passes to the low post caught.
    LowPostPassesCaught, "low_post_passes_caught", Count;
    /// Skip passes (perimeter to perimeter, 7.5 m or more) thrown.
    SkipPasses, "skip_passes", Count;
    /// Skip passes caught.
    SkipPassesCaught, "skip_passes_caught", Count;
    /// Lobs thrown.
    Lobs, "lobs", Count;
    /// Lobs caught.
    LobsCaught, "lobs_caught", Count;
    /// Reversals: the ball moved from one side to the other through the guards.
    Reversals, "reversals", Count;
    /// Pass fakes shown.
    Fakes, "fakes", Count;
    /// Defenders who bit on a fake.
    FakesBitten, "fakes_bitten", Count;
    /// Catches (a held ball's start, rebounds included).
    Catches, "catches", Count;
    /// Time that the ball was held or dribbled by one player.
    HoldTime, "hold_time_s", Seconds;
    /// Drives begun.
    Drives, "drives", Count;
    /// Common fouls by the defence (none on a shot).
    CommonFouls, "common_fouls", Count;
    /// Fouls on a shot.
    ShootingFouls, "shooting_fouls", Count;
    /// Seconds used.
    SecondsUsed, "seconds_used", Seconds;

    /// Missed shots that were rebounded.
    Rebounds, "rebound_chances", Count;
    /// Of those, by the attack.
    OffensiveRebounds, "offensive_rebounds", Count;
    /// Attackers who have gone to the glass when the shot is at the rim, summed over shots.
    AttackersOnGlass, "attackers_on_glass", Count;

    /// Back-line lateness, mean over the possession.
    LatenessMean, "back_line_lateness_s", Seconds;
    /// Back-line lateness, peak.
    LatenessPeak, "back_line_lateness_peak_s", Seconds;
    /// Share of the time with an attacker whom the back line would reach too late.
    UnguardedShare, "unguarded_share", Share;
    /// Times that two attackers stood in one back-line defender's area with no other near.
    TwoOnOne, "two_on_one", Count;
    /// Line gap (front line to back line), mean.
    LineGap, "line_gap_m", Metres;
    /// Widest seam between neighbours of a line, mean.
    WidestSeam, "widest_seam_m", Metres;
    /// Metres run by the defenders, all five.
    DefenceMetres, "defence_metres", Metres;
    /// Metres run by the attackers, all five.
    AttackMetres, "attack_metres", Metres;
    /// Metres run by the back line.
    BackLineMetres, "back_line_metres", Metres;
    /// Times that the post helper dropped to the low post with the near back out.
    HelpUses, "help_uses", Count;
    /// Hand-offs of a cutter after which nobody had him for half a second.
    HandOffFailures, "hand_off_failures", Count;

    /// The look that was taken came to a player on his route, or from one.
    CreditRoute, "look_from_route", Flag;
    /// The look that was taken came from a post option.
    CreditPostOption, "look_from_post_option", Flag;
    /// The look that was taken came from a guard option.
    CreditGuardOption, "look_from_guard_option", Flag;
    /// The look that was taken came from a movement of the attack's own.
    CreditSet, "look_from_set", Flag;
    /// The last shot was the lead guard's.
    ShotLeadGuard, "shot_lead_guard", Flag;
    /// The last shot was the off guard's.
    ShotOffGuard, "shot_off_guard", Flag;
    /// The last shot was the rover's.
    ShotRover, "shot_rover", Flag;
    /// The last shot was a post's.
    ShotPost, "shot_post", Flag;
    /// The side was the attack's right.
    RightSide, "right_side", Flag;
}
