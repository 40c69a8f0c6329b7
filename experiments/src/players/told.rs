//! What was said of a player, in words, so that it can be seen how it was taken.

use engine::setup::{Individual, Known, Licence, Setup};
use engine::slots::ATTACK;

use crate::places::{ATTACKERS, position_words};
use crate::stats::{Interval, after_count};

/// Confidence of the interval of a share that was counted.
const LIKELY: f64 = 0.95;

/// A sentence for each player of the attack who is known by himself, in the order of the roles.
pub fn told(setup: &Setup) -> Vec<String> {
    let own = ATTACK.into_iter().filter_map(|slot| Some((slot.index(), setup.individuals[slot].as_ref()?)));
    own.map(|(role, player)| {
        let said = [
            shares(player.known.iter()),
            body(player, setup),
            craft(player, setup),
            licence(player.licence).to_owned(),
        ];
        let said: Vec<String> = said.into_iter().filter(|said| !said.is_empty()).collect();
        let said = match (said.is_empty(), player.own == setup.attackers) {
            (false, _) => said.join("; "),
            (true, true) => "as the rest of the team".to_owned(),
            (true, false) => "as the rest of the team but for single values of his own".to_owned(),
        };
        format!("{}: {said}.", named(ATTACKERS[role], &player.name))
    })
    .collect()
}

/// A position with the name of who plays it: `rover (Kit)`.
fn named(position: &str, name: &str) -> String {
    let position = position_words(position);
    if name.is_empty() { position } else { format!("{position} ({name})") }
}

/// Shares in words: `40 % of open threes, 38 of 95 counted (...)`.
pub(crate) fn shares<'k>(known: impl Iterator<Item = &'k Known>) -> String {
    known.map(share).collect::<Vec<_>>().join("; ")
}

fn share(known: &Known) -> String {
    let percent = |share: f64| format!("{:.0}", 100.0 * share);
    let Known { shots, counted, share, level, played, prior_attempts, .. } = known;
    let stated = percent(f64::from(*share));
    let (Some((made, attempted)), Some(likely)) = (counted, likely(known)) else {
        return format!("{stated} % of {shots}, as stated");
    };
    let drawn = if *prior_attempts > 0.0 {
        format!(
            "; played at {} %, drawn toward the level's {} % as by {prior_attempts:.0} attempts more",
            percent(f64::from(*played)),
            percent(f64::from(*level))
        )
    } else {
        String::new()
    };
    format!(
        "{stated} % of {shots}, {made} of {attempted} counted{drawn} (likely {} to {} %)",
        percent(likely.low),
        percent(likely.high)
    )
}

/// Where a counted share most likely lies.
pub(super) fn likely(known: &Known) -> Option<Interval> {
    let (made, attempted) = known.counted?;
    let prior = (f64::from(known.level), f64::from(known.prior_attempts));
    after_count(f64::from(made), f64::from(attempted), prior, LIKELY)
}

/// Speed and reach, where they are not the team's.
fn body(player: &Individual, setup: &Setup) -> String {
    let (own, team) = (&player.own.body, &setup.attackers.body);
    let parts = [
        ("top speed", own.sprint_m_s, team.sprint_m_s, 1, "m/s"),
        ("reach", own.standing_reach_m, team.standing_reach_m, 2, "m"),
        ("weight", own.mass_kg, team.mass_kg, 0, "kg"),
        ("strength", own.strength, team.strength, 2, ""),
    ];
    let differ = parts.into_iter().filter(|(_, own, team, ..)| own != team);
    let told = differ.map(|(what, own, team, decimals, unit)| {
        format!("{what} {own:.decimals$} {unit} (team {team:.decimals$})").replace("  ", " ")
    });
    let mut told: Vec<String> = told.collect();
    // What a shuttle time changes besides the top speed.
    let faster = 100.0 * (own.turn_rad_s / team.turn_rad_s - 1.0);
    if faster != 0.0 {
        let how = if faster > 0.0 { "quicker" } else { "slower" };
        told.push(format!("turns and slides {:.0} % {how} than the team", faster.abs()));
    }
    told.join(", ")
}

/// Passing and handling, where they are not the team's.
fn craft(player: &Individual, setup: &Setup) -> String {
    let (own, team) = (&player.own.skill, &setup.attackers.skill);
    let parts = [
        ("passes stray", own.pass[0].error_rad, team.pass[0].error_rad, "as far as the team's"),
        ("loses the ball", own.handling_loss_per_s, team.handling_loss_per_s, "as often as the team"),
    ];
    let differ = parts.into_iter().filter(|(_, own, team, _)| own != team && *team > 0.0);
    let told = differ.map(|(what, own, team, than)| format!("{what} {:.1} times {than}", own / team));
    told.collect::<Vec<_>>().join(", ")
}

fn licence(licence: Licence) -> &'static str {
    match licence {
        Licence::AnyGood => "",
        Licence::OpenOnly => "from outside shoots what is open only",
        Licence::NoThrees => "shoots no threes",
        Licence::InsideOnly => "shoots inside only",
        Licence::None => "does not shoot",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_told_with_its_count_and_what_became_of_it() {
        let known = |counted, share, prior_attempts| Known {
            shots: "open threes",
            counted,
            share,
            level: 0.32,
            prior_attempts,
            played: 0.38,
        };
        assert_eq!(share(&known(None, 0.4, 0.0)), "40 % of open threes, as stated");
        assert_eq!(
            share(&known(Some((38, 95)), 0.4, 30.0)),
            "40 % of open threes, 38 of 95 counted; played at 38 %, drawn toward the level's 32 % as by 30 attempts \
             more (likely 30 to 47 %)"
        );
        assert_eq!(
            share(&known(Some((38, 95)), 0.4, 0.0)),
            "40 % of open threes, 38 of 95 counted (likely 30 to 50 %)"
        );
    }
}
