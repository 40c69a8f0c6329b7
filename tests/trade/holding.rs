//! The facts, or halves of facts, that the model shows today. What it does not show is in the table, marked.

use super::{drives, moves, passes, post, screens, shape, team, tempo};

#[test]
fn fact_1_a_quick_ball_gets_better_shots() {
    tempo::HOLDS.check(&[1, 2], 2000);
}

#[test]
fn fact_2_a_kick_out_gives_a_better_three_than_as_many_perimeter_passes() {
    passes::KICK_OUTS.check(&[0, 1], 4000);
}

#[test]
fn fact_4_a_skip_leaves_a_longer_closeout_and_is_tipped_more() {
    passes::SKIPS.check(&[0, 1], 9000);
}

#[test]
fn fact_5_three_in_the_area_of_two_give_a_two_on_one() {
    shape::OVERLOAD.check(&[0], 800);
}

#[test]
fn fact_7_the_back_going_out_opens_the_low_post_and_the_help_rule_says_how_often() {
    post::BACK_OUT.check(&[0, 2], 1500);
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
fn fact_13_after_a_drive_that_draws_two_the_receiver_has_the_better_shot() {
    drives::DRAWS_TWO.check(&[0], 3500);
}

#[test]
fn fact_14_passing_and_cutting_together_beat_either() {
    tempo::CUTS.check(&[0, 1], 2500);
}

#[test]
fn fact_17_a_quicker_zone_lowers_every_route() {
    team::QUICKNESS.check(&[0, 2], 500);
}

#[test]
fn fact_19_longer_arms_let_fewer_skips_and_high_post_entries_through() {
    team::ARMS.check(&[0, 1, 2], 2000);
}

#[test]
fn fact_23_a_screen_on_the_near_back_delays_the_closeout_to_the_corner() {
    screens::NEAR_BACK.check(&[0], 800);
}

#[test]
fn fact_24_guards_in_the_corners_stretch_the_back_line() {
    moves::STRETCHED.check(&[0, 1], 1200);
}

#[test]
fn fact_25_more_sink_means_less_under_the_rim_and_more_from_outside() {
    shape::SINK.check(&[1, 2, 3], 2500);
}
