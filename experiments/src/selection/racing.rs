//! A selection that is on: it says what is to be played next, takes in what that came to, and can be stopped at a look.

use std::ops::Range;

use super::{Dropped, Ended, FROM, Selected, Selection};
use crate::columns::{CONFIDENCE, Column};
use crate::crash::Crash;
use crate::digest::ResultDigest;
use crate::run::Played;
use crate::stats::{End, Look, Race, Standing, UntilSure};

/// A race of named variants by a column, with what a selection tells of it beside.
pub(crate) struct Racing {
    race: Race,
    names: Vec<String>,
    column: &'static Column,
    until: UntilSure,
    /// Possessions of each variant at which it ends, though it is not sure.
    stop_at: Option<u64>,
    /// Variants that have had a figure in any of the possessions.
    have: Vec<bool>,
    digest: ResultDigest,
    crashes: Vec<(String, Crash)>,
    in_all: u64,
}

impl Racing {
    /// Of variants that nothing has been played of.
    pub fn new(names: &[String], column: &'static Column, until: UntilSure) -> Self {
        Self {
            race: Race::new(names.len(), column.better, CONFIDENCE, until),
            names: names.to_vec(),
            column,
            until,
            stop_at: None,
            have: vec![false; names.len()],
            digest: ResultDigest::default(),
            crashes: Vec::new(),
            in_all: 0,
        }
    }

    /// The same, ended at the look after so many possessions of each variant at the latest, where that is said.
    pub fn stopped_at(self, stop_at: Option<u64>) -> Self {
        Self { stop_at, ..self }
    }

    /// The variants, by their places among the names, and the possession numbers that are to be played next; None where it
    /// has ended.
    pub fn to_play(&self) -> Option<(Vec<usize>, Range<u64>)> {
        let (left, possessions) = self.race.to_play()?;
        Some((left.to_vec(), FROM + possessions.start..FROM + possessions.end))
    }

    /// Takes in what was asked for by [`Racing::to_play`], and looks.
    pub fn take(&mut self, played: Played) {
        let left = self.race.left().to_vec();
        self.in_all += left.len() as u64 * played.totals.possessions();
        self.digest.merge(played.digest);
        let named = |crash: Crash| (self.names[left[crash.variant]].clone(), crash);
        self.crashes.extend(played.crashes.into_iter().map(named));
        for (at, &v) in left.iter().enumerate() {
            self.have[v] |= self.column.interval(&played.totals, at, 0.0).is_some();
        }
        self.race.look(&played.totals, |totals| self.column.joint(totals));
        if self.stop_at.is_some_and(|look| self.looked_at() >= look) {
            self.stop();
        }
    }

    /// Takes no more looks, once there has been one.
    pub fn stop(&mut self) {
        self.race.stop();
    }

    /// The looks so far.
    pub fn looks(&self) -> &[Look] {
        self.race.taken()
    }

    /// Possessions of each variant up to the last look.
    pub fn looked_at(&self) -> u64 {
        self.looks().last().map_or(0, |look| look.possessions)
    }

    /// The last look at a variant, by its place among the names.
    pub fn last_seen(&self, variant: usize) -> Option<(&Look, &Standing)> {
        self.race.last_seen(variant)
    }

    /// The variants, in plan order.
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// What they are compared by.
    pub fn column(&self) -> &'static Column {
        self.column
    }

    /// What it came to, once it has ended.
    pub fn selected(self) -> Selected {
        let Self { race, names, column, until, have, digest, crashes, in_all, .. } = self;
        let lacks = |v: &usize| race.end() == Some(End::NoData) && !have[*v];
        let named = |v: &usize| names[*v].clone();
        let mut dropped: Vec<Dropped> = (0..names.len())
            .filter(|v| !race.left().contains(v))
            .filter_map(|v| {
                Some(Dropped { variant: named(&v), possessions: race.last_seen(v)?.0.possessions })
            })
            .collect();
        dropped.sort_by_key(|own| own.possessions);
        let selection = Selection {
            measure: column.key.to_owned(),
            margin: until.margin,
            budget: until.budget,
            ended: race.end().map_or(Ended::NoData, Ended::from),
            looks: race.taken().len(),
            possessions: race.taken().last().map_or(0, |look| look.possessions),
            possessions_in_all: in_all,
            from: FROM,
            ahead: race.ahead().as_ref().map_or_else(String::new, named),
            left: race.left().iter().map(named).collect(),
            dropped,
            lacking: (0..names.len()).filter(lacks).map(|v| named(&v)).collect(),
            digest: digest.to_string(),
        };
        Selected { selection, crashes, race, names }
    }
}
