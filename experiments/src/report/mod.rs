//! `report.html`: one page, whole in itself, that answers the question and shows what the answer rests on.
//!
//! A report is a list of [`Section`]s in a page. Other kinds of experiment make sections of their own and hand
//! them to [`page`] with these or instead of them. Nothing is measured here: every number is one of the
//! comparison's or of the tables'.

mod answer;
mod answers;
mod charts;
mod costs;
mod films;
mod gallery;
mod making;
mod page;
mod passes;
mod players;
mod terms;

use maud::Markup;

pub use charts::charts;
pub use gallery::{Group, gallery};
pub use page::page;

use crate::compare::Comparison;
use crate::output::Manifest;
use crate::picture::Picture;
use crate::places::{Choice, Tables};

/// One part of a report.
pub struct Section {
    /// Its anchor in the page.
    pub id: String,
    /// Its heading.
    pub title: String,
    /// What stands under the heading; headings inside begin at the third level.
    pub html: Markup,
}

impl Section {
    fn new(id: &str, title: &str, html: Markup) -> Self {
        Self { id: id.into(), title: title.into(), html }
    }
}

/// What a report is drawn from.
pub struct Results<'a> {
    /// The comparison.
    pub comparison: &'a Comparison,
    /// The tables beside it.
    pub tables: &'a Tables,
    /// How it was made.
    pub manifest: &'a Manifest,
    /// The texts of the files that were read, by name.
    pub inputs: &'a [(String, String)],
    /// The experiment as a shell takes it, with a blank before it; empty for the bundled question.
    pub file: &'a str,
    /// What a command needs besides, as a remark after it; mostly empty.
    pub with: &'a str,
    /// What each variant runs, at a glance, in plan order.
    pub plays: &'a [Picture],
    /// The films that can be played in the page.
    pub films: &'a [FilmPage],
}

/// A film as a page of its own, kept in the report.
pub struct FilmPage {
    /// Of which variant.
    pub variant: usize,
    /// Which of its chosen possessions.
    pub choice: Choice,
    /// The variant whose same possession it shows beside it.
    pub beside: Option<String>,
    /// The page; empty where both possessions are the same, move for move.
    pub page: String,
}

/// The report of a comparison.
pub fn report(results: &Results<'_>, groups: &[Group]) -> String {
    let mut sections = vec![answer::section(results), costs::section(results)];
    sections.extend(players::section(results));
    sections.extend(groups.iter().map(Group::section));
    sections.extend(answers::section(results));
    sections.extend(films::section(results));
    sections.push(making::section(results));
    page(results.comparison, results.manifest, &sections)
}
