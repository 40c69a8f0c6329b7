//! In what the variants of an experiment differ, in a word.

use scenarios::Experiment;

/// What people call that which differs between the variants of an experiment. Where more than the attack differs, or
/// only one thing is played, it is a whole matchup.
pub(super) fn noun(experiment: &Experiment) -> &'static str {
    const NOUNS: [(&str, &str); 4] = [
        ("attack.rover.route", "route"),
        ("attack.posts.options", "post option"),
        ("attack.guards.options", "guard option"),
        ("attack", "attack"),
    ];
    let varied = &experiment.varied;
    let all = |start: &str| !varied.is_empty() && varied.iter().all(|path| path.starts_with(start));
    NOUNS.into_iter().find(|(start, _)| all(start)).map_or("matchup", |(_, noun)| noun)
}
