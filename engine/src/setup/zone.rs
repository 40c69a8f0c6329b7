//! The zone as data: slots, anchors by ball place, on-ball defenders, and what its defenders are told to do.

use super::parameter::parameters;
use crate::math::Vec2;

/// Places of the ball for which a zone states where its defenders stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum BallPlace {
    /// Above the arc in the middle.
    Top,
    /// Guard's place to the left or right of the top.
    Slot,
    /// Level with the free-throw line, outside the arc.
    Wing,
    /// Near the baseline, outside the arc.
    Corner,
    /// On the baseline between the lane and the arc.
    ShortCorner,
    /// Beside the lane near the rim.
    LowPost,
    /// Corner of the free-throw line (the high post).
    Elbow,
}

impl BallPlace {
    /// How many places there are.
    pub const COUNT: usize = 7;
    /// All places in order.
    pub const ALL: [BallPlace; 7] = [
        BallPlace::Top,
        BallPlace::Slot,
        BallPlace::Wing,
        BallPlace::Corner,
        BallPlace::ShortCorner,
        BallPlace::LowPost,
        BallPlace::Elbow,
    ];
    /// Names as files and output write them, in the order of [`BallPlace::ALL`].
    pub const NAMES: [&str; 7] = ["top", "slot", "wing", "corner", "short-corner", "low-post", "elbow"];
}

/// In a program, in the place of a position: the defender nearest to the ball, whichever position he has.
pub const ON_BALL: u8 = 5;

/// How a position of a zone's table relates to the two sides of the floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pairing {
    /// One defender, whichever side the ball is on (a point, a middle).
    Lone,
    /// The ball-side one of a pair; the number is the position of the far one.
    Near(u8),
    /// The far one of a pair; the number is the position of the near one.
    Far(u8),
}

/// The two lines of a zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Farther from the rim.
    Front,
    /// Nearer to the rim.
    Back,
}

/// One position of the zone's table: a job that a defender has while the ball is on a given side.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Name without its side: `point`, `wing`, `back`.
    pub name: String,
    /// Which line it belongs to.
    pub line: Line,
    /// Lone, or half of a pair.
    pub pairing: Pairing,
}

/// How a defender plays an attacker in the post.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PostStance {
    /// Between the post and the rim.
    Behind,
    /// On his hip, an arm in the passing lane.
    ThreeQuarter,
    /// Between the post and the ball.
    Front,
}

/// Who plays a post on the near block before he has the ball, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct OnPost {
    /// His position.
    pub position: u8,
    /// Where he stands with the ball here, on the right, stance and sink worked in, m; `None` where his anchor holds.
    pub places: [Option<Vec2>; BallPlace::COUNT],
}

/// What a defender does who has two attackers or more in his area.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OverloadRule {
    /// Takes the one whom he believes the most dangerous, by nearness to the rim and to his own place.
    Danger,
    /// Takes the one nearest to the rim.
    NearestRim,
    /// Takes the one nearest to the ball.
    NearestBall,
    /// Stands between the two most dangerous.
    Between,
}

/// The second act of a ball place: another position bumps off the one who took the ball first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bump {
    /// Where the zone stands from then on, metres.
    pub row: [Vec2; 5],
    /// The position that has the ball from then on.
    pub on_ball: u8,
}

/// Two on the ball at a place, and who does what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trap {
    /// Where the zone stands while the ball is trapped, metres.
    pub row: [Vec2; 5],
    /// The position that comes as the second man.
    pub trapper: u8,
    /// The position that stays by the rim; the two others are interceptors.
    pub goalie: u8,
}

/// Where the zone stands and who takes the ball, sink and rules worked in.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Anchor of each position for each ball place, ball on the right, metres.
    pub anchors: [[Vec2; 5]; BallPlace::COUNT],
    /// Positions that may take the ball at each place, likeliest first; a place with one on-ball defender names it twice.
    pub on_ball: [[u8; 2]; BallPlace::COUNT],
    /// Places where the first on-ball defender is bumped off.
    pub bumps: [Option<Bump>; BallPlace::COUNT],
    /// Places where a second man comes.
    pub traps: [Option<Trap>; BallPlace::COUNT],
}

