//! What was typed: the fields of a form, by name.

use scenarios::catalog;

use super::choices::{BUDGET, JUDGED, KINDS, Kind, LONG, MARGIN, MOST, POSSESSIONS, RULES};
use crate::stats::UntilSure;
use crate::wording::TWENTY;

/// The fields that were sent, in their order; a box that was ticked once each.
#[derive(Clone, Debug, Default)]
pub struct Fields(pub Vec<(String, String)>);

impl Fields {
    /// These fields with these values.
    pub fn of(typed: &[(&str, &str)]) -> Self {
        Self(typed.iter().map(|(name, value)| ((*name).into(), (*value).into())).collect())
    }

    /// What stands in a field, without blanks round it; None where it is empty or was not sent.
    pub fn get(&self, name: &str) -> Option<&str> {
        let own = |(key, value): &&(String, String)| key == name && !value.trim().is_empty();
        self.0.iter().find(own).map(|(_, value)| value.trim())
    }

    /// All that was ticked under a name.
    pub fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        self.0.iter().filter(move |(key, _)| key == name).map(|(_, value)| value.as_str())
    }

    /// Whether a value was chosen or ticked, or is the one that is chosen as long as nothing was.
    pub fn has(&self, name: &str, value: &str, usual: bool) -> bool {
        if self.0.is_empty() { usual } else { self.all(name).any(|own| own == value) }
    }

    /// A whole number between two ends, a usual one where nothing was typed.
    ///
    /// # Errors
    /// Something else was typed: field, found, allowed.
    pub fn whole(&self, name: &str, (low, high): (u64, u64), usual: u64) -> Result<u64, String> {
        let Some(text) = self.get(name) else { return Ok(usual) };
        let number = text.parse().ok().filter(|number| (low..=high).contains(number));
        number
            .ok_or_else(|| format!("{name}: found {text:?}, allowed is a whole number from {low} to {high}"))
    }

    /// A number; None where nothing was typed. What range it may have is the loader's to say.
    ///
    /// # Errors
    /// Something else was typed.
    pub fn number(&self, name: &str) -> Result<Option<f64>, String> {
        let Some(text) = self.get(name) else { return Ok(None) };
        // A decimal comma can be meant in one way only where nothing else is a separator.
        let number = text.replace(',', ".").parse().ok().filter(|number: &f64| number.is_finite());
        number.map(Some).ok_or_else(|| format!("{name}: found {text:?}, allowed is a number"))
    }

    /// One of some words, the first of them where nothing was chosen.
    ///
    /// # Errors
    /// It is none of them.
    pub fn one_of<'a>(&self, name: &str, allowed: &[&'a str]) -> Result<&'a str, String> {
        let Some(text) = self.get(name) else { return Ok(allowed[0]) };
        let found = allowed.iter().find(|word| **word == text).copied();
        found.ok_or_else(|| format!("{name}: found {text:?}, allowed are {}", allowed.join(", ")))
    }

    /// What is compared: its kind and the names that were ticked, two to six.
    ///
    /// # Errors
    /// Too few or too many of them.
    pub fn compared(&self) -> Result<(&'static Kind, Vec<String>), String> {
        let keys: Vec<&str> = KINDS.iter().map(|kind| kind.key).collect();
        let key = self.one_of("compare", &keys)?;
        let kind = KINDS.iter().find(|kind| kind.key == key).unwrap_or(&KINDS[0]);
        // Names of files come from the catalog and from nowhere else.
        let named = |entry: &scenarios::Entry| {
            entry.kind == kind.catalog && self.all(kind.key).any(|own| own == entry.name)
        };
        let names: Vec<String> = catalog().into_iter().filter(named).map(|entry| entry.name).collect();
        let count = names.len() + usize::from(kind.without.is_some());
        match count {
            2..=MOST => Ok((kind, names)),
            _ => Err(format!(
                "{}: {} ticked, allowed are 2 to {MOST}, the one to compare with included",
                kind.many, count
            )),
        }
    }

    /// The column that ranks.
    ///
    /// # Errors
    /// It is none of those on offer.
    pub fn judged(&self) -> Result<&'static str, String> {
        self.one_of("judged", &JUDGED.map(|(key, _)| key))
    }

    /// The rule set.
    ///
    /// # Errors
    /// There is none of this name.
    pub fn rules(&self) -> Result<&'static str, String> {
        self.one_of("rules", &RULES)
    }

    /// Until when it is chosen before anything is measured; None where a number of possessions was set.
    ///
    /// # Errors
    /// No number, or one that is not allowed.
    pub fn until(&self) -> Result<Option<UntilSure>, String> {
        if self.one_of("long", &LONG.map(|(key, _)| key))? != LONG[0].0 {
            return Ok(None);
        }
        let (low, usual, high) = MARGIN;
        let margin = self.number("margin")?.unwrap_or(usual);
        if !(low..=high).contains(&margin) {
            return Err(format!("margin: found {margin}, allowed is a number from {low} to {high}"));
        }
        let (least, usual, most) = BUDGET;
        let budget = self.whole("budget", (least, most), usual)?;
        // Told in 20 possessions, meant of one; what twentieths come to in binary is nobody's business.
        let margin = (margin / TWENTY * 1e6).round() / 1e6;
        Ok(Some(UntilSure { margin, budget }))
    }

    /// Possessions of each at most, and the seed.
    ///
    /// # Errors
    /// They are no numbers, or too large.
    pub fn size(&self) -> Result<(u64, u64), String> {
        let (low, usual, high) = POSSESSIONS;
        Ok((self.whole("possessions", (low, high), usual)?, self.whole("seed", (0, u64::MAX), 1)?))
    }
}
