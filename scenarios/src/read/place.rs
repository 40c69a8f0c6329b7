//! Reading places on the floor, in the file's unit of length.

use engine::math::{Vec2, vec2};

use crate::asked::{Default, What};
use crate::key::Key;
use crate::read::Reader;
use crate::tree::Node;

impl Reader<'_> {
    /// A place, if the key is there.
    pub fn maybe_place(&self, key: Key) -> Option<Vec2> {
        self.seek(key, What::Place, Default::Nothing).map(|node| self.place_of(key, node))
    }

    /// A place, or that of the file that this table lies over.
    pub fn place_over(&self, key: Key) -> Option<Vec2> {
        self.seek(key, What::Place, Default::FileBelow).map(|node| self.place_of(key, node))
    }

    /// A place that has to be there.
    pub fn place(&self, key: Key) -> Vec2 {
        self.maybe_place(key).unwrap_or_else(|| {
            self.missing(key, "a place [x, y]".into());
            Vec2::RIM
        })
    }

    /// Places in a list of just so many; `None` where it is not there or not so long.
    pub fn places(&self, key: Key, (count, fixed): (usize, bool), allowed: String) -> Option<Vec<Vec2>> {
        let node = self.seek(key, What::Places(fixed.then_some(count)), Default::Nothing)?;
        if node.members().len() != count {
            self.refuse(key, node, allowed, None);
            return None;
        }
        Some(node.members().iter().map(|node| self.place_of(key, node)).collect())
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
        self.refuse(key, node, "a place [x, y]".into(), None);
        Vec2::RIM
    }
}
