//! Prints the program's own values as one JSON object, for the checks in `tests/outside` to hold against
//! other libraries. Numbers are printed so that they read back to the bit.

mod bundled;
mod columns;
mod court;
mod flight;
mod motion;
mod runner;
mod statistics;
mod streams;

fn main() {
    let all = serde_json::json!({
        "columns": columns::values(),
        "streams": streams::values(),
        "statistics": statistics::values(),
        "motion": motion::values(),
        "flight": flight::values(),
        "court": court::values(),
    });
    println!("{all}");
}

/// Single precision as double, so that JSON has the exact value and not the shortest text of an `f32`.
fn exact(values: impl IntoIterator<Item = f32>) -> Vec<f64> {
    values.into_iter().map(f64::from).collect()
}
