//! The form: their zone, our players, what is compared and judged. It works without the script; that adds dragging.

use maud::{Markup, html};
use scenarios::{bundled_text, catalog};

use super::app::App;
use super::choices::{
    BUDGET, JUDGED, KINDS, Kind, LONG, MARGIN, MOST, PLAYER, POSSESSIONS, PlayerColumn, ROLES, RULES,
};
use super::fields::Fields;
use super::usual::ticked;
use super::zones::{Rule, Shape, ZONES};

/// All of it, with what was typed.
pub fn form(app: &App, fields: &Fields) -> Markup {
    html! {
        form method="post" novalidate action={ (app.guard.root()) "ask" } {
            (their_zone(app, fields))
            (our_players(fields))
            (compared(app, fields))
            fieldset {
                legend { "Judged by" }
                div class="row" {
                    @for (nth, (key, words)) in JUDGED.iter().enumerate() {
                        label { input type="radio" name="judged" value=(key) checked[fields.has("judged", key, nth == 1)]; " " (words) }
                    }
                }
            }
            (how_long(fields))
            p { button type="submit" class="go" { "Play it" } }
        }
    }
}

fn how_long(fields: &Fields) -> Markup {
    let number = |name: &str, usual: String| fields.get(name).map_or(usual, str::to_owned);
    html! {
        fieldset id="how-long" {
            legend { "Play" }
            div class="row" {
                @for (nth, (key, words)) in LONG.iter().enumerate() {
                    label { input type="radio" name="long" id={ "long-" (key) } value=(key) checked[fields.has("long", key, nth == 0)]; " " (words) }
                }
            }
            div class="until" {
                p class="quiet" {
                    "It looks after 1,024 possessions of each, after 2,048, 4,096 and so on, drops what is clearly behind, and ends when \
                     one is clearly best or none that is left can be better by more than does not matter. Those left are then measured \
                     on other possessions."
                }
                div class="row" {
                    label { "What does not matter, in 20 possessions " input type="number" name="margin" min=(MARGIN.0) max=(MARGIN.2) step="0.1"
                        value=(number("margin", MARGIN.1.to_string())); }
                    label { "Possessions of each for that, at most " input type="number" name="budget" min=(BUDGET.0) max=(BUDGET.2)
                        value=(number("budget", BUDGET.1.to_string())); }
                }
            }
            div class="row" {
                label { "Possessions of each that is measured " input type="number" name="possessions" min=(POSSESSIONS.0) max=(POSSESSIONS.2)
                    value=(number("possessions", POSSESSIONS.1.to_string())); }
                label { "Seed " input type="number" name="seed" min="0" value=(number("seed", "1".into())); }
            }
        }
    }
}

fn their_zone(app: &App, fields: &Fields) -> Markup {
    let lines: Vec<(String, String)> = catalog()
        .into_iter()
        .filter(|entry| entry.kind == "zone")
        .map(|entry| (entry.name, entry.line))
        .collect();
    html! {
        fieldset id="their-zone" {
            legend { "Their zone" }
            div class="pictures" {
                @for (nth, zone) in ZONES.iter().enumerate() {
                    label class="choice" {
                        input type="radio" name="zone" id={ "zone-" (zone) } value=(zone) checked[fields.has("zone", zone, nth == 0)];
                        img src={ (app.guard.root()) "thumb/zone/" (zone) } alt="" width="160" height="101" loading="lazy";
                        span { b { (zone) } " " (lines.iter().find(|own| own.0 == **zone).map_or("", |own| own.1.as_str())) }
                    }
                }
            }
            div class="row" {
                label { "Their back line sinks toward the rim, ft "
                    input type="number" name="sink_ft" min="0" max="4.9" step="0.1" value=(fields.get("sink_ft").unwrap_or("0")); }
                (select("Their level", "their_level", &levels(), fields))
                (select("Rules", "rules", &RULES.map(str::to_owned), fields))
            }
            @for zone in ZONES { (panel(app, zone, fields)) }
        }
    }
}

/// What can be said of one zone; seen while it is the one that was chosen.
fn panel(app: &App, zone: &str, fields: &Fields) -> Markup {
    let shape = Shape::of(zone);
    let kinds =
        ["When their near back has gone out, who takes the low post?", "Who takes a catch in the corner?"];
    html! {
        div class="panel" data-zone=(zone) {
            @for ((key, rules), words) in shape.rules.iter().zip(kinds) {
                @if !rules.is_empty() { (rule_choices(app, (zone, key, words), rules, fields)) }
            }
            @if shape.rows.is_empty() {
                p class="quiet" { "Man-to-man: everybody follows his man, so nobody is moved by hand." }
            } @else {
                details class="move" {
                    summary { "Move their defenders" }
                    p class="quiet" {
                        "Choose where the ball is, then drag a defender, or give him the focus and use the arrow keys; or type where he stands: \
                         metres from under the rim, x to the side on which the ball is, y toward midcourt. The other side is the mirror \
                         image. Where the rules above have places of their own, those hold in the corner."
                    }
                    label { "The ball is at the "
                        select class="place" aria-label="Place of the ball" { @for row in &shape.rows { option value=(row.place) { (row.place) } } }
                    }
                    div class="board" data-zone=(zone) {}
                    @for row in &shape.rows {
                        table class="places" data-place=(row.place) data-ball=(format!("{},{}", row.ball[0], row.ball[1])) {
                            caption { "The ball at the " (row.place) }
                            thead { tr { th scope="col" { "defender" } th scope="col" { "x, m" } th scope="col" { "y, m" } } }
                            tbody { @for (nth, (position, at)) in shape.positions.iter().zip(&row.anchors).enumerate() {
                                tr { th scope="row" { (position) }
                                    @for (axis, own) in ["x", "y"].into_iter().zip(at) {
                                        @let name = format!("at-{zone}-{}-{nth}-{axis}", row.place);
                                        td { input type="number" step="0.1" min="-8" max="14" name=(name) data-usual=(own)
                                            aria-label={ (position) ", " (axis) ", the ball at the " (row.place) }
                                            value=(fields.get(&name).map_or(own.to_string(), str::to_owned)); }
                                    }
                                }
                            } }
                        }
                    }
                }
            }
        }
    }
}

