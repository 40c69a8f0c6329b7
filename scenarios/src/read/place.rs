//! Reading places on the floor, in the file's unit of length.

use engine::math::{Vec2, vec2};

use crate::declared::Kind;
use crate::key::Key;
use crate::read::Reader;
use crate::tree::Node;

impl Reader<'_> {
    /// A place, if the key is there.
    pub fn maybe_place(&self, name: &str) -> Option<Vec2> {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::Place), "`{name}` is no place");
        self.find(name).map(|node| self.place_of(field.key, node))
    }

    /// A place that has to be there.
    pub fn place(&self, name: &str) -> Vec2 {
        self.maybe_place(name).unwrap_or_else(|| {
            self.missing(name, "a place [x, y]".into());
            Vec2::RIM
        })
    }

    /// Places in a list of just so many; `None` where it is not there or not so long.
    pub fn places(&self, name: &str, count: usize, allowed: String) -> Option<Vec<Vec2>> {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::List(Kind::Place, _)), "`{name}` is no list of places");
        let node = self.find(name)?;
        if node.members().len() != count {
            self.refuse(name, node, allowed, None);
            return None;
        }
        Some(node.members().iter().map(|node| self.place_of(field.key, node)).collect())
    }

    /// The place `[x, y]` in a node.
    fn place_of(&self, key: Key, node: &Node) -> Vec2 {
        if let [x, y] = node.members() {
            let unit = self.file_unit(node);
            let fits = |at: &Node| at.number().is_some_and(|number| key.holds(number * unit.scale()));
            let place = vec2(self.judge(key, x, unit), self.judge(key, y, unit));
            // What was refused by itself is not refused again as no place on the floor.
            return if fits(x) && fits(y) { place } else { Vec2::RIM };
        }
        self.refuse_at(key, node, self.path_of(key.name), "a place [x, y]".into(), None);
        Vec2::RIM
    }
}
