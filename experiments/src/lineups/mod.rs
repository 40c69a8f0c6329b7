//! Who should play where: the line-ups of a squad, held against one another by an attack on the same possessions.
//!
//! A line-up is a rover, two guards and two posts, each where he may play. Of a pair the one who stands first in the squad is
//! the lead guard, or the post on the rover's side: the two do not do the same, but which of them plays which is not asked, to
//! keep the number of line-ups down, so the order of the file decides it. Ten players who may play anywhere make 7,560 of them.
//! So where there are more than [`MOST`] the most promising are found first (`sieve`), and for each player in each place the one
//! that seems best with him there; these are raced ([`crate::selection`]) until it is sure. What is claimed is claimed of the
//! line-ups that were raced: that one which was left out is worse is not shown by anything, and it is said so.

mod doubt;
mod lines;
mod question;
#[cfg(test)]
mod rates;
mod sieve;
mod told;

use scenarios::{Candidate, WHERE};

pub(crate) use lines::who_lines;
pub(crate) use question::{QUESTION, question};
pub(crate) use sieve::{TRIED_POSSESSIONS, best, to_try};
pub(crate) use told::{Told, told};

/// Line-ups that are raced by what they seem to be worth, at most. (a choice: some minutes on two cores)
pub const MOST: usize = 16;

/// Places of [`WHERE`].
const GUARD: usize = 0;
const ROVER: usize = 1;
const POST: usize = 2;

/// Five players by their places in the squad: lead guard, off guard, rover, post on the rover's side, other post.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lineup(pub [usize; 5]);

/// The roles in a line-up's order, as rosters have them.
pub const ROLES: [&str; 5] = ["lead-guard", "off-guard", "rover", "rover-side-post", "other-post"];

/// Where each of a line-up plays.
const PLACES: [usize; 5] = [GUARD, GUARD, ROVER, POST, POST];

impl Lineup {
    /// The players in a place, in the squad's order.
    pub fn players(&self, place: usize) -> impl Iterator<Item = usize> {
        self.0.into_iter().zip(PLACES).filter(move |(_, own)| *own == place).map(|(player, _)| player)
    }

    /// In words: `rover Kit; guards 4 and 11; posts 32 and 35`.
    #[must_use]
    pub fn words(&self, squad: &[Candidate]) -> String {
        let [lead, off, rover, near, far] = self.0.map(|player| squad[player].name.as_str());
        format!("rover {rover}; guards {lead} and {off}; posts {near} and {far}")
    }

    /// Whether another has the same players but for one in this place.
    pub fn is_but_one(&self, other: &Self, place: usize) -> bool {
        let mut rest = (0..WHERE.len()).filter(|own| *own != place);
        let own: Vec<usize> = self.players(place).collect();
        let strange = other.players(place).filter(|player| !own.contains(player)).count();
        strange == 1 && rest.all(|place| self.players(place).eq(other.players(place)))
    }

    /// Its players with their roles.
    pub fn roles(&self) -> [(usize, &'static str); 5] {
        std::array::from_fn(|nth| (self.0[nth], ROLES[nth]))
    }
}

/// All line-ups of a squad, in its order: the first has whoever stands first in each place.
#[must_use]
pub fn lineups(squad: &[Candidate]) -> Vec<Lineup> {
    let may = |place: usize| (0..squad.len()).filter(move |&player| squad[player].plays[place]);
    let pairs =
        |place: usize| may(place).flat_map(move |a| may(place).filter(move |b| *b > a).map(move |b| (a, b)));
    let mut all = Vec::new();
    for rover in may(ROVER) {
        for (lead, off) in pairs(GUARD).filter(|&(a, b)| a != rover && b != rover) {
            let taken = [rover, lead, off];
            let posts = pairs(POST).filter(|(a, b)| !taken.contains(a) && !taken.contains(b));
            all.extend(posts.map(|(near, far)| Lineup([lead, off, rover, near, far])));
        }
    }
    all
}

/// The place that too few may play, in words; None where a line-up can be made.
#[must_use]
pub fn lacking(squad: &[Candidate]) -> Option<String> {
    let wanted = [2, 1, 2];
    let count = |place: usize| squad.iter().filter(|own| own.plays[place]).count();
    let short = (0..WHERE.len()).find(|&place| count(place) < wanted[place]);
    if let Some(place) = short {
        return Some(format!("{} may play {}, it takes {}", count(place), WHERE[place], wanted[place]));
    }
    lineups(squad).is_empty().then(|| "no five of them fill two guards, a rover and two posts".into())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// Players of a squad that is read from a text.
    pub(crate) fn squad(plays: &[&str]) -> scenarios::Squad {
        let home = tempfile::tempdir().unwrap();
        let file = home.path().join("squad.csv");
        let rows: String = plays.iter().enumerate().map(|(nth, plays)| format!("p{nth},{plays}\n")).collect();
        std::fs::write(&file, format!("name,plays\n{rows}")).unwrap();
        scenarios::squad(&file).unwrap()
    }

    #[test]
    fn every_five_that_may_is_a_line_up_once_and_the_first_is_the_order_of_the_file() {
        let six = squad(&["guard", "guard", "rover", "rover", "post", "post"]).candidates;
        assert_eq!(lineups(&six), [Lineup([0, 1, 2, 4, 5]), Lineup([0, 1, 3, 4, 5])]);
        assert_eq!(lineups(&six)[1].words(&six), "rover p3; guards p0 and p1; posts p4 and p5");
        let ten = squad(&[""; 10]).candidates;
        let all = lineups(&ten);
        assert_eq!((all.len(), all[0]), (7_560, Lineup([1, 2, 0, 3, 4])));
        assert!(all.iter().all(|own| (0..5).all(|a| (0..a).all(|b| own.0[a] != own.0[b]))));
    }

    #[test]
    fn what_is_lacking_is_named() {
        let told = |plays: &[&str]| lacking(&squad(plays).candidates);
        assert_eq!(
            told(&["guard", "rover", "rover", "post", "post", "post"]).unwrap(),
            "1 may play guard, it takes 2"
        );
        assert!(
            told(&["guard", "guard", "guard rover", "guard rover", "post rover", "post rover"]).is_none()
        );
        assert!(told(&["guard rover", "guard", "post", "post", "guard", "guard"]).is_none());
        assert!(told(&["guard rover", "guard", "post", "post", "post", "post"]).unwrap().contains("no five"));
    }
}
