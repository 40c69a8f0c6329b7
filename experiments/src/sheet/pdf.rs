//! A page of paper as a PDF: vectors and letters, its size the paper's, the same bytes every time.

use std::collections::BTreeMap;
use std::sync::Arc;

use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, TextStr};
use svg2pdf::usvg::fontdb::Database;
use svg2pdf::usvg::{Options, Tree};
use svg2pdf::{ConversionOptions, to_chunk};

use super::pen::{BOLD, Pen, REGULAR};
use crate::error::Error;

/// The layers of a page.
const NAMES: [&[u8]; 2] = [b"Body", b"Heads"];

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
    let mut next = Ref::new(1);
    let [catalog, pages, sheet, content, about] = [(); 5].map(|()| next.bump());
    let mut chunks = Vec::new();
    for layer in page.layers() {
        let tree = Tree::from_str(&layer, &options).map_err(|error| broken(error.to_string()))?;
        let chunk = to_chunk(&tree, ConversionOptions::default());
        let (chunk, drawn) = chunk.map_err(|error| broken(error.to_string()))?;
        let mut numbers = BTreeMap::new();
        let chunk = chunk.renumber(|old| *numbers.entry(old).or_insert_with(|| next.bump()));
        let drawn = *numbers.get(&drawn).ok_or_else(|| broken("nothing was drawn".into()))?;
        chunks.push((chunk, drawn));
    }

    let mut file = Pdf::new();
    file.catalog(catalog).pages(pages);
    file.pages(pages).kids([sheet]).count(1);
    let (width, height) = (page.width as f32, page.height as f32);
    let mut leaf = file.page(sheet);
    leaf.media_box(Rect::new(0.0, 0.0, width, height)).parent(pages).contents(content);
    let mut resources = leaf.resources();
    let mut objects = resources.x_objects();
    for ((_, drawn), name) in chunks.iter().zip(NAMES) {
        objects.pair(Name(name), *drawn);
    }
    objects.finish();
    resources.finish();
    leaf.finish();
    let mut put = Content::new();
    put.transform([width, 0.0, 0.0, height, 0.0, 0.0]);
    for name in NAMES {
        put.x_object(Name(name));
    }
    file.stream(content, &put.finish());
    file.document_info(about).title(TextStr(title)).producer(TextStr("zoneprobe"));
    chunks.iter().for_each(|(chunk, _)| file.extend(chunk));
    Ok(in_order(&file.finish()))
}

/// The file with the entries of its lists of resources (`/gs7 13 0 R`, a line each) in order: the library writes them
/// as they come. A run keeps its length, so every object stays where the file's table says.
fn in_order(file: &[u8]) -> Vec<u8> {
    let mut lines: Vec<&[u8]> = file.split(|byte| *byte == b'\n').collect();
    for run in lines.chunk_by_mut(|a, b| is_resource(a) && is_resource(b)) {
        run.sort_unstable();
    }
    lines.join(&b'\n')
}

fn is_resource(line: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(line) else { return false };
    let mut words = text.trim_start().split(' ');
    let numbered = |word: &str| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit());
    let named = words.next().is_some_and(|name| {
        let name = name.trim_end_matches(|letter: char| letter.is_ascii_digit());
        ["/gs", "/xo", "/p", "/f", "/cs", "/sh"].contains(&name)
    });
    named && words.next().is_some_and(numbered) && words.eq(["0", "R"])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_are_put_in_order_and_nothing_else_is_touched() {
        let file = b"<<\n  /gs9 15 0 R\n  /gs2 8 0 R\n>>\n/gs1 x\n/gs0 y\n\xff\xfe";
        let wanted = b"<<\n  /gs2 8 0 R\n  /gs9 15 0 R\n>>\n/gs1 x\n/gs0 y\n\xff\xfe";
        assert_eq!(in_order(file), wanted);
    }
}
