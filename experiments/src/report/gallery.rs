//! The pictures of a report by the question that they answer, for the leaders and the one compared with.

use engine::names;
use engine::setup::{ProgramKind, Region, Setup};
use maud::{Markup, html};

use super::{Section, passes};
use crate::columns::{Column, Told};
use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::{Tables, Way, shown, top};
use crate::wording::{gap, listed};

/// Variants that are drawn at most, folded ones too: more would make the page slow to open.
const DRAWN: usize = 12;

/// A name of at most so many letters stands in a sentence.
const SHORT: usize = 24;

/// Pictures of one kind.
struct Row {
    heading: String,
    /// One picture a variant, or more where it runs several routes: leaders and baseline.
    shown: Vec<Picture>,
    /// Those of the other variants.
    folded: Vec<Picture>,
    /// The same in more detail, of all variants, and what they are called.
    detail: (&'static str, Vec<Picture>),
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
                @if !row.detail.1.is_empty() {
                    details {
                        summary { (row.heading) ": " (row.detail.0) }
                        (figures(&row.detail.1))
                    }
                }
                (row.under)
            }
        };
        Section::new(self.id, self.title, html)
    }

    /// All its pictures.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.rows.iter().flat_map(|row| row.shown.iter().chain(&row.folded).chain(&row.detail.1))
    }
}

/// Pictures beside one another; where the signs of all mean the same, that is said once, over them.
fn figures(pictures: &[Picture]) -> Markup {
    let is_shared = pictures.len() > 1 && pictures.windows(2).all(|pair| pair[0].signs() == pair[1].signs());
    let key = pictures.first().and_then(Picture::key).filter(|_| is_shared);
    html! {
        @if let Some(key) = &key { div class="key" { (key) } }
        // Four are as many rows in twos as in threes, and larger.
        div class=(if pictures.len() == 4 { "floors twos" } else { "floors" }) {
            @for picture in pictures {
                figure {
                    @if is_shared { (picture.without_key()) } @else { (picture.inline()) }
                    figcaption { (picture.caption) }
                }
            }
        }
    }
}

/// What is shown by place: measure, heading, words.
const WHERE: [(&str, &str, &str); 5] = [
    ("shots", "Shots", "shots"),
    ("open_look", "Open looks taken", "open looks taken"),
    ("good_look", "Good looks", "good looks"),
    ("paint_touch", "First paint touch", "first paint touches"),
    ("turnover", "Turnovers", "turnovers"),
];

/// Regions that a caption names, at most.
const NAMED: usize = 2;

/// What the finer pictures of a row are called.
const BY_CELL: &str = "by small cells";

/// Columns that say of a whole possession what a picture shows by place: the share of the time in which somebody is free, how
/// late help is, and passes.
const FREE: &str = "unguarded_share";
const LATE: &str = "back_line_lateness_s";
const PASSES: &str = "passes";

