//! Reading numbers: ranges, lengths in metres or feet, values with their sources.

use crate::declared::{Kind, Need};
use crate::hint::{self, Unit};
use crate::key::{Key, plain};
use crate::read::{Inside, Mend, Reader};
use crate::text::Text;
use crate::tree::{Data, Node};

impl<'d> Reader<'d> {
    /// The value of a length that is given in feet under its other name, if the key is there.
    fn find_feet(&self, key: Key) -> Option<&'d Node> {
        let name = key.in_feet()?;
        // Known where it is used, but not named beside each length in metres.
        let node = self.node.get(&name).map(|entry| &entry.node)?;
        self.ask(&name);
        Some(node)
    }

    /// A length, or another number, by either of its names; true where it is given in feet by name.
    fn either(&self, key: Key) -> Option<(&'d Node, bool)> {
        match (self.look(key.name), self.find_feet(key)) {
            (Some(_), Some(feet)) => {
                let both = key.in_feet().unwrap_or_default();
                let allowed = format!("one of {} and {both}, not both", key.name);
                self.refuse_at(key, feet, self.path_of(&both), allowed, None);
                None
            }
            (Some(node), None) => Some((node, false)),
            (None, Some(node)) => Some((node, true)),
            (None, None) => None,
        }
    }

    /// A number, if the key is there. A length may be given in feet under its other name.
    pub fn maybe_number(&self, name: &str) -> Option<f32> {
        let field = self.field(name);
        debug_assert!(
            matches!(field.kind, Kind::Number | Kind::NumberOrNone | Kind::Parameter),
            "`{name}` is no number"
        );
        let key = field.key;
        let (node, by_name) = self.either(key)?;
        let unit = match (by_name, key.unit == "m" && key.in_feet().is_none()) {
            (true, _) => Unit::FeetByName,
            (false, true) => self.file_unit(node),
            (false, false) => Unit::Own,
        };
        Some(self.judge(key, node, unit))
    }

    pub(super) fn file_unit(&self, node: &Node) -> Unit {
        if self.desk.in_feet(node.origin) { Unit::FileFeet } else { Unit::FileMetres }
    }

    /// The number in a node, held to the key's range.
    pub(super) fn judge(&self, key: Key, node: &Node, unit: Unit) -> f32 {
        self.judge_at(key, node, unit, None)
    }

    fn judge_at(&self, key: Key, node: &Node, unit: Unit, path: Option<String>) -> f32 {
        if let Some(number) = node.number().map(|number| number * unit.scale())
            && key.holds(number)
        {
            return number as f32;
        }
        let range = key.allowed_in(unit.is_feet());
        let allowed = if node.number().is_some() { range } else { format!("a number, {range}") };
        let own = || match (unit, key.in_feet()) {
            (Unit::FeetByName, Some(feet)) => self.path_of(&feet),
            _ => self.path_of(key.name),
        };
        let mend = hint::for_number(&key, &node.data, unit).map(Mend::Hint);
        self.refuse_at(key, node, path.unwrap_or_else(own), allowed, mend);
        // As near as may be, so that what hangs on it is not refused as well.
        let number = node.number().filter(|number| number.is_finite());
        number.map_or(key.low, |number| (number * unit.scale()).clamp(key.low, key.high)) as f32
    }

    /// The number under a made-up name, or in a list under a key; `None` where it is out of range.
    pub fn number_in(&self, name: &str, node: &Node) -> Option<f32> {
        let key = self.field(name).key;
        let fits = node.number().is_some_and(|number| key.holds(number));
        let number = self.judge_at(key, node, Unit::Own, Some(self.path_of(name)));
        fits.then_some(number)
    }

    /// A number, or what stands in for it; a fault where it has to be there.
    pub fn number(&self, name: &str) -> f32 {
        let field = self.field(name);
        self.maybe_number(name).unwrap_or_else(|| match field.need {
            Need::Number(default) => default,
            _ => {
                if !self.has(name) {
                    self.missing(name, field.key.allowed());
                }
                field.key.low as f32
            }
        })
    }

    /// A number, or that of the file that this table lies over.
    pub fn number_over(&self, name: &str, below: f32) -> f32 {
        self.maybe_number(name).unwrap_or(below)
    }

    /// A number or the word `none`, if the key is there; a fault where it has to be.
    pub fn number_or_none(&self, name: &str) -> Option<Option<f32>> {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::NumberOrNone), "`{name}` may not be none");
        let Some((node, by_name)) = self.either(field.key) else {
            if field.is_needed() && !self.has(name) {
                self.missing(name, format!("{}, or \"none\"", field.key.allowed()));
            }
            return None;
        };
        if node.text() == Some("none") {
            return Some(None);
        }
        let unit = if by_name { Unit::FeetByName } else { Unit::Own };
        if node.number().is_some() {
            return Some(Some(self.judge(field.key, node, unit)));
        }
        let own = field.key.in_feet().filter(|_| by_name).unwrap_or_else(|| name.to_owned());
        let allowed = format!("a number, {}, or \"none\"", field.key.allowed_in(by_name));
        let mend = hint::for_number(&field.key, &node.data, unit).map(Mend::Hint);
        self.refuse_at(field.key, node, self.path_of(&own), allowed, mend);
        Some(None)
    }

    /// A number written as `{ value, range, source }`, if the key is there.
    pub fn maybe_sourced(&self, name: &str) -> Option<f32> {
        self.find(name)?;
        Some(self.sourced(name))
    }

    /// A number written as `{ value, range, source }`: the value, held to both ranges.
    pub fn sourced(&self, name: &str) -> f32 {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::Parameter), "`{name}` needs no source");
        let key = field.key;
        let Some((node, by_name)) = self.either(key) else {
            if !self.has(name) {
                self.missing(name, "a table { value, range, source }".into());
            }
            return key.low as f32;
        };
        let unit = if by_name { Unit::FeetByName } else { Unit::Own };
        let name = key.in_feet().filter(|_| by_name).unwrap_or_else(|| key.name.to_owned());
        let Data::Table(_) = node.data else {
            let allowed = format!("a table {{ value, range, source }}, the value {}", key.allowed());
            let hint = node.number().map(|number| {
                let number = plain(number);
                Mend::Hint(format!(
                    "Write {{ value = {number}, range = [{number}, {number}], source = \"assumed\" }}, with the \
                     range that you think possible and the source that you have."
                ))
            });
            self.refuse_at(key, node, self.path_of(&name), allowed, hint);
            return key.low as f32;
        };
        let path = self.path_of(&name);
        Reader::new(self.desk, node, path, Inside::Source, Some(key.doc)).value_of_source(key, unit)
    }

    /// The value in a table `{ value, range, source }`.
    fn value_of_source(&self, key: Key, unit: Unit) -> f32 {
        let (of_value, of_range) = (Key { name: "value", ..key }, Key { name: "range", ..key });
        let source = Key {
            name: "source",
            unit: "",
            low: 0.0,
            high: 0.0,
            doc: "Where the value comes from, or 'assumed'.",
        };
        let value = match self.look("value") {
            Some(node) => self.judge(of_value, node, unit),
            None => {
                self.missing_of(of_value, key.allowed_in(unit.is_feet()));
                key.low as f32
            }
        };
        let within = || format!("[low, high], the lower first, within {}", key.allowed_in(unit.is_feet()));
        match self.look("range") {
            None => self.missing_of(of_range, within()),
            Some(node) => {
                let members = node.members();
                let ends = members.iter().map(|end| end.number().map(|end| end * unit.scale()));
                match ends.collect::<Option<Vec<f64>>>().as_deref() {
                    Some([low, high]) if low <= high && key.holds(*low) && key.holds(*high) => {
                        if (value < *low as f32 || value > *high as f32)
                            && let Some(node) = self.look("value")
                        {
                            let [low, high] = [&members[0], &members[1]].map(|end| self.desk.written(end));
                            let (path, allowed) =
                                (self.path_of("value"), format!("its own range, {low} to {high}"));
                            self.refuse_at(of_value, node, path, allowed, None);
                        }
                    }
                    _ => self.refuse_at(of_range, node, self.path_of("range"), within(), None),
                }
            }
        }
        match self.look("source") {
            Some(node) => drop(self.text_of(source, Text::Prose, node, "a text in quotes")),
            None => self.missing_of(source, "a text".into()),
        }
        value
    }

    /// A whole number, or what stands in for it.
    pub fn whole(&self, name: &str) -> u64 {
        let default = if let Need::Whole(default) = self.field(name).need { default } else { 0 };
        self.maybe_whole(name).unwrap_or(default)
    }

    /// A whole number, if the key is there.
    pub fn maybe_whole(&self, name: &str) -> Option<u64> {
        let field = self.field(name);
        debug_assert!(matches!(field.kind, Kind::Whole), "`{name}` is no whole number");
        let (key, node) = (field.key, self.find(name)?);
        if let Data::Whole(whole) = node.data
            && key.holds(whole as f64)
        {
            return u64::try_from(whole).ok();
        }
        let mend = match node.data {
            Data::Number(number) if number.fract() == 0.0 && key.holds(number) => {
                Some(Mend::Hint(format!("Write {number:.0}, without a point.")))
            }
            _ => hint::for_number(&key, &node.data, Unit::Own).map(Mend::Hint),
        };
        let allowed = format!("a whole number, {}", key.allowed());
        self.refuse_at(key, node, self.path_of(name), allowed, mend);
        None
    }
}
