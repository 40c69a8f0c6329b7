//! The page round the sections: title, contents, style, note. It loads nothing; only films need its script.

use maud::{Markup, html};

use super::Section;
use crate::compare::Comparison;
use crate::document::document;
use crate::note::NOTE;
use crate::output::Manifest;
use crate::picture::STYLE;
use crate::wording::grouped;

/// Its own styles and script; nothing is fetched.
const POLICY: &str = "style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:";

const PAGE: &str = include_str!("page.css");

/// A whole page.
pub fn page(comparison: &Comparison, manifest: &Manifest, sections: &[Section]) -> String {
    let question = &comparison.question;
    let asked = manifest.made.units.retold(&question.text);
    let title = if asked.is_empty() { "A comparison" } else { &*asked };
    let body = html! {
        a class="skip" href=(format!("#{}", sections.first().map_or("", |s| s.id.as_str()))) { "To the answer" }
        header {
            p class="kicker" { "Zoneprobe report" }
            h1 { (title) }
            p class="facts" {
                (question.variants.len()) " variant" @if question.variants.len() != 1 { "s" } ", "
                (grouped(comparison.possessions)) " possessions each, seed " (manifest.made.seed)
                ". Ranked by " (question.rank_by.words) "."
            }
        }
        nav aria-label="Contents" {
            ul { @for section in sections { li { a href=(format!("#{}", section.id)) { (section.title) } } } }
        }
        main { @for section in sections { (placed(section)) } }
        footer { p class="note" { (NOTE) } }
    };
    document(&format!("Zoneprobe: {title}"), POLICY, &[PAGE, STYLE], &body)
}

fn placed(section: &Section) -> Markup {
    let heading = format!("{}-heading", section.id);
    html! {
        section id=(section.id) aria-labelledby=(heading) {
            h2 id=(heading) { (section.title) }
            (section.html)
        }
    }
}
