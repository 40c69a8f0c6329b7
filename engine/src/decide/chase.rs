//! Going after a ball that is nobody's: where it comes down, and who is near enough.

use super::View;
use crate::math::Vec2;
use crate::slots::{ATTACK, DEFENCE};
use crate::state::{Belief, Whose};

/// Where the ball falls, if he has learned it; while he knows only of the shot, nobody knows.
pub fn landing(mind: &Belief) -> Option<Vec2> {
    matches!(mind.whose, Whose::Rebound | Whose::Loose).then_some(mind.ball)
}

/// Rank of a player among his own by distance to a point, as he believes.
pub fn rank(view: &View<'_>, to: Vec2) -> usize {
    let mine = (view.me.at - to).len2();
    let team = if view.me.slot.attacks() { ATTACK } else { DEFENCE };
    team.into_iter().filter(|mate| *mate != view.me.slot && (view.mind.at(*mate) - to).len2() < mine).count()
}
