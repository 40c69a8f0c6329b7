//! The checklist as a study has it: the lines, how many lie inside, and what is known of those that do not.

use std::fmt::Write as _;

use crate::looks::Seen;
use crate::reference::line::{LEVELS, Level, Line};
use crate::trade::estimate::Estimate;

/// A line and what it comes to at a level.
pub struct Found<'a> {
    pub line: &'a Line,
    pub rate: Estimate,
}

impl Found<'_> {
    fn is_inside(&self, level: &Level) -> bool {
        let [low, high] = (level.band)(self.line);
        (low..=high).contains(&self.rate.value)
    }

    /// The cells of a level: band, what was found, inside or not.
    fn cells(&self, level: &Level) -> String {
        let [low, high] = (level.band)(self.line);
        let band = if high.is_infinite() { format!("{low} and more") } else { format!("{low} to {high}") };
        let inside = if self.is_inside(level) { "yes" } else { "**no**" };
        let Estimate { value, error } = self.rate;
        if error > 0.0 {
            format!("{band} | {value:.3} ± {:.3} | {inside}", 1.96 * error)
        } else {
            format!("{band} | {value} | {inside}")
        }
    }

    /// Why it lies outside.
    fn reason(&self, level: &Level) -> String {
        const LUCK: &str = "may be luck: its interval of three standard errors reaches into the band";
        match ((level.off)(self.line), self.line.seen(level, self.rate)) {
            (Some(reason), Seen::Open) => format!("{reason}; or {LUCK}"),
            (Some(reason), _) => reason.to_owned(),
            (None, Seen::Open) => LUCK.to_owned(),
            (None, _) => String::from("not known"),
        }
    }
}

/// What kind of line it is.
fn kind(line: &Line) -> &'static str {
    match (line.memory, line.target) {
        (true, _) => "memory",
        (false, true) => "target",
        (false, false) => "published",
    }
}

/// Rows of the table of counts: what is counted, and which kinds of line.
const COUNTED: [(&str, &[&str]); 4] = [
    ("all", &["memory", "target", "published"]),
    ("with a published source", &["target", "published"]),
    ("of these, on which no value may be fitted", &["published"]),
    ("from memory or common practice", &["memory"]),
];

/// All of it, the lines of each level in the same order.
pub fn told(by_level: &[Vec<Found<'_>>; LEVELS.len()]) -> String {
    let mut text = String::from("\n| lines inside their band |");
    for level in &LEVELS {
        write!(text, " {} |", level.name).expect("a string takes all text");
    }
    text += "\n| --- | --- | --- |\n";
    for (words, kinds) in COUNTED {
        write!(text, "| {words} |").expect("a string takes all text");
        for (level, lines) in LEVELS.iter().zip(by_level) {
            let of: Vec<_> = lines.iter().filter(|found| kinds.contains(&kind(found.line))).collect();
            let inside = of.iter().filter(|found| found.is_inside(level)).count();
            write!(text, " {inside} of {} |", of.len()).expect("a string takes all text");
        }
        text += "\n";
    }
    text += "\n| line | kind |";
    for level in &LEVELS {
        write!(text, " {}: band | found (95 %) | inside |", level.name).expect("a string takes all text");
    }
    text += " source |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for nth in 0..by_level[0].len() {
        let line = by_level[0][nth].line;
        write!(text, "| {} | {} |", line.what, kind(line)).expect("a string takes all text");
        for (level, lines) in LEVELS.iter().zip(by_level) {
            write!(text, " {} |", lines[nth].cells(level)).expect("a string takes all text");
        }
        writeln!(text, " {} |", line.source).expect("a string takes all text");
    }
    for (level, lines) in LEVELS.iter().zip(by_level) {
        write!(text, "\n### Outside: {}\n\n", level.name).expect("a string takes all text");
        for found in lines.iter().filter(|found| !found.is_inside(level)) {
            writeln!(text, "- {}: {}.", found.line.what, found.reason(level))
                .expect("a string takes all text");
        }
    }
    text
}
