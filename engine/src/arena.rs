//! Plays possessions: one world and one schedule, reused.

use crate::camera;
use crate::events::Event;
use crate::film::Film;
use crate::measures::Measure;
use crate::record::{Outcome, PossessionRecord, VALUE_SHIFT, fold};
use crate::scribe::Page;
use crate::setup::Setup;
use crate::start;
use crate::state::*;
use crate::step;
use bevy_ecs::prelude::{Entity, Schedule, World};
use std::ops::Range;
use std::sync::Arc;

/// A world and its schedule. Make one a thread and reuse it; it may change its setup between calls.
pub struct Arena {
    pub(crate) world: World,
    schedule: Schedule,
    stages: Vec<Schedule>,
    pub(crate) entities: Vec<Entity>,
    tables: TableCache,
    counts_returns: bool,
    /// Kept, so that their room is used again.
    pages: Vec<Page>,
}

impl Arena {
    /// How many possessions a world plays side by side: as many as a core's cache holds with what each of them has, some
    /// 15 kB. (measured 2026-11-30, one core of two: 64 take 4 % longer, 4 to 12 as long)
    pub const WIDTH: usize = 16;

    /// An arena that plays up to `width` possessions side by side.
    pub fn new(width: usize) -> Self {
        let mut world = World::new();
        world.init_resource::<Places>();
        world.init_resource::<Returns>();
        let entities = (0..width.max(1)).map(|_| world.spawn(Possession::default()).id()).collect();
        Self {
            world,
            schedule: step::schedule(),
            stages: Vec::new(),
            entities,
            tables: TableCache::default(),
            counts_returns: false,
            pages: Vec::new(),
        }
    }

