//! The bundled zones as their files have them: who stands where for each place of the ball, and which rules they know.

use scenarios::bundled_text;
use toml_edit::{Document, Item};

/// The zones, the first of which is usual.
pub const ZONES: [&str; 6] = ["1-2-2", "3-2", "2-3", "2-1-2", "1-3-1", "man-to-man"];

/// A zone.
pub struct Shape {
    /// The positions, in the order of the anchors.
    pub positions: Vec<String>,
    /// One for each place of the ball; none in man-to-man, where everybody follows his man.
    pub rows: Vec<Row>,
    /// The rules of each kind, by the key with which a scenario picks one.
    pub rules: [(&'static str, Vec<Rule>); 2],
}

/// Where everybody stands with the ball at a place.
pub struct Row {
    /// The place.
    pub place: String,
    /// Where the ball is, m from under the rim.
    pub ball: [f64; 2],
    /// Where each position stands, m.
    pub anchors: Vec<[f64; 2]>,
}

/// A rule that a zone knows.
pub struct Rule {
    /// Its name.
    pub name: String,
    /// What the zone does under it.
    pub line: String,
    /// Who does it.
    pub who: Option<usize>,
    /// Where everybody stands then, the ball in the corner; None where the corner's row holds.
    pub anchors: Option<Vec<[f64; 2]>>,
}

impl Shape {
    /// Of a bundled zone; empty of any other.
    pub fn of(zone: &str) -> Self {
        let document = Document::parse(bundled_text(zone).unwrap_or_default()).ok();
        let root = document.as_ref().map(|document| document.as_item());
        let under = |key: &str| root.and_then(|root| root.get(key)).and_then(Item::as_table);
        let words = |item: Option<&Item>| -> Vec<String> {
            let all = item.and_then(Item::as_array).into_iter().flatten();
            all.filter_map(|word| word.as_str().map(str::to_owned)).collect()
        };
        let positions: Vec<String> = ["front", "back"]
            .into_iter()
            .flat_map(|line| words(under("positions").and_then(|table| table.get(line))))
            .collect();
        let row = |(place, row): (&str, &Item)| {
            let ball = row.get("ball").and_then(pair)?;
            Some(Row { place: place.to_owned(), ball, anchors: anchors(row)? })
        };
        let rows = under("rows").into_iter().flat_map(|table| table.iter()).filter_map(row).collect();
        let rule = |(name, rule): (&str, &Item)| {
            let text = |key: &str| rule.get(key).and_then(Item::as_str);
            let who = text("helper").or(text("on_ball"));
            Rule {
                name: name.to_owned(),
                line: text("line").unwrap_or_default().to_owned(),
                who: who.and_then(|who| positions.iter().position(|own| own == who)),
                anchors: anchors(rule),
            }
        };
        let rules = |table: &str| under(table).into_iter().flat_map(|table| table.iter()).map(rule).collect();
        let rules = [("post_help_rule", rules("post_help")), ("corner_rule", rules("corner"))];
        Self { positions, rows, rules }
    }

    /// The row of a place of the ball.
    pub fn row(&self, place: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.place == place)
    }
}

fn anchors(item: &Item) -> Option<Vec<[f64; 2]>> {
    let all = item.get("anchors")?.as_array()?;
    all.iter().map(|place| two(place.as_array()?)).collect()
}

fn pair(item: &Item) -> Option<[f64; 2]> {
    two(item.as_array()?)
}

fn two(array: &toml_edit::Array) -> Option<[f64; 2]> {
    let number = |nth: usize| {
        let value = array.get(nth)?;
        value.as_float().or(value.as_integer().map(|whole| whole as f64))
    };
    Some([number(0)?, number(1)?])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_that_the_catalog_has_are_read_whole() {
        let names: Vec<String> = scenarios::catalog()
            .into_iter()
            .filter(|entry| entry.kind == "zone")
            .map(|entry| entry.name)
            .collect();
        assert_eq!(names, ZONES);
        for zone in ZONES {
            let shape = Shape::of(zone);
            assert_eq!(shape.positions.len(), 5, "{zone}");
            let rows = if zone == "man-to-man" { 0 } else { 7 };
            assert_eq!(shape.rows.len(), rows, "{zone}");
            assert!(shape.rows.iter().all(|row| row.anchors.len() == 5), "{zone}");
            for rule in shape.rules.iter().flat_map(|(_, rules)| rules) {
                assert!(!rule.line.is_empty() && rule.who.is_some(), "{zone}: {}", rule.name);
            }
        }
        let known = Shape::of("1-2-2").rules.map(|(key, rules)| (key, rules.len()));
        assert_eq!(known, [("post_help_rule", 3), ("corner_rule", 3)]);
    }
}
