//! The facts, or halves of facts, that the model shows today. What it does not show is in the table, marked.
//!
//! Went from here to the table when the worth of going on became computed, the attacks learned more and posts' threes
//! became worse (found, against what is asked for):
//!
//! - 4, skips are tipped more: 0.9 % more of them (0.4 to 1.4), not 1 %. Passers no longer throw those that are in reach.
//! - 7, the help rule decides on entries: 3 of a hundred catches (2 to 4), not 5.
//! - 13, the receiver's shot after a drive that drew two: 0.07 points better (0.02 to 0.12), not surely 0.05.
//! - 14, in points: cutting adds 0.01 to passing (-0.01 to 0.03), passing 0.06 to cutting (0.04 to 0.08).
//! - 19, longer arms stop high-post entries: no difference; what is thrown there has the hands judged beforehand.
//! - 24, the widest seam: 0.07 m wider (0.06 to 0.08), not 0.1.
//! - 25, more sink, fewer touches below: more (+0.08), why is not known; open looks rise by 0.02, not surely.

use super::{moves, passes, post, screens, shape, team, tempo};

#[test]
fn fact_1_a_quick_ball_gets_better_shots() {
    tempo::HOLDS.check(&[1, 2], 2000);
}

#[test]
fn fact_2_a_kick_out_gives_a_better_three_than_as_many_perimeter_passes() {
    passes::KICK_OUTS.check(&[0, 1], 4000);
}

#[test]
fn fact_4_a_skip_leaves_a_longer_closeout() {
    passes::SKIPS.check(&[0], 2000);
}

#[test]
fn fact_5_three_in_the_area_of_two_give_a_two_on_one() {
    shape::OVERLOAD.check(&[0], 800);
}

#[test]
fn fact_7_the_back_going_out_opens_the_low_post() {
    post::BACK_OUT.check(&[0], 800);
}

#[test]
fn fact_8_an_extended_front_line_gives_fewer_threes_from_the_top() {
    shape::EXTENSION.check(&[0], 1200);
}

#[test]
fn fact_9_two_guards_get_more_looks_out_front_than_one() {
    shape::TWO_GUARDS.check(&[0], 600);
}

#[test]
fn fact_14_passing_and_cutting_together_get_better_shots_than_either() {
    tempo::CUTS.check(&[4, 5], 2500);
}

#[test]
fn fact_17_a_quicker_zone_lowers_every_route() {
    team::QUICKNESS.check(&[0, 2], 1200);
}

#[test]
fn fact_19_longer_arms_let_fewer_skips_through() {
    team::ARMS.check(&[0, 1], 2000);
}

#[test]
fn fact_23_a_screen_on_the_near_back_delays_the_closeout_to_the_corner() {
    screens::NEAR_BACK.check(&[0], 800);
}

#[test]
fn fact_24_guards_in_the_corners_stretch_the_back_line() {
    moves::STRETCHED.check(&[0], 600);
}

#[test]
fn fact_25_more_sink_means_more_open_threes() {
    shape::SINK.check(&[2], 4000);
}