    /// Plays every possession of the range and hands its record over, in order of finishing.
    pub fn play(
        &mut self,
        setup: &Arc<Setup>,
        seed: u64,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord),
    ) {
        self.play_all(setup, seed, possessions, &mut [], &mut |record, _| each(record));
    }

    /// Plays the same possessions, and hands each record over with its events.
    pub fn play_with_events(
        &mut self,
        setup: &Arc<Setup>,
        seed: u64,
        possessions: Range<u64>,
        each: &mut dyn FnMut(&PossessionRecord, &[Event]),
    ) {
        // Taken out, so that a world that broke down leaves nothing half written in it.
        let mut pages = std::mem::take(&mut self.pages);
        pages.resize(self.entities.len(), Page::default());
        self.play_all(setup, seed, possessions, &mut pages, each);
        self.pages = pages;
    }

    /// Plays; writes a page for each possession side by side where there are pages.
    fn play_all(
        &mut self,
        setup: &Arc<Setup>,
        seed: u64,
        possessions: Range<u64>,
        pages: &mut [Page],
        each: &mut dyn FnMut(&PossessionRecord, &[Event]),
    ) {
        let given = self.prepare(setup);
        let mut next = possessions.start;
        let mut playing = 0_usize;
        for index in 0..self.entities.len() {
            self.clear(index);
            if next < possessions.end {
                self.begin_on(&given, index, (seed, next), pages);
                next += 1;
                playing += 1;
            }
        }
        while playing > 0 {
            self.schedule.run(&mut self.world);
            for (page, entity) in pages.iter_mut().zip(&self.entities) {
                page.write(&self.world, *entity);
            }
            for index in 0..self.entities.len() {
                let Some(record) = self.finished(index) else { continue };
                each(&record, pages.get_mut(index).map_or(&[], Page::events));
                if next < possessions.end {
                    self.begin_on(&given, index, (seed, next), pages);
                    next += 1;
                } else {
                    self.clear(index);
                    playing -= 1;
                }
            }
        }
    }

    /// Starts one possession of a seed, and its page if there is one.
    fn begin_on(&mut self, given: &Given, index: usize, (seed, possession): (u64, u64), pages: &mut [Page]) {
        self.begin(given, index, seed, possession);
        if let Some(page) = pages.get_mut(index) {
            page.begin(&self.world, self.entities[index]);
        }
    }

    /// Counts by place of everything since [`Arena::play`] was called last.
    pub fn places(&self) -> &Places {
        self.world.resource()
    }

    /// Whether what follows each state is counted from now on; see [`Arena::returns`].
    pub fn count_returns(&mut self, on: bool) {
        self.counts_returns = on;
    }

    /// What followed each state, of everything since [`Arena::play`] was called last.
    pub fn returns(&self) -> &Returns {
        self.world.resource()
    }

    /// Makes everything ready for a setup's possessions.
    fn prepare(&mut self, setup: &Arc<Setup>) -> Given {
        let given = self.tables.prepare(setup);
        self.world.insert_resource(given.clone());
        self.world.resource_mut::<Places>().begin(setup);
        self.world.resource_mut::<Returns>().begin(self.counts_returns);
        given
    }

    /// Runs one step of whatever is being played; for benchmarks of the steps themselves.
    pub fn step(&mut self) {
        self.schedule.run(&mut self.world);
    }

    /// Runs one stage alone (by its place in [`step::STAGES`]); the eight in order are one step.
    pub fn run_stage(&mut self, stage: usize) {
        if self.stages.is_empty() {
            self.stages = (0..step::STAGES.len()).map(step::stage).collect();
        }
        self.stages[stage].run(&mut self.world);
    }

    /// Starts as many possessions as fit side by side without playing them; for benchmarks and tests of single steps.
    pub fn fill(&mut self, setup: &Arc<Setup>, seed: u64) {
        let given = self.prepare(setup);
        for index in 0..self.entities.len() {
            self.begin(&given, index, seed, index as u64);
        }
    }

    /// Starts one possession, in the first entity, without playing it.
    pub(crate) fn fill_from(&mut self, setup: &Arc<Setup>, seed: u64, possession: u64) {
        let given = self.prepare(setup);
        self.begin(&given, 0, seed, possession);
    }

    fn clear(&mut self, index: usize) {
        if let Some(mut clocks) = self.world.get_mut::<Clocks>(self.entities[index]) {
            clocks.status = Status::Idle;
        }
    }

    fn begin(&mut self, given: &Given, index: usize, seed: u64, possession: u64) {
        self.change(index, |parts| start::begin(given, seed, possession, parts));
    }

    /// Changes the components of one possession.
    pub(crate) fn change(&mut self, index: usize, change: impl FnOnce(&mut PartsItem<'_, '_>)) {
        let mut entity = self.world.entity_mut(self.entities[index]);
        let Ok(mut parts) = entity.get_components_mut::<Parts>() else {
            unreachable!("every entity has all its components")
        };
        change(&mut parts);
    }

    fn finished(&self, index: usize) -> Option<PossessionRecord> {
        let entity = self.world.entity(self.entities[index]);
        let clocks = entity.get::<Clocks>()?;
        let Status::Done(outcome) = clocks.status else { return None };
        let tally = entity.get::<Tally>()?;
        let progress = entity.get::<Progress>()?;
        Some(record(clocks.possession, outcome, tally, progress.forced))
    }
}

/// The record of a possession that is over.
fn record(possession: u64, outcome: Outcome, tally: &Tally, forced: bool) -> PossessionRecord {
    let mut digest = tally.digest;
    for value in tally.values {
        digest = fold(digest, value as u64, VALUE_SHIFT);
    }
    debug_assert_eq!(tally.values[..6].iter().sum::<i64>(), 1, "exactly one outcome");
    PossessionRecord { possession, outcome, values: tally.values, digest, forced }
}

/// One possession again, with its frames and events.
pub fn film(setup: &Arc<Setup>, seed: u64, possession: u64) -> Film {
    Arena::new(1).film(setup, seed, possession)
}

impl Arena {
    /// One possession again, with its frames and events; an arena that is kept keeps its tables.
    pub fn film(&mut self, setup: &Arc<Setup>, seed: u64, possession: u64) -> Film {
        for index in 1..self.entities.len() {
            self.clear(index);
        }
        self.fill_from(setup, seed, possession);
        let mut reel = Film {
            record: PossessionRecord {
                possession,
                outcome: Outcome::Fault,
                values: [0; Measure::COUNT],
                digest: 0,
                forced: false,
            },
            side: 1.0,
            frames: Vec::new(),
            events: Vec::new(),
        };
        camera::shoot(&self.world, self.entities[0], &mut reel);
        loop {
            self.schedule.run(&mut self.world);
            camera::shoot(&self.world, self.entities[0], &mut reel);
            if let Some(record) = self.finished(0) {
                reel.record = record;
                return reel;
            }
        }
    }
}
