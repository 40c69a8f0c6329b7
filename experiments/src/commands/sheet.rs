//! `sheet`: the coach's page and a card for each position, from a result's folder.

use scenarios::shown_path;

use crate::cli::SheetOptions;
use crate::console::Console;
use crate::error::Error;
use crate::output::{Reservation, ResultFolder};
use crate::sheet::{Results, Sheet, cards, page, paper, pdf};
use crate::wrapping::wrapped;

/// Puts the sheet together and writes it.
pub fn sheet(options: &SheetOptions, console: &mut Console) -> Result<(), Error> {
    let folder = ResultFolder::open(&options.results)?;
    folder.check_whole()?;
    let results = Results::read(&folder)?;
    let sheet = Sheet::new(results, options.units, &options.game)?;
    let folder = options.out.clone().unwrap_or_else(|| options.results.join("sheet"));
    let place = Reservation::named(&folder)?;
    let (pages, cards) = (paper::sheet(&sheet, options.paper), cards::cards(&sheet, options.paper));
    let files = [
        ("sheet.html", page::sheet(&sheet, options.paper, &pages).into_bytes()),
        ("sheet.pdf", pdf(&pages, &format!("Coach's sheet: {}", sheet.title))?),
        ("cards.html", page::cards(&sheet, options.paper, &cards).into_bytes()),
        ("cards.pdf", pdf(&cards, &format!("Cards: {}", sheet.leader()))?),
    ];
    let written = place.write(&files)?;
    written.word().inspect(|word| console.say(word));
    let mut told = format!("{}\n", wrapped(&sheet.claims.join(" "), console.width.min(100)));
    for (name, _) in &files {
        told.push_str(&format!("{}\n", shown_path(&written.folder.join(name))));
    }
    if options.quiet {
        return Ok(());
    }
    Ok(console.print(&told)?)
}
