//! Drives that draw help: who should shoot.

use engine::film::{Action, What};

use super::fact::{Fact, Part};
use super::watch::{Watched, tally, watch};
use crate::support::matchup;

/// A drive from outside is one that starts farther than this from the rim, m.
const FROM_OUTSIDE_M: f32 = 3.6;
/// A second defender this near to the driver has been drawn, m.
const DRAWN_M: f32 = 1.5;

/// A drive of the first chance.
struct Drive {
    by: usize,
    /// When it is over: its pass or shot, else the end of the film.
    to_s: f32,
    /// Two defenders near him at some moment of it.
    drew_two: bool,
}

fn drives(w: &Watched<'_>) -> Vec<Drive> {
    let mut found = Vec::new();
    for event in &w.film.events {
        match event.what {
            What::DriveStart { by } if event.at.len() > FROM_OUTSIDE_M => {
                let passes = w.passes.iter().filter(|p| p.from == usize::from(by)).map(|p| p.release_s);
                let shots = w.shots.iter().filter(|s| s.by == usize::from(by)).map(|s| s.time_s);
                let ends = passes.chain(shots).filter(|t| *t > event.time_s);
                let to_s = ends.fold(f32::INFINITY, |least, t| if t < least { t } else { least });
                let drew_two = to_s.is_finite()
                    && w.film.frames.iter().filter(|f| f.time_s > event.time_s && f.time_s <= to_s).any(
                        |f| {
                            let him = f.players[usize::from(by)];
                            f.players[5..].iter().filter(|d| d.distance(him) < DRAWN_M).count() >= 2
                        },
                    );
                found.push(Drive { by: usize::from(by), to_s, drew_two });
            }
            What::Rebound { .. } => break,
            _ => {}
        }
    }
    found
}

/// Expected points of the shot that the driver weighed last when he chose to pass instead.
fn own_shot(w: &Watched<'_>, drive: &Drive) -> Option<f32> {
    let before = w.film.events.iter().filter(|event| event.time_s <= drive.to_s);
    let mut decided = before.filter_map(|event| match &event.what {
        What::Decision { by, options, chosen } if usize::from(*by) == drive.by => {
            Some((event.at, options, *chosen))
        }
        _ => None,
    });
    let (at, options, chosen) = decided.next_back()?;
    let passes = matches!(options[chosen].action, Action::Pass(..));
    let shot = options.iter().find(|option| option.action == Action::Shoot).filter(|_| passes)?;
    Some(shot.chance * if w.setup.court.is_three(at) { 3.0 } else { 2.0 })
}

/// Fact 13.
pub const DRAWS_TWO: Fact = Fact {
    number: 13,
    starred: false,
    claim: "After a drive that draws two the receiver's shot is better than the driver's; with three defenders \
            out front a guard's own drive ends in a poor shot",
    cause: "within one run, guards who drive (drive-and-kick): 1-2-2; then 3-2",
    measure: |count| {
        let play = |zone: &str| {
            matchup(&[
                ("zone.use", &format!("\"{zone}\"")),
                ("attack.rover.route", "\"hold-wing\""),
                ("attack.posts.options", "{}"),
                ("attack.guards.options", "{ drive-and-kick = 1.0 }"),
            ])
        };
        let [driver, receiver, given_up, got] = watch::<4>(&play("1-2-2"), count, |w, sums| {
            for drive in drives(w).iter().filter(|drive| drive.drew_two) {
                let own = own_shot(w, drive);
                for shot in &w.shots {
                    if shot.by == drive.by && shot.time_s == drive.to_s {
                        tally(&mut sums[0], shot.worth);
                    }
                    let kick = w.passes.iter().position(|p| p.from == drive.by && p.release_s == drive.to_s);
                    if kick.is_some_and(|nth| shot.passes == nth + 1 && shot.by == w.passes[nth].to)
                        && !shot.drove
                    {
                        tally(&mut sums[1], shot.worth);
                        if let Some(own) = own {
                            tally(&mut sums[2], own);
                            tally(&mut sums[3], shot.worth);
                        }
                    }
                }
            }
        });
        let [own, others] = watch::<2>(&play("3-2"), count, |w, sums| {
            let drives = drives(w);
            for shot in &w.shots {
                let drove = drives.iter().any(|d| d.by < 2 && d.by == shot.by && d.to_s == shot.time_s);
                tally(&mut sums[usize::from(!drove)], shot.worth);
            }
        });
        vec![
            Part::more(
                "expected points of the shot after a drive that drew two",
                ("the driver's", &driver),
                ("the receiver's", &receiver),
                0.05,
            ),
            Part::more(
                "the same, where both are known: the shot that the driver passed up",
                ("the driver's", &given_up),
                ("the receiver's", &got),
                0.05,
            ),
            Part::more(
                "expected points of a shot against the 3-2",
                ("a guard's own drive", &own),
                ("all other shots", &others),
                0.05,
            ),
        ]
    },
};
