//! The part of `zoneprobe keys columns` that is about records.

use engine::events::{Detail, EventKind};
use scenarios::Experiment;

use super::layout::Layout;
use super::tables::{Events, Possessions, Table};

/// The tables, their columns, and the lists of events and details, as Markdown.
#[must_use]
pub fn reference(experiment: &Experiment) -> String {
    let mut text = String::new();
    let layout = Layout::OneFile;
    let possessions = Possessions::new(experiment, layout);
    let heads = [
        ("events.parquet: an event", &Events::new(layout) as &dyn Table),
        ("possessions.parquet: a possession and variant", &possessions),
    ];
    for (head, table) in heads {
        text += &format!("## {head}\n\n| column | type | unit | meaning |\n| --- | --- | --- | --- |\n");
        for column in table.columns().iter().filter(|column| !experiment.varied.contains(&column.name)) {
            let maybe = if column.is_optional { " or none" } else { "" };
            let (name, holds) = (&column.name, column.holds.told());
            text += &format!("| `{name}` | {holds}{maybe} | {} | {} |\n", column.unit, column.meaning);
        }
        text.push('\n');
    }
    text += "A key of the scenario at which the variants differ is a column of `possessions.parquet`, too, by its name in the \
             files.\n\nEvents:\n\n| `event` | meaning |\n| --- | --- |\n";
    for kind in EventKind::ALL {
        text += &format!("| `{}` | {} |\n", kind.key(), kind.meaning().trim());
    }
    text += "\n| `detail` | meaning |\n| --- | --- |\n";
    for detail in Detail::ALL {
        text += &format!("| `{}` | {} |\n", detail.key(), detail.meaning().trim());
    }
    text
}
