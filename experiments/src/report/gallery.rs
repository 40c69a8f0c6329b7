//! The pictures of a report by the question that they answer, for the leaders and the baseline.

use maud::{Markup, html};

use super::Section;
use crate::compare::Comparison;
use crate::picture::{self, Picture, Tears};
use crate::places::{ATTACKERS, FloorTable, Tables, shown};
use crate::wording::grouped;

/// Pictures that answer one question.
pub struct Group {
    id: &'static str,
    title: &'static str,
    words: &'static str,
    /// Rows of pictures: a heading, one picture a variant, and what belongs under them.
    rows: Vec<(String, Vec<Picture>, Markup)>,
}

impl Group {
    /// As a section of a report.
    pub(super) fn section(&self) -> Section {
        let html = html! {
            p { (self.words) }
            @for (heading, pictures, under) in &self.rows {
                h3 { (heading) }
                div class=(format!("floors of-{}", if pictures.len() == 4 { 4 } else { 3 })) {
                    @for picture in pictures {
                        figure { (picture.inline()) figcaption { (picture.caption) } }
                    }
                }
                (under)
            }
        };
        Section::new(self.id, self.title, html)
    }

    /// All its pictures.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.rows.iter().flat_map(|row| &row.1)
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
    let show = Show { comparison, tables, variants: shown(comparison) };
    vec![show.places(), show.tears(), show.moves()]
}

struct Show<'a> {
    comparison: &'a Comparison,
    tables: &'a Tables,
    variants: Vec<usize>,
}

impl Show<'_> {
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
            let top = picture::top_of(self.variants.iter().filter_map(|&v| grid(v)), possessions);
            let pictures = self.variants.iter().filter_map(|&v| {
                let id = self.id(&measure.replace('_', "-"), v);
                let court = &self.tables.setups[v].court;
                Some(picture::heat((&id, self.name(v), what), court, grid(v)?, possessions, top))
            });
            ((*heading).to_owned(), pictures.collect(), html! {})
        };
        Group {
            id: "where",
            title: "Where it comes from",
            words: "The floor as the attack sees it, the rim at the top; every possession is turned so that the \
                    rover starts on the right. The pictures of a row share one scale.",
            rows: WHERE.iter().map(row).collect(),
        }
    }

    fn tears(&self) -> Group {
        let possessions = self.comparison.possessions;
        let tears: Vec<(usize, Tears)> = self
            .variants
            .iter()
            .map(|&v| (v, Tears::new(self.floor(v), possessions, self.tables.setups[v].step_s)))
            .collect();
        let top = tears.iter().fold(0.0, |most: f64, (_, tears)| most.max(tears.top()));
        let court = |v: usize| &self.tables.setups[v].court;
        let late = tears.iter().map(|(v, tears)| {
            picture::tear((&self.id("lateness", *v), self.name(*v)), court(*v), tears, top)
        });
        let baseline = self.comparison.question.baseline;
        let base = tears.iter().find(|(v, _)| *v == baseline).map(|(_, tears)| tears);
        let differences: Vec<(usize, Tears)> = tears
            .iter()
            .filter(|(v, _)| *v != baseline)
            .filter_map(|(v, tears)| Some((*v, tears.less(base?))))
            .collect();
        let widest = differences.iter().fold(0.0, |most: f64, (_, tears)| most.max(tears.widest()));
        let against = differences.iter().map(|(v, tears)| {
            let names = (&*self.id("lateness-against-baseline", *v), self.name(*v), self.name(baseline));
            picture::tear_difference(names, court(*v), tears, widest)
        });
        let duties = self.variants.iter().map(|&v| {
            picture::defenders(
                (&self.id("defenders", v), self.name(v)),
                &self.tables.setups[v],
                self.floor(v),
            )
        });
        let mut rows =
            vec![("How late the back line is, by the ball's place".to_owned(), late.collect(), html! {})];
        if !differences.is_empty() {
            rows.push((format!("The same, against {}", self.name(baseline)), against.collect(), html! {}));
        }
        rows.push(("Where each defender spends his time".to_owned(), duties.collect(), html! {}));
        Group {
            id: "tears",
            title: "Where the zone tears",
            words: "Lateness is by how much the quickest man of the back line would come too late to the attacker \
                    he reaches last, if the ball were passed now. It is taken at every step and set down where the \
                    ball is. Means are sums over steps of places.csv; cells where the ball is for less than a \
                    second in 100 possessions are left out.",
            rows,
        }
    }

    fn moves(&self) -> Group {
        let routes = self.variants.iter().flat_map(|&v| {
            let court = &self.tables.setups[v].court;
            self.tables.paths[v].iter().enumerate().map(move |(nth, path)| {
                let id = format!("{}-{}", self.id("route", v), nth + 1);
                picture::route((&id, self.name(v)), court, path)
            })
        });
        let passes = self.variants.iter().map(|&v| {
            let (id, rows) = (self.id("passes", v), &self.tables.passes[v]);
            picture::network((&id, self.name(v)), &self.tables.setups[v], rows, self.comparison.possessions)
        });
        let tables = html! { @for &v in &self.variants { (self.pass_table(v)) } };
        let mut rows: Vec<(String, Vec<Picture>, Markup)> = Vec::new();
        let routes: Vec<Picture> = routes.collect();
        if !routes.is_empty() {
            rows.push(("The route as it was run".to_owned(), routes, html! {}));
        }
        rows.push(("Who passes to whom".to_owned(), passes.collect(), tables));
        Group {
            id: "moves",
            title: "How the rover and the ball move",
            words: "A route is a plan; the rover meets bodies, waits and is crowded off it. The way shown is the \
                    median of his places so long after he set out, turned so that he sets out on the right.",
            rows,
        }
    }

    fn pass_table(&self, v: usize) -> Markup {
        let possessions = self.comparison.possessions as f64;
        let rows = &self.tables.passes[v];
        let sum = |from: usize, to: usize| {
            rows.iter()
                .filter(|row| (row.from, row.to) == (from, to))
                .fold((0, 0, 0), |sum, row| (sum.0 + row.thrown, sum.1 + row.completed, sum.2 + row.taken))
        };
        let pairs = (0..5).flat_map(|from| (0..5).map(move |to| (from, to)));
        let words = |role: usize| ATTACKERS[role].replace('-', " ");
        html! {
            details {
                summary { "Passes of " (self.name(v)) " as a table" }
                div class="scroll" tabindex="0" role="region" aria-label=(format!("Passes of {}", self.name(v))) {
                    table data-variant=(self.name(v)) {
                        caption { span { (self.name(v)) ", " (grouped(self.comparison.possessions)) " possessions; by kind in passes.csv." } }
                        thead { tr {
                            th scope="col" { "from" } th scope="col" { "to" }
                            th scope="col" class="n" { "in 100 possessions" } th scope="col" class="n" { "caught, %" }
                            th scope="col" class="n" { "taken by a defender, %" }
                        } }
                        tbody {
                            @for (from, to) in pairs {
                                @let (thrown, completed, taken) = sum(from, to);
                                @if thrown > 0 { tr {
                                    th scope="row" { (words(from)) } td { (words(to)) }
                                    td class="n" { (format!("{:.1}", 100.0 * thrown as f64 / possessions)) }
                                    td class="n" { (format!("{:.1}", 100.0 * completed as f64 / thrown as f64)) }
                                    td class="n" { (format!("{:.1}", 100.0 * taken as f64 / thrown as f64)) }
                                } }
                            }
                        }
                    }
                }
            }
        }
    }
}
