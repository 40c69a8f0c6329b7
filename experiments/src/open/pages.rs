//! The pages: the first screen with the form under it, a question with its run, its result.

use maud::{DOCTYPE, Markup, html};
use scenarios::shown_lines;

use super::app::{Answered, App, Asked, held};
use super::fields::Fields;
use super::form;
use super::live::{RESULT, SHEET};
use super::save::NAME;
use crate::note::NOTE;
use crate::wording::grouped;

/// A whole page.
fn whole(app: &App, title: &str, body: &Markup) -> String {
    let root = app.guard.root();
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                link rel="icon" href="data:,";
                link rel="stylesheet" href={ (root) "open.css" };
                title { (title) }
                script src={ (root) "open.js" } defer {}
            }
            body data-root=(root) { (body) }
        }
    };
    // Whatever text came from outside: where marks stand, no hidden character does.
    shown_lines(&page.into_string()).into_owned() + "\n"
}

fn foot() -> Markup {
    html! {
        footer {
            p class="note" { (NOTE) }
            p class="note" {
                "Everything stays on this machine: the page asks no network. Names come into sheets and films that you hand on: of \
                 minors a number is enough."
            }
            p { button type="button" id="end" { "End zoneprobe" } " " span id="ended" role="status" {} }
        }
    }
}

/// The first screen, and the form: empty, or with what was typed and what cannot be used of it.
pub fn index(app: &App, fields: &Fields, refused: Option<&str>) -> String {
    let root = app.guard.root();
    let (asking, outcome) = &app.first;
    let body = html! {
        a class="skip" href="#ask" { "To your own question" }
        header {
            p class="kicker" { "Zoneprobe" }
            h1 { (asking.asked()) }
        }
        main {
            section aria-labelledby="first" class="first" {
                h2 id="first" { "An answer to begin with" }
                p class="quiet" {
                    "This is the bundled question: " (asking.question.variants.len()) " routes of the rover, "
                    (grouped(outcome.possessions)) " possessions of each, played when this version was made. The film is one possession with "
                    (outcome.names[0]) "."
                }
                div class="hero" {
                    iframe title={ "Film of one possession with " (outcome.names[0]) } src={ (root) "film" } {}
                    div {
                        p class="sentence" { (outcome.sentence) }
                        figure class="chart" { (outcome.chart.inline()) }
                    }
                }
            }
            section id="ask" aria-labelledby="ask-head" {
                h2 id="ask-head" { "Your own question" }
                @if let Some(refused) = refused {
                    div class="refused" role="alert" tabindex="-1" id="refused" {
                        p { b { "This cannot be played yet." } } pre { (refused) }
                    }
                }
                (form::form(app, fields))
            }
        }
        (foot())
    };
    whole(app, "Zoneprobe", &body)
}

/// How long a run goes on that chooses first.
const UNTIL_SURE: &str = "It goes on until one is clearly best, nothing that is left can be better by more than does not matter, or \
                          as many have been played as may be; then those left are measured on other possessions. You may stop it at \
                          any time: what the last look has shown is then the answer, and it says that it was not sure. Before the \
                          first look nothing can be said, so it is played up to that.";
/// How long one of a set number of possessions goes on.
const SET: &str = "It goes on until all are played or you stop it. The intervals hold for a number of possessions that was set \
                   beforehand: who stops when it looks good is more often wrong than they say.";

