//! What a sheet is made from: a result's tables and pictures, read from a folder.

use std::collections::BTreeMap;

use super::costs::Row;
use super::tables::{DutyLine, PositionLine};
use crate::error::Error;
use crate::output::{Made, ResultFolder};
use crate::places::{AnswerLine, CallLine, ChoiceLine};
use crate::players::PlayerLine;
use crate::units::Units;
use crate::verdict::{VERDICT, Verdict};

/// The tables and pictures of a result that a sheet needs, wherever they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    /// How it was made.
    pub made: Made,
    /// What it comes to.
    pub(super) verdict: Verdict,
    /// What the positions of the leaders did with the ball.
    pub(super) choices: Vec<ChoiceLine>,
    /// Empty where the zone's answers were not played.
    pub(super) calls: Vec<CallLine>,
    pub(super) answers: Vec<AnswerLine>,
    pub(super) positions: Vec<PositionLine>,
    pub(super) duties: Vec<DutyLine>,
    /// Empty where nobody is known by himself.
    pub(super) players: Vec<PlayerLine>,
    /// The measures of every variant, and the differences of any two.
    pub(super) measured: Vec<Row>,
    pub(super) differences: Vec<Row>,
    /// SVG by file name.
    pub(super) pictures: BTreeMap<String, String>,
}

impl Results {
    /// Reads the folder of a result.
    ///
    /// # Errors
    /// Something that the sheet needs is not there.
    pub fn read(folder: &ResultFolder) -> Result<Self, Error> {
        let own = ["pictures/sheet-", "pictures/play-"].into_iter().flat_map(|start| folder.names(start));
        let pictures = own.map(str::to_owned);
        let pictures: Result<_, Error> =
            pictures.map(|name| Ok((name.clone(), folder.text(&name)?))).collect();
        Ok(Self {
            verdict: folder.document(VERDICT)?,
            choices: folder.lines()?,
            calls: folder.maybe_lines()?,
            answers: folder.maybe_lines()?,
            positions: folder.lines()?,
            duties: folder.lines()?,
            players: folder.maybe_lines()?,
            measured: folder.rows("comparison.csv")?,
            differences: folder.rows("differences.csv")?,
            pictures: pictures?,
            made: folder.made.clone(),
        })
    }

    /// With every length in these units: the files have metres.
    pub(super) fn told_in(mut self, units: Units) -> Self {
        let retell = |words: &mut String| *words = units.retold(words).into_owned();
        self.verdict = self.verdict.told_in(units);
        self.duties
            .iter_mut()
            .for_each(|line| [&mut line.duty, &mut line.in_short].into_iter().for_each(retell));
        self.calls.iter_mut().for_each(|line| retell(&mut line.rule_in_words));
        self
    }

    /// A picture of the sheet by its name, if it was drawn.
    pub(super) fn picture(&self, id: &str) -> Option<&str> {
        self.pictures.get(&format!("pictures/{id}.svg")).map(String::as_str)
    }
}
