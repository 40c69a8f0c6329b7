//! Where a player goes when a shot is up, in words: to the boards, or back on defence.
//!
//! As the engine has it: of the attackers other than the lead guard so many go as the level of play sends, those nearest to
//! the rim; the lead guard is the safety.

use engine::setup::Setup;
use engine::slots::LEAD_GUARD;

use super::Duty;
use crate::wording::in_words;

/// Where the duty comes from: neither a movement nor a plan.
pub(crate) const SHOT_UP: &str = "shot-up";

/// How many go to the boards, in words: a mean between two whole numbers is the one or the other.
fn sent(mean: f32) -> String {
    let told = |count: f32| in_words(count as usize, "none");
    let (least, most) = (mean.floor(), mean.ceil());
    if least == most { told(least).into() } else { format!("{} or {}", told(least), told(most)) }
}

/// The duty of one position.
pub(super) fn duty(setup: &Setup, role: usize) -> Duty {
    let sent = sent(setup.attackers.skill.crash);
    let [words, in_short] = if role == LEAD_GUARD.index() {
        [
            "When a shot goes up: get back on defence, you are the safety.".to_owned(),
            format!("Shot up, all of you: 1 gets back; the {sent} nearest to the rim go to the boards."),
        ]
    } else {
        [
            format!(
                "When a shot goes up: to the boards if one of the {sent} nearest to the rim, else get back."
            ),
            format!("Shot up: to the boards if one of the {sent} nearest to the rim, else back."),
        ]
    };
    Duty {
        role,
        from: SHOT_UP.into(),
        share: 100,
        words,
        in_short,
        ends_at: String::new(),
        leads_to: Vec::new(),
        program: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lead_guard_gets_back_and_the_nearest_others_go() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        assert!(duty(&setup, 0).words.contains("you are the safety"));
        assert!(duty(&setup, 3).words.contains("to the boards if one of the three nearest to the rim"));
        assert_eq!([sent(2.6), sent(3.0), sent(0.0)], ["two or three", "three", "none"]);
    }
}
