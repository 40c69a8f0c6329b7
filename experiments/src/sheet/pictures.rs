//! The pictures of a sheet, drawn while the result is at hand; the sheet itself only puts them in their place.

use super::tables::positions;
use crate::compare::Comparison;
use crate::picture::{self, Picture};
use crate::places::Tables;
use crate::run::Played;

/// The four pictures of the sheet and one for each card, all of the best by net points. A variant without a route
/// has its passes in the place of the route.
pub fn pictures(comparison: &Comparison, tables: &Tables, played: &Played) -> Vec<Picture> {
    let best = tables.by_net.leader();
    let name = comparison.question.variants[best].as_str();
    let (setup, possessions) = (&*tables.setups[best], comparison.possessions);
    // The program of the route that was run most.
    let path = tables.paths[best].iter().max_by_key(|path| path.bins.first().map_or(0, |bin| bin.count));
    let mut pictures = vec![picture::start(("sheet-start", name), setup)];
    pictures.push(match path {
        Some(path) => picture::route(("sheet-route", name), &setup.court, path),
        None => picture::network(("sheet-route", name), setup, &tables.passes[best], possessions),
    });
    if let Some(moment) = &tables.moment {
        pictures.push(picture::still(("sheet-moment", name), setup, moment));
    }
    if let Some(grid) = tables.floor[best].grid("open_look") {
        let top = picture::top_of([grid], possessions);
        let names = ("sheet-looks", name, "open looks taken");
        pictures.push(picture::heat(names, &setup.court, grid, possessions, top));
    }
    let rows = positions(&played.places[best], &tables.passes[best], setup);
    pictures.extend(rows.map(|row| {
        let looks = row.passes.map(|pass| pass.map(|(to, _, _)| to));
        picture::card(&format!("sheet-card-{}", row.role + 1), setup, row.role, looks, path)
    }));
    pictures
}
