//! Pages of paper as a PDF: vectors and letters, its size the paper's, the same bytes every time.

use std::sync::Arc;

use krilla::Document;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};
use scenarios::shown;
use usvg::fontdb::Database;
use usvg::{Options, Tree};

use super::pen::{BOLD, Pen, REGULAR};
use crate::error::Error;

/// The pages as one file.
///
/// # Errors
/// The page cannot be turned into a PDF: a bug.
pub fn pdf(pages: &[Pen], title: &str) -> Result<Vec<u8>, Error> {
    let broken = |why: String| Error::Bug(format!("a sheet could not be made a PDF: {why}"));
    let letters = letters();
    let mut file = Document::new();
    file.set_metadata(Metadata::new().title(shown(title).into_owned()).producer("zoneprobe".into()));
    for page in pages {
        let drawn = Tree::from_str(&page.svg(), &letters).map_err(|error| broken(error.to_string()))?;
        let (width, height) = (page.width as f32, page.height as f32);
        let sizes = Size::from_wh(width, height).zip(PageSettings::from_wh(width, height));
        let (size, settings) = sizes.ok_or_else(|| broken("paper without a size".into()))?;
        let mut sheet = file.start_page_with(settings);
        let mut surface = sheet.surface();
        surface.draw_svg(&drawn, size, SvgSettings::default());
        surface.finish();
        sheet.finish();
    }
    file.finish().map_err(|error| broken(format!("{error:?}")))
}

/// The program's own typefaces and no others.
fn letters() -> Options<'static> {
    let mut letters = Database::new();
    letters.load_font_data(REGULAR.to_vec());
    letters.load_font_data(BOLD.to_vec());
    let family = letters.faces().next().and_then(|face| face.families.first()).map(|(name, _)| name.clone());
    letters.set_sans_serif_family(family.unwrap_or_default());
    Options { fontdb: Arc::new(letters), ..Options::default() }
}

#[cfg(test)]
mod tests {
    use super::super::pen::Type;
    use super::*;

    #[test]
    fn a_page_in_both_typefaces_is_the_same_bytes_every_time() {
        let mut page = Pen::new((612.0, 792.0));
        page.line(40.0, 60.0, Type::bold(14.0), "If they adjust");
        page.line(40.0, 90.0, Type::plain(9.0), "the point drops to the low post");
        page.picture(
            (40.0, 120.0),
            100.0,
            "<svg viewBox=\"0 0 2 1\"><rect width=\"2\" height=\"1\" opacity=\".5\"/></svg>",
        );
        let pages = [page];
        let first = pdf(&pages, "a sheet").unwrap();
        let text = String::from_utf8_lossy(&first);
        assert!(text.contains("DejaVuSansCondensed-Bold") && text.contains("/MediaBox[0 0 612 792]"));
        for _ in 0..8 {
            assert!(pdf(&pages, "a sheet").unwrap() == first);
        }
    }
}
