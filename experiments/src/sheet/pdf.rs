//! A page of paper as a PDF: vectors and letters, its size the paper's, the same bytes every time.

use std::collections::BTreeMap;
use std::sync::Arc;

use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, TextStr};
use svg2pdf::usvg::fontdb::Database;
use svg2pdf::usvg::{Options, Tree};
use svg2pdf::{ConversionOptions, to_chunk};

use super::pen::{BOLD, Pen, REGULAR};
use crate::error::Error;

/// The page as a file of one page.
///
/// # Errors
/// The page cannot be turned into a PDF: a bug.
pub fn pdf(page: &Pen, title: &str) -> Result<Vec<u8>, Error> {
    let broken = |why: String| Error::Bug(format!("a sheet could not be made a PDF: {why}"));
    let mut letters = Database::new();
    letters.load_font_data(REGULAR.to_vec());
    letters.load_font_data(BOLD.to_vec());
    let family = letters.faces().next().and_then(|face| face.families.first()).map(|(name, _)| name.clone());
    letters.set_sans_serif_family(family.unwrap_or_default());
    let options = Options { fontdb: Arc::new(letters), ..Options::default() };
    let tree = Tree::from_str(&page.svg(), &options).map_err(|error| broken(error.to_string()))?;
    let (chunk, drawn) =
        to_chunk(&tree, ConversionOptions::default()).map_err(|error| broken(error.to_string()))?;

    let mut next = Ref::new(1);
    let [catalog, pages, sheet, content, about] = [(); 5].map(|()| next.bump());
    let mut numbers = BTreeMap::new();
    let chunk = chunk.renumber(|old| *numbers.entry(old).or_insert_with(|| next.bump()));
    let drawn = *numbers.get(&drawn).ok_or_else(|| broken("nothing was drawn".into()))?;

    let mut file = Pdf::new();
    file.catalog(catalog).pages(pages);
    file.pages(pages).kids([sheet]).count(1);
    let (width, height) = (page.width as f32, page.height as f32);
    let mut leaf = file.page(sheet);
    leaf.media_box(Rect::new(0.0, 0.0, width, height)).parent(pages).contents(content);
    leaf.resources().x_objects().pair(Name(b"S"), drawn);
    leaf.finish();
    let mut put = Content::new();
    put.transform([width, 0.0, 0.0, height, 0.0, 0.0]).x_object(Name(b"S"));
    file.stream(content, &put.finish());
    file.document_info(about).title(TextStr(title)).producer(TextStr("zoneprobe"));
    file.extend(&chunk);
    Ok(file.finish())
}
