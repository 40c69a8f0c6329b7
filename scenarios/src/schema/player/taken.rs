//! How shots are taken in the model, by kind and position: distances, space, off the catch or not, and by whom.
//!
//! The table is measured and not set: it is written by a study of the tests over the bundled experiments, where five players
//! differ as those of a team do and what they can do is known, by quarters of the space. A position that took too few of a
//! kind has everybody's.

use std::sync::LazyLock;

/// A group of shots that are taken alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Taken {
    /// So many were seen.
    pub shots: f32,
    /// Whether off the catch.
    pub off_catch: bool,
    /// Mean distance from the rim, of threes from the arc, m.
    pub distance_m: f32,
    /// Mean room from the nearest defender, no more of it than matters, m.
    pub space_m: f32,
    /// How much better than the mean of their team those shoot who took them, logit.
    pub takers: f32,
}

/// Whose shots are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    Guards,
    Rover,
    Posts,
    /// Of one who may play in several places: a place with easier shots makes him no worse a shooter.
    Everybody,
}

impl By {
    /// Words of the table.
    const ALL: [(&'static str, By); 4] =
        [("guards", By::Guards), ("rover", By::Rover), ("posts", By::Posts), ("everybody", By::Everybody)];

    /// Who plays in a slot.
    pub fn slot(slot: usize) -> Self {
        match slot {
            0 | 1 => Self::Guards,
            2 => Self::Rover,
            _ => Self::Posts,
        }
    }
}

const TABLE: &str = include_str!("../../../data/shots-taken.csv");

static ALL: LazyLock<Vec<(String, By, Taken)>> = LazyLock::new(|| {
    TABLE.lines().skip(1).map(|line| row(line).unwrap_or_else(|| panic!("{line}"))).collect()
});

/// A row of the table: kind, by whom, whether off the catch, shots, distance, space, takers.
fn row(line: &str) -> Option<(String, By, Taken)> {
    let cells: Vec<&str> = line.split(',').collect();
    let &[kind, by, off_catch, shots, distance_m, space_m, takers] = cells.as_slice() else { return None };
    let by = By::ALL.iter().find(|(word, _)| *word == by)?.1;
    let number = |cell: &str| cell.parse().ok();
    let taken = Taken {
        shots: number(shots)?,
        off_catch: off_catch.parse().ok()?,
        distance_m: number(distance_m)?,
        space_m: number(space_m)?,
        takers: number(takers)?,
    };
    Some((kind.to_owned(), by, taken))
}

/// The groups of a kind of shot, by the key of its share.
pub(super) fn taken(kind: &str, by: By) -> impl Iterator<Item = &'static Taken> {
    ALL.iter().filter(move |(own, whose, _)| own == kind && *whose == by).map(|(.., taken)| taken)
}

/// The mean of something over groups, each by its shots.
pub(super) fn mean<'t>(groups: impl Iterator<Item = &'t Taken>, of: impl Fn(&Taken) -> f32) -> f32 {
    let (sum, shots) = groups.fold((0.0, 0.0), |sum, own| (sum.0 + own.shots * of(own), sum.1 + own.shots));
    sum / shots
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_position_has_shots_of_every_kind() {
        for kind in ["rim", "short", "mid_range", "threes", "open_threes"] {
            for (word, by) in By::ALL {
                let shots: f32 = taken(kind, by).map(|own| own.shots).sum();
                assert!(shots >= 100.0, "{kind} by {word}: {shots}");
            }
        }
        assert_eq!(ALL.len(), TABLE.lines().count() - 1);
    }

    #[test]
    fn a_row_is_read_whole_or_not_at_all() {
        assert!(row("rim,rover,true,10,0.5,0.5,0.1").is_some());
        for bad in
            ["rim,rover,true,10,0.5,0.5", "rim,wing,true,10,0.5,0.5,0.1", "rim,rover,yes,10,0.5,0.5,0.1"]
        {
            assert_eq!(row(bad), None, "{bad}");
        }
    }
}
