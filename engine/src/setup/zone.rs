//! The zone as data: slots, anchors by ball place, takers, and what its defenders are told to do.

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

/// How a column of a zone's table relates to the two sides of the floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pairing {
    /// One defender, whichever side the ball is on (a point, a middle).
    Lone,
    /// The ball-side one of a pair; the number is the column of the far one.
    Near(u8),
    /// The far one of a pair; the number is the column of the near one.
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

/// One column of the zone's table: a job that a defender has while the ball is on a given side.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
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

/// A zone, sink and rules already worked into its table.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// Name, for output only.
    pub name: String,
    /// The five columns, the same order in every row.
    pub columns: [Column; 5],
    /// Anchor of each column for each ball place, ball on the right, metres.
    pub anchors: [[Vec2; 5]; BallPlace::COUNT],
    /// Where the ball of each place lies (right side), for interpolation, metres.
    pub ball_places: [Vec2; BallPlace::COUNT],
    /// The row that replaces the corner's once the wing has bumped the back off (`back-until-bump`).
    pub corner_after_bump: Option<[Vec2; 5]>,
    /// Columns that may take the ball at each place, likeliest first; a place with one taker names it twice.
    pub takers: [[u8; 2]; BallPlace::COUNT],
    /// Column that takes the corner after the bump.
    pub corner_taker_after_bump: u8,
    /// Column that drops to the ball-side low post once the near back has gone out (post help rule).
    pub helper: u8,
    /// Delay of the bump after the wing could have come, s.
    pub bump_delay_s: f32,
    /// Distance kept from the ball by its guard, m.
    pub on_ball_m: f32,
    /// Where a closeout stops short of the receiver, m.
    pub closeout_stop_m: f32,
    /// How far from his anchor a defender follows an attacker, m.
    pub carry_m: f32,
    /// 0 pure zone, 1 man-to-man inside the shape.
    pub match_up: f32,
    /// How far, as a share, off-ball defenders move from their anchor into the passing lane of their man.
    pub denial: f32,
    /// Post stance by ball place.
    pub post_stance: [PostStance; BallPlace::COUNT],
}
