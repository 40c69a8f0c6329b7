//! A table of worth as a file: points to the thousandth.

use std::fmt::Write as _;

use engine::setup::{BallPlace, CLOCK_S, Continuation, HELD_S, Moved, entry};

/// The file, with its one line for the catalog and the command that makes it.
pub fn toml(table: &Continuation, line: &str, command: &str) -> String {
    let mut text = format!(
        "# Continuation values: net points that a possession brings from a state on (expected points less what the\n\
         # opponents' break is expected to bring them), computed by simulation.\n\
         line = {line:?}\n\
         made_by = {command:?}\n\n\
         # What follows a missed shot (a two from within 3.05 m, from beyond, a three), and a pass taken by the zone.\n\
         [after]\n"
    );
    let numbers = |numbers: &mut dyn Iterator<Item = f32>| {
        numbers.map(|number| format!("{:.3}", f64::from(number) + 0.0)).collect::<Vec<_>>().join(", ")
    };
    let _ = writeln!(text, "miss = [{}]", numbers(&mut table.after_miss.into_iter()));
    let _ = writeln!(text, "loss = {:.3}", table.after_loss);
    let _ = write!(
        text,
        "\n# For each ball place and each kind of its last move: a row for each time it has been held ({}),\n\
         # in it a number for each time left on the shot clock ({}).\n",
        seconds(&HELD_S),
        seconds(&CLOCK_S)
    );
    for (place, name) in BallPlace::NAMES.into_iter().enumerate() {
        let _ = write!(text, "\n[points.{name}]\n");
        for (moved, name) in Moved::NAMES.into_iter().enumerate() {
            let _ = writeln!(text, "{name} = [");
            for held in 0..HELD_S.len() {
                let row = (0..CLOCK_S.len()).map(|clock| table.points[entry(place, moved, held, clock)]);
                let _ = writeln!(text, "    [{}],", numbers(&mut { row }));
            }
            text.push_str("]\n");
        }
    }
    text
}

fn seconds(values: &[f32]) -> String {
    values.iter().map(|value| format!("{value}")).collect::<Vec<_>>().join(", ") + " s"
}