/// A question: what was asked, and its run or its result.
pub fn question(app: &App, asked: &Asked) -> String {
    let root = app.guard.root();
    let answer = asked.answer();
    let (most, goes_on) = match asked.size.until {
        Some(until) => (until.budget, UNTIL_SURE),
        None => (asked.size.possessions, SET),
    };
    let players: Vec<String> = crate::players::told(&asked.asking.experiment.variants[0].setup);
    let body = html! {
        header {
            p class="kicker" { "Zoneprobe" }
            h1 { (asked.asking.asked()) }
            p class="quiet" {
                "Ranked by " (asked.asking.question.rank_by.words) ", seed " (asked.size.seed) ". Compared with "
                (asked.asking.experiment.baseline) ". "
                a href={ (root) "?again=" (asked.number) "#ask" } { "Change the question" }
            }
            @for said in &players { p class="quiet" { (crate::wording::capital(said)) } }
        }
        main id="question" data-number=(asked.number) {
            section id="run" aria-labelledby="run-head" hidden[answer.is_some()] {
                h2 id="run-head" { "So far" }
                p { progress id="progress" max=(most) value="0" aria-label="Possessions played" {} " " span id="words" {} " " span id="left" {} }
                p { button type="button" id="stop" { "Stop, and take this as the answer" } }
                p class="quiet" { (goes_on) " Closing this tab ends it." }
                p id="trouble" role="alert" {}
                div id="standing" {}
            }
            section id="result" aria-labelledby="result-head" hidden[answer.is_none()] {
                h2 id="result-head" tabindex="-1" { "The answer" }
                div id="answer" { @if let Some(answer) = &answer { (answered(app, asked, answer)) } }
            }
        }
        (foot())
    };
    whole(app, "Zoneprobe: a question", &body)
}

/// A result: the sentence, the films, the sheet, and how it is saved.
pub fn answered(app: &App, asked: &Asked, answer: &Answered) -> Markup {
    let here = format!("{}q/{}/", app.guard.root(), asked.number);
    let outcome = &answer.outcome;
    let written = held(&answer.written).clone();
    html! {
        p class="quiet" {
            @if asked.size.until.is_some() { "Measured after a choice: " }
            (grouped(outcome.possessions)) " possessions of each " (outcome.noun) ", seed " (asked.size.seed) "."
        }
        (outcome.told())
        h3 { "The same possession with both" }
        p class="quiet" {
            @if outcome.part {
                (outcome.names[0]) ", the first, beside " (outcome.names[1]) ": possession " (outcome.typical)
                ", one in which the first did neither well nor badly and the two part. One possession explains nothing by itself."
            } @else {
                "In none of the possessions looked at does " (outcome.names[1]) " go another way than " (outcome.names[0])
                ", so this is one film of both."
            }
        }
        iframe class="films" title={ "Films of " (outcome.names[0]) " and " (outcome.names[1]) ", side by side" } src={ (here) "films" } {}
        @match written {
            None => {}
            Some(Err(said)) => { div class="refused" role="alert" { p { "The report and the sheet could not be written." } pre { (said) } } }
            Some(Ok(())) => {
                h3 { "To print and to read" }
                ul class="links" {
                    li { a id="sheet" target="_blank" href={ (here) "file/" (SHEET) "/sheet.html" } { "The coach's sheet" } " ("
                        a href={ (here) "file/" (SHEET) "/sheet.pdf" } { "PDF" } ")" }
                    li { a target="_blank" href={ (here) "file/" (SHEET) "/cards.html" } { "A card for each position" } " ("
                        a href={ (here) "file/" (SHEET) "/cards.pdf" } { "PDF" } ")" }
                    li { a id="report" target="_blank" href={ (here) "file/" (RESULT) "/report.html" } { "The whole report" } }
                }
                p { button type="button" id="print" data-sheet={ (here) "file/" (SHEET) "/sheet.html" } { "Print the sheet" } }
                h3 { "Save as question" }
                form id="save" method="post" action={ (here) "save" } {
                    p {
                        label for="save-name" { "Name of the folder" } " "
                        input id="save-name" name="name" value=(NAME) maxlength="64"; " "
                        button type="submit" { "Save" }
                    }
                }
                div id="saved" role="status" {}
            }
        }
    }
}

/// What is said once a question has been saved.
pub fn saved(folder: &str, command: &str) -> Markup {
    html! {
        p { "Saved in " code { (folder) } ": the question's files, its result and its sheet. The command that makes the result again, \
             byte for byte, in that folder:" }
        pre { code id="command" { (command) } }
    }
}

/// Said where nothing is found, or nothing goes on.
pub fn lost(app: &App, what: &str) -> String {
    let body = html! {
        main { h1 { (what) } p { a href=(app.guard.root()) { "To the first page" } } }
    };
    whole(app, "Zoneprobe", &body)
}