/// A picture with what it comes to beside the one compared with.
fn finding(mut picture: Picture, against: &str) -> Picture {
    picture.caption.push_str(against);
    picture
}

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
        Row {
            heading,
            shown: of(&self.variants),
            folded: of(&self.folded),
            detail: ("", Vec::new()),
            under: html! {},
        }
    }

    /// A picture of each variant that is drawn.
    fn each(&self, draw: impl Fn(usize) -> Option<Picture>) -> Vec<Picture> {
        self.drawn().filter_map(draw).collect()
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

    fn setup(&self, v: usize) -> &Setup {
        &self.tables.setups[v]
    }

    fn places(&self) -> Group {
        let turned = "The floor as the attack sees it, the rim at the top. Every possession is turned so that the rover starts on \
                      the right. The regions are those that a coach names; the pictures of a row share one scale, and so does the \
                      sheet. The rim is split between the low posts. The small figure is what one is worth: the points expected of the shot; of a \
                      paint touch, those of its possession; where there are fewer than 30 of the run, too few to tell, it is left out. Against the one we compare with, a caption names the \
                      regions that have clearly more or fewer, so much so that luck alone would name one in only 1 of 20 such pictures. All of it is in \
                      regions.csv.";
        Group {
            id: "where",
            title: "Where it comes from",
            words: vec![turned.to_owned(), self.which()],
            rows: WHERE.iter().map(|what| self.place(*what)).chain([self.named()]).collect(),
        }
    }

    /// What the places are called, of all that are drawn alike.
    fn named(&self) -> Row {
        let drawn = self.variants.first().map(|&v| picture::named("places", self.setup(v)));
        Row {
            heading: "What the places are called".to_owned(),
            shown: drawn.into_iter().collect(),
            folded: Vec::new(),
            detail: ("", Vec::new()),
            under: html! {},
        }
    }

    /// One measure by region, and by cell for who asks for it.
    fn place(&self, (measure, heading, what): (&str, &str, &str)) -> Row {
        let possessions = self.comparison.possessions;
        let most = top(&self.tables.regions, measure, possessions);
        let own = |v: usize, counted| {
            let id = self.id(&format!("{}-regions", measure.replace('_', "-")), v);
            let drawn =
                picture::regions((&id, self.name(v), what), self.setup(v), counted, possessions, most);
            finding(drawn, &self.regions_against(v, measure))
        };
        let row = self.row(heading.to_owned(), |v| {
            self.tables.regions[v].of(measure).map(|counted| own(v, counted)).into_iter().collect()
        });
        let grid = |v: usize| self.tables.floor[v].grid(measure);
        let darkest = picture::top_of(self.drawn().filter_map(grid), possessions);
        let cells = self.each(|v| {
            let id = self.id(&measure.replace('_', "-"), v);
            Some(picture::heat((&id, self.name(v), what), self.setup(v), grid(v)?, possessions, darkest))
        });
        Row { detail: (BY_CELL, cells), ..row }
    }

    fn breakdowns(&self) -> Group {
        let words = "Somebody is free while the back line would come too late to an attacker low on the floor if the ball were thrown \
                     to him now: a number is the part of the time with the ball in that region (free.csv). How late, in seconds, is \
                     told by cell.";
        let rows = vec![self.free(), self.stands()];
        Group { id: "breakdowns", title: "Where the zone breaks down", words: vec![words.to_owned()], rows }
    }

    /// How often somebody is free; by cell, how late help is.
    fn free(&self) -> Row {
        let most = picture::most_free(self.drawn().map(|v| &self.tables.regions[v]));
        let row = self.row("How often somebody is free, by the ball's place".to_owned(), |v| {
            let names = (&*self.id("free", v), self.name(v));
            let drawn = picture::free(names, self.setup(v), &self.tables.regions[v], most);
            vec![finding(drawn, &self.against(v, FREE))]
        });
        let breakdowns = &self.tables.breakdowns;
        let top = self.drawn().fold(0.0, |most: f64, v| most.max(breakdowns[v].top()));
        let cells = self.each(|v| {
            let names = (&*self.id("lateness", v), self.name(v));
            let drawn = picture::breakdown(names, self.setup(v), &breakdowns[v], top);
            Some(finding(drawn, &self.against(v, LATE)))
        });
        Row { detail: (BY_CELL, cells), ..row }
    }

    /// The name of the one compared with, for a variant that is another.
    fn baseline(&self, v: usize) -> Option<&str> {
        let baseline = self.comparison.question.baseline;
        (v != baseline).then(|| self.name(baseline))
    }

    /// A measure of a whole possession against the one compared with; empty for that one, and without data.
    fn against(&self, v: usize, key: &str) -> String {
        let told = || {
            let (column, against) = (Column::named(key)?, self.baseline(v)?);
            let contrast = self.comparison.contrast(v, self.comparison.question.baseline, column)?;
            let by = contrast.difference.interval;
            let luck = if by.contains(0.0) { ", which could be luck" } else { "" };
            // Passes are counted; the others are shares and times of a possession, which are told of its parts in the picture.
            let whole = if column.told() == Told::InTwenty { "" } else { ", over the whole possession" };
            Some(format!(" Against {against}{whole}: {}{luck}.", gap(column, &by)))
        };
        told().unwrap_or_default()
    }

    /// Where there is clearly more or less of a measure than with the one compared with.
    fn regions_against(&self, v: usize, measure: &str) -> String {
        let regions = &self.tables.regions;
        let counted = |v: usize| regions[v].of(measure);
        let told = || {
            let (against, other) = (self.baseline(v)?, counted(self.comparison.question.baseline)?);
            let differ = counted(v)?.against(other, self.comparison.possessions);
            let words = |(region, by): &(Region, f64)| {
                let way = if *by > 0.0 { "more" } else { "fewer" };
                format!("{} {way} from the {}", picture::often(20.0 * by.abs()), names::region(*region))
            };
            let all: Vec<String> = differ.iter().take(NAMED).map(words).collect();
            Some(if all.is_empty() {
                format!(" Against {against}: no region clearly differs.")
            } else {
                format!(" Against {against}, in 20 possessions: {}.", listed(&all))
            })
        };
        told().unwrap_or_default()
    }

    /// Where the defenders stand: of the first by ball place, of the others folded away; over all of the time in detail.
    fn stands(&self) -> Row {
        let draw = |v: usize| -> Vec<Picture> {
            let names = (&*self.id("stand", v), self.name(v));
            let (setup, own) = (self.setup(v), &self.tables.regions[v]);
            picture::DRAWN
                .into_iter()
                .filter_map(|region| picture::stand(names, setup, own, region))
                .collect()
        };
        let whole = self.each(|v| {
            let names = (&*self.id("defenders", v), self.name(v));
            Some(picture::defenders(names, self.setup(v), &self.tables.floor[v], self.tables.beside.units))
        });
        let (first, others) =
            self.variants.split_first().map_or((None, &[][..]), |(v, rest)| (Some(*v), rest));
        Row {
            heading: "Where the zone stands, by the ball's place".to_owned(),
            shown: first.map(draw).unwrap_or_default(),
            folded: others.iter().flat_map(|&v| draw(v)).collect(),
            detail: ("half of each defender's time", whole),
            under: html! {},
        }
    }

    fn moves(&self) -> Group {
        let is_option =
            |v: usize| matches!(self.tables.kinds[v], ProgramKind::PostOption | ProgramKind::GuardOption);
        let what = if self.variants.iter().all(|&v| is_option(v)) { "option" } else { "route" };
        let routes = self.row(format!("The {what} as it was run"), |v| {
            let draw = |(nth, way): (usize, &&Way)| {
                let id = format!("{}-{}", self.id("route", v), nth + 1);
                picture::route((&id, self.name(v)), self.setup(v), way)
            };
            self.tables.ways(v).iter().enumerate().map(draw).collect()
        });
        let passes = self.row("Who passes to whom".to_owned(), |v| {
            let (id, rows) = (self.id("passes", v), &self.tables.passes[v]);
            let (setup, possessions) = (self.setup(v), self.comparison.possessions);
            let drawn = picture::network((&id, self.name(v)), setup, rows, possessions);
            vec![finding(drawn, &self.against(v, PASSES))]
        });
        let under = html! {
            @for &v in &self.variants { (passes::table(self.name(v), &self.tables.passes[v], self.comparison.possessions)) }
            @if !self.folded.is_empty() {
                details {
                    summary { "Who passes to whom: the tables of the others" }
                    @for &v in &self.folded { (passes::table(self.name(v), &self.tables.passes[v], self.comparison.possessions)) }
                }
            }
        };
        let run = !routes.shown.is_empty() || !routes.folded.is_empty();
        let rows = run.then_some(routes).into_iter().chain([Row { under, ..passes }]).collect();
        let words = "A route is a plan; the runner meets bodies, waits and is crowded off it. Drawn thick is a typical run, the one \
                     nearest to all the others, and some of the others thin, seen on the first possessions (ways.csv), turned so that he \
                     sets out on the right. A rover who only stays where he starts has no way to draw. Of passes, the three \
                     strongest are drawn; all are in the tables below.";
        Group { id: "moves", title: "How the runner and the ball move", words: vec![words.to_owned()], rows }
    }
}
