//! The words a trace is told in, apart from the telling, so that a trace can be tested without a whole setup.

use engine::film::{Film, Slot};
use engine::math::Vec2;
use engine::names;
use engine::setup::{ProgramKind, Setup};

use crate::units::Units;

/// Names of players, places and programs.
pub trait Words {
    /// `rover`, `left wing`, or a name of his own.
    fn player(&self, player: Slot) -> String;
    /// Whether that is a name of his own.
    fn is_named(&self, _: Slot) -> bool {
        false
    }
    /// `the left wing`, `under the rim`, ...
    fn place(&self, at: Vec2) -> String;
    /// Name of a program: a route, a post option, a guard option.
    fn program(&self, program: u8) -> String;
    /// Names of the routes that the attack has.
    fn routes(&self) -> Vec<String>;
    /// What lengths are told in.
    fn units(&self) -> Units;
}

/// The engine's names for one film.
pub struct SetupWords<'a> {
    setup: &'a Setup,
    side: f32,
    units: Units,
}

impl<'a> SetupWords<'a> {
    /// For a film of this setup, with lengths told in these units.
    pub fn new(setup: &'a Setup, film: &Film, units: Units) -> Self {
        Self { setup, side: film.side, units }
    }
}

impl Words for SetupWords<'_> {
    fn player(&self, player: Slot) -> String {
        names::player(self.setup, self.side, player)
    }

    fn is_named(&self, player: Slot) -> bool {
        names::own(self.setup, player).is_some()
    }

    fn place(&self, at: Vec2) -> String {
        names::place(self.setup, at)
    }

    fn program(&self, program: u8) -> String {
        let program = self.setup.attack.programs.get(usize::from(program));
        program.map_or_else(|| "a program".into(), |program| program.name.clone())
    }
    fn routes(&self) -> Vec<String> {
        let routes = self.setup.attack.programs.iter().filter(|program| program.kind == ProgramKind::Route);
        let mut names: Vec<String> = routes.map(|program| program.name.clone()).collect();
        // A route may have several programs.
        names.dedup();
        names
    }

    fn units(&self) -> Units {
        self.units
    }
}
