//! Which read (route or option) made the open looks of a variant, and who took them.

use engine::Places;
use engine::setup::Setup;

use super::names::ATTACKERS;
use crate::wording::program_kind;

/// The read that made most of the open looks, and who took them.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// Open looks taken, all reads together.
    pub looks: i64,
    /// Name of the route or option; `none` where no read made the look.
    pub name: String,
    /// `route`, `post option`, `guard option` or `none`.
    pub kind: &'static str,
    /// Its looks.
    pub own: i64,
    /// The role that took most of its looks.
    pub shooter: &'static str,
    /// How many of them.
    pub by_shooter: i64,
}

/// Kind and name of no read.
pub const NONE: &str = "none";

/// The reads that made open looks, most first, equals in the order of the programs. A route's or an option's file
/// may hold several programs; they are one read.
pub(super) fn reads(places: &Places, setup: &Setup) -> Vec<Read> {
    let programs = &setup.attack.programs;
    let mut by_name: Vec<(&str, &'static str, [i64; 5])> = Vec::new();
    for read in (0..programs.len()).map(Some).chain([None]) {
        let (name, kind) = read
            .map_or((NONE, NONE), |read| (programs[read].name.as_str(), program_kind(programs[read].kind)));
        let looks = places.looks(read);
        match by_name.iter_mut().find(|other| (other.0, other.1) == (name, kind)) {
            Some(other) => other.2.iter_mut().zip(looks).for_each(|(n, more)| *n += more),
            None => by_name.push((name, kind, looks)),
        }
    }
    let looks = by_name.iter().map(|read| read.2.iter().sum::<i64>()).sum();
    let read = |(name, kind, by): (&str, &'static str, [i64; 5])| {
        let shooter = (1..5).fold(0, |best, role| if by[role] > by[best] { role } else { best });
        let (own, by_shooter) = (by.iter().sum(), by[shooter]);
        Read { looks, name: name.to_owned(), kind, own, shooter: ATTACKERS[shooter], by_shooter }
    };
    let mut reads: Vec<Read> = by_name.into_iter().map(read).filter(|read| read.own > 0).collect();
    reads.sort_by_key(|read| -read.own);
    reads
}
