//! The pictures of a report by the question that they answer, for the leaders and the one compared with.

use maud::{Markup, html};

use super::Section;
use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::{ATTACKERS, FloorTable, PassPair, Tables, pass_pairs, shown};
use crate::wording::listed;

/// Variants that are drawn at most, folded ones too: more would make the page slow to open.
const DRAWN: usize = 12;

/// A name of at most so many letters stands in a sentence or over a narrow picture.
const SHORT: usize = 24;

/// Pictures of one kind.
struct Row {
    heading: String,
    /// One picture a variant, or more where it runs several routes: leaders and baseline.
    shown: Vec<Picture>,
    /// Those of the other variants.
    folded: Vec<Picture>,
    /// What belongs under them.
    under: Markup,
}

/// Pictures that answer one question.
pub struct Group {
    id: &'static str,
    title: &'static str,
    words: Vec<String>,
    rows: Vec<Row>,
}

impl Group {
    /// As a section of a report.
    pub(super) fn section(&self) -> Section {
        let html = html! {
            @for words in &self.words { p { (words) } }
            @for row in &self.rows {
                h3 { (row.heading) }
                (figures(&row.shown))
                @if !row.folded.is_empty() {
                    details {
                        summary { (row.heading) ": the others" }
                        (figures(&row.folded))
                    }
                }
                (row.under)
            }
        };
        Section::new(self.id, self.title, html)
    }

    /// All its pictures.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.rows.iter().flat_map(|row| row.shown.iter().chain(&row.folded))
    }
}

fn figures(pictures: &[Picture]) -> Markup {
    html! {
        // Four in a row only where their names can be read.
        @let long = pictures.iter().any(|picture| picture.title.chars().count() > 2 * SHORT);
        div class=(if pictures.len() == 4 && !long { "floors of-4" } else { "floors of-3" }) {
            @for picture in pictures {
                figure { (picture.inline()) figcaption { (picture.caption) } }
            }
        }
    }
}

/// What is shown by place: measure, heading, words.
const WHERE: [(&str, &str, &str); 4] = [
    ("open_look", "Open looks taken", "open looks taken"),
    ("good_shot", "Good shots", "good shots"),
    ("paint_touch", "First paint touch", "first paint touches"),
    ("turnover", "Turnovers", "turnovers"),
];

/// All groups.
pub fn gallery(comparison: &Comparison, tables: &Tables) -> Vec<Group> {
    let variants = shown(comparison, &tables.beside.by_net);
    let others = || comparison.order.iter().copied().filter(|v| !variants.contains(v));
    let folded: Vec<usize> = others().take(DRAWN - variants.len()).collect();
    let left = others().count() - folded.len();
    let show = Show { comparison, tables, variants, folded, left };
    vec![show.places(), show.breakdowns(), show.moves()]
}

struct Show<'a> {
    comparison: &'a Comparison,
    tables: &'a Tables,
    /// Leaders and baseline.
    variants: Vec<usize>,
    /// Others, by rank.
    folded: Vec<usize>,
    /// How many are not drawn at all.
    left: usize,
}

