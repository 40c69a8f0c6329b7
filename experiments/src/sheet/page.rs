//! The sheet and the cards as pages for a screen. Printed, each is the page of paper itself.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use maud::{Markup, PreEscaped, html};

use super::model::{ADJUSTED, BALL, Leader, Position, SELDOM, Sheet, Shown};
use super::paper::Paper;
use super::pen::{BOLD, Pen, REGULAR, without};
use super::ranked::Ranked;
use crate::document::document;
use crate::picture::STYLE;

/// Its own styles and letters; nothing is fetched.
const POLICY: &str = "style-src 'unsafe-inline'; font-src data:";

const PAGE: &str = include_str!("page.css");

/// The sheet.
pub fn sheet(sheet: &Sheet, paper: Paper, printed: &[Pen]) -> String {
    let main = html! {
        header {
            p class="kicker" { "Coach's sheet" }
            h1 { (sheet.title) }
            @if !sheet.game.is_empty() { p class="game" { strong { (sheet.game) } } }
            p class="facts" { (sheet.facts) }
        }
        main {
            section {
                h2 { (sheet.heading) }
                @for claim in &sheet.claims { p class="verdict" { (claim) } }
                @if !sheet.lesson.is_empty() { p { strong { (sheet.lesson) } } }
                @for leader in &sheet.leaders { (self::leader(leader)) }
                @if !sheet.how_sure.is_empty() { p { (sheet.how_sure) } }
                @for line in &sheet.runs { p { (line) } }
                @if !sheet.of_which.is_empty() { p { (sheet.of_which) } }
                @if !sheet.also.is_empty() { p class="soft" { (sheet.also) } }
                @if !sheet.costs.is_empty() { p class="costs" { (sheet.costs) } }
            }
            section {
                h2 { (ADJUSTED) }
                @if sheet.calls.is_empty() { p { (sheet.no_calls) } }
                dl {
                    @for call in &sheet.calls {
                        dt { (call.when) ":" }
                        dd {
                            (call.run) " " (call.look)
                            @for line in &call.gains { p class="gains soft" { (line) } }
                        }
                    }
                }
                @if !sheet.calls.is_empty() { p class="soft" { (sheet.tried) } }
            }
            section {
                h2 { "What each position does" }
                (jobs(sheet))
            }
            section {
                h2 { "On the floor" }
                div class="floors" {
                    (figure(&sheet.start))
                    @for shown in sheet.drawn.iter().flat_map(|drawn| &drawn.stills) { (figure(shown)) }
                }
            }
        }
        @if !sheet.grounds.is_empty() || !sheet.ranked.rows.is_empty() {
            section class="grounds" {
                h2 { "How sure that is" }
                (ranked(&sheet.ranked))
                @for line in &sheet.grounds { p { (line) } }
            }
        }
        @if !sheet.players.is_empty() { p class="soft" { (sheet.players) } }
        p class="soft" { (sheet.terms) }
        p class="soft" { (sheet.choices) " " (sheet.looks) }
        @if !sheet.sure.is_empty() { p class="soft sure" { (sheet.sure) } }
        (footer(sheet))
    };
    whole(&format!("Coach's sheet: {}", sheet.title), paper, main, printed)
}

/// A leader with its way and its words.
fn leader(leader: &Leader) -> Markup {
    html! {
        div class="play" {
            @if !leader.way.is_empty() { (picture(&leader.way)) }
            p { strong { (leader.name) } @if !leader.words.is_empty() { ": " (leader.words) "." } }
        }
    }
}

/// What each position does without the ball, and with it, best first.
fn jobs(sheet: &Sheet) -> Markup {
    html! {
        table class="looks" {
            thead {
                tr {
                    th scope="col" { "Position" }
                    th scope="col" { "Without the ball" }
                    th scope="col" { (BALL) }
                }
            }
            tbody {
                @for position in &sheet.positions {
                    tr {
                        th scope="row" { (position.number) " " (position.name) }
                        td data-label="Without the ball" {
                            @for (nth, line) in position.in_short.iter().enumerate() { @if nth > 0 { br; } (line) }
                        }
                        td data-label="With the ball" {
                            @for (nth, line) in position.ball.iter().enumerate() { @if nth > 0 { br; } (line) }
                            @if position.ball.is_empty() { (SELDOM) }
                        }
                    }
                }
            }
        }
    }
}

/// All that was compared, best first.
fn ranked(table: &Ranked) -> Markup {
    html! {
        @if !table.rows.is_empty() {
            div class="wide" role="region" aria-label="Ranking" tabindex="0" {
                table class="ranked" {
                    thead { tr { @for head in &table.head { th scope="col" { (head) } } } }
                    tbody { @for row in &table.rows { tr { @for cell in row { td { (cell) } } } } }
                }
            }
            p class="soft" { (table.foot) }
        }
    }
}

fn figure(shown: &Shown) -> Markup {
    html! { figure { (picture(&shown.svg)) @if !shown.caption.is_empty() { figcaption { (shown.caption) } } } }
}

/// A picture's file without its style sheet, which the page has.
fn picture(svg: &str) -> Markup {
    PreEscaped(without(svg.to_owned(), "style"))
}

/// The cards.
pub fn cards(sheet: &Sheet, paper: Paper, printed: &[Pen]) -> String {
    let main = html! {
        header {
            p class="kicker" { "Cards: " (sheet.leader()) }
            @if !sheet.game.is_empty() { p class="game" { strong { (sheet.game) } } }
            h1 { "What each position does" }
            @for claim in &sheet.claims { p class="verdict" { (claim) } }
            p class="facts" { (sheet.call()) ". " (sheet.terms) }
            p class="facts" { (sheet.title) }
        }
        main class="cards" {
            @for position in &sheet.positions { (card(position)) }
            @if !sheet.places.is_empty() { figure { (picture(&sheet.places)) } }
        }
        @for line in &sheet.grounds { p class="soft" { (line) } }
        footer { p class="note" { (sheet.note) } }
    };
    whole(&format!("Cards: {}", sheet.leader()), paper, main, printed)
}

fn card(position: &Position) -> Markup {
    html! {
        section class="card" {
            h2 { (position.number) " " (position.name) }
            @if !position.known.is_empty() { p class="soft" { (position.known) } }
            (picture(&position.picture))
            p class="soft" { (position.marks) }
            p { strong { "Without the ball" } }
            ul { @for duty in &position.duties { li { (duty) } } }
            p { strong { "With the ball" } }
            ul { @for line in &position.ball { li { (line) } } @if position.ball.is_empty() { li { (SELDOM) } } }
        }
    }
}

fn footer(sheet: &Sheet) -> Markup {
    html! { footer { p { "To repeat: " code { (sheet.command) } } p class="note" { (sheet.note) } } }
}

fn whole(title: &str, paper: Paper, screen: Markup, printed: &[Pen]) -> String {
    let letters = |bytes, weight: u32| {
        format!(
            "@font-face{{font-family:\"Sheet Sans\";font-weight:{weight};src:url(data:font/ttf;base64,{})}}",
            STANDARD.encode(bytes)
        )
    };
    let size = format!("@page{{size:{};margin:0}}", paper.css());
    let body = html! {
        div class="screen" { (screen) }
        div class="printed" aria-hidden="true" { @for page in printed { (PreEscaped(page.svg())) } }
    };
    document(title, POLICY, &[&size, &letters(REGULAR, 400), &letters(BOLD, 700), PAGE, STYLE], &body)
}
