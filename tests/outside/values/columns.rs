//! How each column of the table is made of the records: what is summed, over what, and the size of one unit.

use engine::{Measure, Unit};
use experiments::columns::{COLUMNS, Kind};
use experiments::row::Quantity;
use serde_json::{Value, json};

pub fn values() -> Value {
    let column = |kind: Kind| match kind {
        Kind::Rate(measure) | Kind::Mean(measure) => (Quantity::Measured(measure), None),
        Kind::Share(part, whole) => (Quantity::Measured(part), Some(Quantity::Measured(whole))),
        Kind::Ratio(above, below) => (above, Some(below)),
    };
    let told = COLUMNS.iter().map(|own| {
        let (above, below) = column(own.kind);
        let scale = above.unit_size() / below.map_or(1.0, Quantity::unit_size);
        json!({ "key": own.key, "above": summed(above), "below": below.map(summed), "scale": scale })
    });
    told.collect()
}

/// The whole number that a possession adds, as SQL has it of the records.
fn summed(quantity: Quantity) -> String {
    let whole = |measure: Measure| format!("CAST(\"{}\" AS BIGINT)", measure.key());
    match quantity {
        Quantity::Measured(measure) => match measure.unit() {
            Unit::Flag | Unit::Count => whole(measure),
            _ => format!("\"{}_millionths\"", measure.key()),
        },
        Quantity::EffectiveMakes => {
            format!("2 * {} + {}", whole(Measure::ShotsMade), whole(Measure::ThreesMade))
        }
    }
}