impl Show<'_> {
    /// All that are drawn.
    fn drawn(&self) -> impl Iterator<Item = usize> {
        self.variants.iter().chain(&self.folded).copied()
    }

    /// A row with a picture, or several, of each variant.
    fn row(&self, heading: String, draw: impl Fn(usize) -> Vec<Picture>) -> Row {
        let of = |variants: &[usize]| variants.iter().flat_map(|&v| draw(v)).collect();
        Row { heading, shown: of(&self.variants), folded: of(&self.folded), under: html! {} }
    }

    /// Which variants are drawn, and where the others are.
    fn which(&self) -> String {
        let names = |variants: &[usize]| listed(&variants.iter().map(|&v| self.name(v)).collect::<Vec<_>>());
        let question = &self.comparison.question;
        if question.variants.len() == 1 {
            return "Every picture is a file of its own in the folder pictures, too.".into();
        }
        // Names of crossed factors would fill the page.
        let short = question.variants.iter().all(|name| name.chars().count() <= SHORT);
        let named = |variants: &[usize]| if short { format!(": {}", names(variants)) } else { String::new() };
        let mut text = format!(
            "Drawn in full: the first by rank, three at most, and the one we compare with{}.",
            named(&self.variants)
        );
        if !self.folded.is_empty() {
            text += &format!(" The others are folded away under each row{}.", named(&self.folded));
        }
        if self.left > 0 {
            text += &format!(
                " {} of lower rank are not drawn: an experiment with those alone draws them.",
                self.left
            );
        }
        text + " Every picture is a file of its own in the folder pictures, too."
    }

    fn name(&self, v: usize) -> &str {
        &self.comparison.question.variants[v]
    }

    /// An id that is a plain file name, whatever the variant is called.
    fn id(&self, what: &str, v: usize) -> String {
        format!("{what}-{}", v + 1)
    }

    fn floor(&self, v: usize) -> &FloorTable {
        &self.tables.floor[v]
    }

    fn places(&self) -> Group {
        let possessions = self.comparison.possessions;
        let row = |(measure, heading, what): &(&str, &str, &str)| {
            let grid = |v: usize| self.floor(v).grid(measure);
            let top = picture::top_of(self.drawn().filter_map(grid), possessions);
            self.row((*heading).to_owned(), |v| {
                let id = self.id(&measure.replace('_', "-"), v);
                let court = &self.tables.setups[v].court;
                let draw = |grid| picture::heat((&id, self.name(v), what), court, grid, possessions, top);
                grid(v).map(draw).into_iter().collect()
            })
        };
        let turned =
            "The floor as the attack sees it, the rim at the top. Every possession is turned so that the \
                      rover starts on the right. The pictures of a row share one scale."
                .to_owned();
        Group {
            id: "where",
            title: "Where it comes from",
            words: vec![turned, self.which()],
            rows: WHERE.iter().map(row).collect(),
        }
    }

    fn breakdowns(&self) -> Group {
        let breakdowns = &self.tables.breakdowns;
        let top = self.drawn().fold(0.0, |most: f64, v| most.max(breakdowns[v].top()));
        let court = |v: usize| &self.tables.setups[v].court;
        let baseline = self.comparison.question.baseline;
        let less = |v: usize| breakdowns[v].less(&breakdowns[baseline]);
        let widest =
            self.drawn().filter(|v| *v != baseline).fold(0.0, |most: f64, v| most.max(less(v).widest()));
        let mut rows = vec![self.row("How late help arrives, by the ball's place".to_owned(), |v| {
            vec![picture::breakdown((&self.id("lateness", v), self.name(v)), court(v), &breakdowns[v], top)]
        })];
        if self.drawn().any(|v| v != baseline) {
            rows.push(self.row(format!("The same, against {}", self.name(baseline)), |v| {
                if v == baseline {
                    return Vec::new();
                }
                let names = (&*self.id("lateness-against-baseline", v), self.name(v), self.name(baseline));
                vec![picture::breakdown_difference(names, court(v), &less(v), widest)]
            }));
        }
        rows.push(self.row("Where each defender spends his time".to_owned(), |v| {
            let names = (&*self.id("defenders", v), self.name(v));
            vec![picture::defenders(names, &self.tables.setups[v], self.floor(v))]
        }));
        let words = "How late help arrives: by how many seconds the back line would come too late to its \
                     worst-guarded attacker, if the ball were thrown now. It is taken at every step and set down where the ball is; a \
                     number is the mean over the steps with the ball in that cell (breakdowns.csv). Cells where the ball \
                     is for less than a second in 100 possessions are left out.";
        Group { id: "breakdowns", title: "Where the zone breaks down", words: vec![words.to_owned()], rows }
    }

    fn moves(&self) -> Group {
        let routes = self.row("The route as it was run".to_owned(), |v| {
            let setup = &self.tables.setups[v];
            let draw = |(nth, path)| {
                let id = format!("{}-{}", self.id("route", v), nth + 1);
                picture::route((&id, self.name(v)), setup, path)
            };
            self.tables.paths[v].iter().enumerate().map(draw).collect()
        });
        let passes = self.row("Who passes to whom".to_owned(), |v| {
            let (id, rows) = (self.id("passes", v), &self.tables.passes[v]);
            let (setup, possessions) = (&self.tables.setups[v], self.comparison.possessions);
            vec![picture::network((&id, self.name(v)), setup, rows, possessions)]
        });
        let under = html! {
            @for &v in &self.variants { (self.pass_table(v)) }
            @if !self.folded.is_empty() {
                details {
                    summary { "Who passes to whom: the tables of the others" }
                    @for &v in &self.folded { (self.pass_table(v)) }
                }
            }
        };
        let run = !routes.shown.is_empty() || !routes.folded.is_empty();
        let rows = run.then_some(routes).into_iter().chain([Row { under, ..passes }]).collect();
        let words = "A route is a plan; the rover meets bodies, waits and is crowded off it. The usual path is \
                     the middle (median) of his places so long after he set out, turned so that he sets out on the right. \
                     A rover who only stays where he starts has no route to draw. Of passes, the three \
                     strongest are drawn; all are in the tables below.";
        Group { id: "moves", title: "How the rover and the ball move", words: vec![words.to_owned()], rows }
    }

    /// From each position to each: how often, and how much of it is caught.
    fn pass_table(&self, v: usize) -> Markup {
        let possessions = self.comparison.possessions as f64;
        let pairs = pass_pairs(&self.tables.passes[v]);
        let words = |role: usize| ATTACKERS[role].replace('-', " ");
        let of = |from: usize, to: usize| pairs.iter().find(|pair| (pair.from, pair.to) == (from, to));
        html! {
            @let named = format!("Passes of {}", self.name(v));
            div class="scroll" tabindex="0" role="region" aria-label=(named) {
                table class="passes" data-variant=(self.name(v)) {
                    caption { span {
                        (self.name(v)) ": passes in 100 possessions, from the row to the column; under each how many of 100 \
                         are caught and how many a defender takes. As in pass_pairs.csv; by kind in passes.csv."
                    } }
                    thead { tr {
                        th scope="col" { "from" }
                        @for to in 0..ATTACKERS.len() { th scope="col" class="n" { (words(to)) } }
                    } }
                    tbody { @for from in 0..ATTACKERS.len() { tr {
                        th scope="row" { (words(from)) }
                        @for to in 0..ATTACKERS.len() { (pass_cell(of(from, to), possessions)) }
                    } } }
                }
            }
        }
    }
}

/// One way of the passes; a dash where there was none.
fn pass_cell(pair: Option<&PassPair>, possessions: f64) -> Markup {
    let Some(pair) = pair else { return html! { td class="n" { "\u{2013}" } } };
    let share = |part: i64| format!("{:.0}", 100.0 * part as f64 / pair.thrown as f64);
    html! {
        td class="n" data-from=(ATTACKERS[pair.from]) data-to=(ATTACKERS[pair.to]) {
            (format!("{:.1}", 100.0 * pair.thrown as f64 / possessions)) br;
            span class="quiet" { (share(pair.completed)) ", " (share(pair.taken)) }
        }
    }
}
