//! The page round the sections: title, contents, style, note. It loads nothing; only films need its script.

use maud::{Markup, PreEscaped, html};

use super::Section;
use crate::compare::Comparison;
use crate::document::document;
use crate::note::NOTE;
use crate::output::Manifest;
use crate::picture::STYLE;
use crate::wording::grouped;
use crate::wrapping::glued;

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
    document(
        &format!("Zoneprobe: {title}"),
        POLICY,
        &[PAGE, STYLE],
        &PreEscaped(unparted(&body.into_string())),
    )
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

/// Elements whose text is not prose: it is kept as it is.
const NO_PROSE: [&str; 3] = ["code", "script", "style"];

/// A page whose numbers are not parted from their units where a line ends.
fn unparted(page: &str) -> String {
    let mut parts = page.split('<');
    // Before the first mark is only text.
    let mut told = glued(parts.next().unwrap_or_default());
    let mut is_prose = true;
    for part in parts {
        told.push('<');
        let Some((mark, text)) = part.split_once('>') else {
            told.push_str(part);
            continue;
        };
        let name = mark.trim_start_matches('/').split(' ').next().unwrap_or_default();
        if NO_PROSE.contains(&name) {
            is_prose = mark.starts_with('/');
        }
        told.push_str(mark);
        told.push('>');
        told.push_str(&if is_prose { glued(text) } else { text.to_owned() });
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_keep_their_units_in_prose_and_code_stays_as_it_is() {
        let page =
            "<p class=\"a b\">3 ft 11 in off, <b>5.1 %</b></p><pre><code>wait 3 s</code></pre><p>2 s</p>";
        let told = "<p class=\"a b\">3\u{a0}ft\u{a0}11\u{a0}in off, <b>5.1\u{a0}%</b></p>\
                    <pre><code>wait 3 s</code></pre><p>2\u{a0}s</p>";
        assert_eq!(unparted(page), told);
        let script = "<script>if (a<b) c = \"3 s\"</script>";
        assert_eq!(unparted(script), script);
    }
}
