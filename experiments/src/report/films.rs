//! Possessions to watch: chosen by rule, each with its decisive moment and its film.
//!
//! A film is a whole page of its own. The report keeps it as text and shows it in a frame over the page when it is
//! asked for, so one file holds all of it and the frame cannot disturb the page.

use maud::{Markup, PreEscaped, html};

use super::{FilmPage, Results, Section};
use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::{Choice, Still, Tables};
use crate::run::FIRST;
use crate::shell;

/// Opens and closes films.
const SCRIPT: &str = include_str!("films.js");

pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let (comparison, tables) = (results.comparison, results.tables);
    if tables.stills.iter().all(Vec::is_empty) {
        return None;
    }
    let key = |&v: &usize| {
        picture::key_of_stills(
            &format!("stills-{}", v + 1),
            &tables.setups[v],
            tables.stills.iter().flatten(),
        )
    };
    let keys: Vec<Picture> = tables.leaders.iter().map(key).collect();
    let is_shared = keys.windows(2).all(|pair| pair[0].signs() == pair[1].signs());
    let html = html! {
        p {
            "Not picked by eye: of the first " (FIRST.min(comparison.possessions)) " possessions of each, in order \
             of their expected net points, those nine tenths, half and one tenth of the way along; of those alone in which its route or option was run \
             to its end, where there are eight of them. The typical one is of those of them in which the run brought its runner the ball and the \
             shot came of it, or else in which the shot came of it, where there are three, and among these in those whose shot was \
             where most of them were. Each picture is \
             the decisive moment, and the button plays the whole possession, inside this file; those of the first can be \
             seen beside the same possession, with the same draws, of the one we compare with. They are shown as \
             they were played, so here the rover may have started on either side. Expected points count the chance of each shot, \
             whether or not it went in, and second shots too."
        }
        @if let (Some(key), true) = (keys.first(), is_shared) { (said_once(key)) }
        @for ((&v, stills), key) in tables.leaders.iter().zip(&tables.stills).zip(&keys) {
            @let name = &comparison.question.variants[v];
            h3 { (name) }
            @if !is_shared { (said_once(key)) }
            div class="films" { @for still in stills { (figure(results, v, still)) } }
        }
        dialog id="film" aria-label="Film" { div { button type="button" id="film-close" { "Close the film" } } }
        @for film in results.films.iter().filter(|film| !film.page.is_empty()) { (kept(film)) }
        script { (PreEscaped(SCRIPT)) }
    };
    Some(Section::new("films", "Possessions to watch", html))
}

/// The key of several pictures.
fn said_once(key: &Picture) -> Markup {
    html! { @if let Some(key) = key.key() { div class="key" { (key) } } }
}

/// The decisive moment of a possession to watch.
pub(super) fn still(comparison: &Comparison, tables: &Tables, v: usize, still: &Still) -> Picture {
    let name = comparison.question.variants[v].as_str();
    picture::still((&id("still", v, still.choice), name), &tables.setups[v], still)
}

fn figure(results: &Results<'_>, v: usize, still: &Still) -> Markup {
    let name = &results.comparison.question.variants[v];
    let picture = self::still(results.comparison, results.tables, v, still);
    let playable = results.films.iter().filter(|film| (film.variant, film.choice) == (v, still.choice));
    let side = if still.side > 0.0 { "right" } else { "left" };
    let command = format!(
        "zoneprobe film{}{} --seed {} --possession {} --out film{}",
        results.file,
        shell::option("--variant", name),
        results.manifest.made.seed,
        still.possession,
        results.with
    );
    html! {
        figure {
            (picture.without_key())
            figcaption {
                b { (words(still.choice)) ": " } (picture.caption) " The rover started on the " (side) "."
                @for film in playable {
                    @if film.page.is_empty() {
                        p { "Beside " (film.beside.as_deref().unwrap_or_default()) " it is the same, move for move: what differs was not called on in it." }
                    } @else { button type="button" class="play" hidden data-film=(film_id(film)) {
                        "Play it" @if let Some(other) = &film.beside { " beside " (other) }
                        span class="ear" { ": " (name) ", possession " (still.possession) }
                    } }
                }
                p class="again" { "On its own: " code {
                    // An option parted after its hyphens reads as two words.
                    @for (nth, word) in command.split(' ').enumerate() {
                        @if nth > 0 { " " }
                        @if word.starts_with("--") { span class="word" { (word) } } @else { (word) }
                    }
                } }
            }
        }
    }
}

/// A film's page as text that no browser reads before it is asked for.
fn kept(film: &FilmPage) -> Markup {
    let text = serde_json::Value::from(film.page.as_str()).to_string();
    // No text in it may end the element that holds it, nor look like a part of this page.
    let text = text.replace('<', "\\u003c");
    html! { script type="application/json" id=(film_id(film)) { (PreEscaped(text)) } }
}

/// Id of what belongs to a chosen possession.
fn id(what: &str, v: usize, choice: Choice) -> String {
    format!("{what}-{}-{}", v + 1, choice.key())
}

fn film_id(film: &FilmPage) -> String {
    id(if film.beside.is_some() { "beside" } else { "film" }, film.variant, film.choice)
}

fn words(choice: Choice) -> &'static str {
    match choice {
        Choice::Good => "A good one",
        Choice::Typical => "A typical one",
        Choice::Poor => "A poor one",
    }
}