parameters! {
    /// Man-to-man: the defender in position `i` guards the attacker of role `i`.
    #[derive(Clone, Copy, Debug, PartialEq)]
    pub struct Marks {
        /// Weight of the man; the rim has what man and ball leave.
        man: f32 = "", 0.0 to 1.0;
        /// Weight of the ball.
        ball: f32 = "", 0.0 to 1.0;
    }
    /// What of it comes from the zone's lines.
    with Sag {
        /// How far each position sags toward the rim besides, m.
        sag_m: [f32; 5],
    }
}

impl Marks {
    /// Where the defender of a man stands, for a ball here (the rim is the origin), metres.
    #[inline]
    pub fn place(&self, man: Vec2, ball: Vec2) -> Vec2 {
        man * self.man + ball * self.ball
    }
}

parameters! {
    /// A zone, sink and rules already worked into its table.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Zone {
        /// Delay of the bump after the wing could have come.
        bump_delay_s: f32 = "s", 0.0 to 5.0;
        /// Distance kept from the ball by its guard.
        on_ball_m: f32 = "m", 0.0 to 4.0;
        /// How near to the receiver a closeout is run at; nearer, he is guarded at `on_ball_m`.
        closeout_stop_m: f32 = "m", 0.0 to 3.0;
        /// From how far from the man with the ball a defender closes out.
        closeout_from_m: f32 = "m", 0.0 to 8.0;
        /// How far from the rim a driver is helped on.
        help_within_m: f32 = "m", 0.0 to 10.0;
        /// How far from his anchor a defender follows an attacker.
        carry_m: f32 = "m", 0.0 to 12.0;
        /// 0 pure zone, 1 man-to-man inside the shape.
        match_up: f32 = "", 0.0 to 1.0;
        /// How far off-ball defenders step into the passing lane, as a share.
        denial: f32 = "", 0.0 to 1.0;
        /// How far a front defender steps into the reversal's lane.
        reversal_denial: f32 = "", 0.0 to 1.0;
        /// How far a neighbour steps at a driver before he recovers.
        stunt_m: f32 = "m", 0.0 to 3.0;
        /// How long he steps at him.
        stunt_s: f32 = "s", 0.0 to 3.0;
        /// Who is late runs past the shooter: 0 nobody, 1 whoever would be late at all.
        fly_by: f32 = "", 0.0 to 1.0;
        /// How far the nearest front defender drops to a post with the ball.
        dig: f32 = "", 0.0 to 1.0;
        /// How far differences in shooting between attackers are honoured.
        respect: f32 = "", 0.0 to 1.0;
    }
    /// What of a zone is no number of its own: its shape, and how it is played.
    with ZoneShape {
        /// Name, for output only.
        name: String,
        /// The five positions, the same order in every row.
        positions: [Position; 5],
        /// Where the ball of each place lies (right side), for interpolation, metres.
        ball_places: [Vec2; BallPlace::COUNT],
        /// Where it stands and who takes the ball.
        table: Table,
        /// The table that a defender goes over to once he has seen `adjust_after` burns.
        adjusted: Option<Table>,
        /// Burns (uncontested catches in range) after which a defender plays by the adjusted table.
        adjust_after: u8,
        /// Man-to-man, where it is one: the table is not used then.
        marks: Option<Marks>,
        /// Position that drops to the ball-side low post once the near back has gone out (post help rule).
        helper: Option<u8>,
        /// What a defender does with two attackers in his area.
        overload: OverloadRule,
        /// At the high post only its named on-ball defenders take the ball, not whoever is nearest.
        high_post_named: bool,
        /// Who plays a post on the near block, and where he stands then.
        on_post: Option<OnPost>,
        /// Post stance by ball place.
        post_stance: [PostStance; BallPlace::COUNT],
    }
}