fn rule_choices(
    app: &App,
    (zone, key, words): (&str, &str, &str),
    rules: &[Rule],
    fields: &Fields,
) -> Markup {
    let name = format!("{key}-{zone}");
    html! {
        fieldset class="inner" {
            legend { (words) }
            div class="pictures" {
                label class="choice plain" {
                    input type="radio" name=(name) value="usual" checked[!rules.iter().any(|rule| fields.has(&name, &rule.name, false))];
                    span { b { "as usual" } " what the program takes where nothing is said" }
                }
                @for rule in rules {
                    label class="choice" {
                        input type="radio" name=(name) value=(rule.name) checked[fields.has(&name, &rule.name, false)];
                        img src={ (app.guard.root()) "thumb/rule/" (zone) "/" (key) "/" (rule.name) } alt="" width="160" height="101" loading="lazy";
                        span { (rule.line) }
                    }
                }
            }
        }
    }
}

fn levels() -> Vec<String> {
    let mut levels: Vec<String> =
        catalog().into_iter().filter(|entry| entry.kind == "level").map(|entry| entry.name).collect();
    levels.sort_by_key(|level| level != "high-school");
    levels
}

fn select(words: &str, name: &str, among: &[String], fields: &Fields) -> Markup {
    html! {
        label { (words) " " select name=(name) {
            @for word in among { option value=(word) selected[fields.get(name) == Some(word)] { (word) } }
        } }
    }
}

fn our_players(fields: &Fields) -> Markup {
    html! {
        fieldset id="our-players" {
            legend { "Our players" }
            div class="row" { (select("Our level", "our_level", &levels(), fields)) }
            p class="quiet" {
                "What is left empty is as the level has it. Shots as made of attempted (38 of 95) or as a share (40 %). Sprint times over any \
                 course, the same for all, of three or more. Nothing leaves this machine; of minors a number is enough."
            }
            div class="scroll" tabindex="0" role="group" aria-label="Our five players" {
                table class="players" {
                    thead { tr { th scope="col" { "player" } @for column in &PLAYER { th scope="col" { (column.words) } } } }
                    tbody {
                        @for (role, words) in ROLES {
                            tr { th scope="row" { (words) } @for column in &PLAYER { td { (cell((role, words), column, fields)) } } }
                        }
                    }
                }
            }
        }
    }
}

fn cell((role, words): (&str, &str), column: &PlayerColumn, fields: &Fields) -> Markup {
    let name = format!("{role}-{}", column.key);
    let label = format!("{words}: {}", column.words);
    let typed = fields.get(&name).unwrap_or_default();
    html! {
        @if column.among.is_empty() {
            input type="text" name=(name) aria-label=(label) value=(typed) placeholder=(column.example) maxlength="64" autocomplete="off";
        } @else {
            select name=(name) aria-label=(label) {
                option value="" { "–" }
                @for word in column.among { option value=(word) selected[typed == *word] { (word) } }
            }
        }
    }
}

fn compared(app: &App, fields: &Fields) -> Markup {
    html! {
        fieldset id="compared" {
            legend { "Compare" }
            div class="row" {
                @for (nth, kind) in KINDS.iter().enumerate() {
                    label { input type="radio" name="compare" id={ "kind-" (kind.key) } value=(kind.key)
                        checked[fields.has("compare", kind.key, nth == 0)]; " " (kind.many) }
                }
            }
            @for kind in &KINDS {
                fieldset class="inner kind" data-kind=(kind.key) {
                    legend {
                        "Two to " (MOST) " "
                        @match kind.without {
                            Some(name) => { "with " (name) ", which the others are compared with" }
                            None => { "of them; the first one ticked is what the others are compared with" }
                        }
                    }
                    div class="pictures" { (named(app, kind, fields)) }
                }
            }
        }
    }
}

fn named(app: &App, kind: &Kind, fields: &Fields) -> Markup {
    let ticked = ticked(kind);
    html! {
        @for entry in catalog().iter().filter(|entry| entry.kind == kind.catalog) {
            @let first = ticked.contains(&entry.name);
            label class="choice" {
                input type="checkbox" name=(kind.key) value=(entry.name) checked[fields.has(kind.key, &entry.name, first)];
                @if is_drawn(kind, &entry.name) {
                    img src={ (app.guard.root()) "thumb/" (kind.key) "/" (entry.name) } alt="" width="160" height="110" loading="lazy";
                }
                span { b { (entry.name) } " " (entry.line) }
            }
        }
    }
}

/// Habits and plans have no way that could be drawn.
pub fn is_drawn(kind: &Kind, name: &str) -> bool {
    match kind.key {
        "route" => true,
        "plan" => false,
        _ => bundled_text(name).is_some_and(|text| text.contains("[[program]]")),
    }
}
