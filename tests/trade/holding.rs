//! A glance at each fact: a fifth of the possessions of its first look must not contradict the verdicts in
//! `tests/trade/verdicts.rs`. All are judged whole by the study (`tests/studied.rs`).

use super::verdicts::VERDICTS;

fn holds(number: usize) {
    VERDICTS[number - 1].glance();
}

#[test]
fn fact_1_a_quick_ball_and_the_shots_it_gets() {
    holds(1);
}

#[test]
fn fact_2_a_kick_out_and_as_many_perimeter_passes() {
    holds(2);
}

#[test]
fn fact_3_reversals_one_two_and_three() {
    holds(3);
}

#[test]
fn fact_4_a_skip_its_closeout_and_its_tips() {
    holds(4);
}

#[test]
fn fact_5_three_in_the_area_of_two() {
    holds(5);
}

#[test]
fn fact_6_poor_shooters_and_the_lane() {
    holds(6);
}

#[test]
fn fact_7_the_back_going_out_and_the_help_rules() {
    holds(7);
}

#[test]
fn fact_8_an_extended_front_line() {
    holds(8);
}

#[test]
fn fact_9_two_guards_against_one_point() {
    holds(9);
}

#[test]
fn fact_10_a_flash_out_of_sight() {
    holds(10);
}

#[test]
fn fact_11_what_a_pass_fake_gains() {
    holds(11);
}

#[test]
fn fact_12_a_screen_on_the_far_wing() {
    holds(12);
}

#[test]
fn fact_13_a_driver_who_draws_two() {
    holds(13);
}

#[test]
fn fact_14_passing_and_cutting_against_a_quick_zone() {
    holds(14);
}

#[test]
fn fact_15_rebounds_against_a_zone() {
    holds(15);
}

#[test]
fn fact_16_who_is_sent_and_who_stays_back() {
    holds(16);
}

#[test]
fn fact_17_a_quicker_zone() {
    holds(17);
}

#[test]
fn fact_18_a_trap_in_the_corner() {
    holds(18);
}

#[test]
fn fact_19_longer_arms() {
    holds(19);
}

#[test]
fn fact_20_shots_before_the_five_are_set() {
    holds(20);
}

#[test]
fn fact_21_posts_parked_on_the_baseline() {
    holds(21);
}

#[test]
fn fact_22_a_rover_who_drops() {
    holds(22);
}

#[test]
fn fact_23_a_screen_on_the_near_back() {
    holds(23);
}

#[test]
fn fact_24_guards_in_the_corners() {
    holds(24);
}

#[test]
fn fact_25_more_sink() {
    holds(25);
}
