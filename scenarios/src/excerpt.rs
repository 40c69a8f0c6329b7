//! The lines of a file around a fault, as they are shown beside it: a few, and with nothing in them that is obeyed.

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};

use crate::shelf::Source;
use crate::text::{shown, shown_lines_with};

/// Most bytes of an excerpt: lines of a usual length, a dozen of them. (a choice)
const MOST: usize = 2_000;

/// A few lines of a file.
#[derive(Clone, Debug)]
pub(crate) struct Excerpt {
    /// The file's name as it is shown.
    name: String,
    /// The lines as they are shown.
    text: String,
    /// How many lines of the file lie before them.
    before: usize,
    /// What is pointed at: first byte in `text`, and length.
    pub label: (usize, usize),
}

impl Excerpt {
    /// The lines around bytes `start..end` of a text with one before and one after. Of many lines that would be too much
    /// to read, the first; `None` where even that is.
    pub fn of(source: &Source, (start, end): (usize, usize)) -> Option<Excerpt> {
        let text = source.text.as_str();
        let line_end = |at: usize| text[at..].find('\n').map_or(text.len(), |more| at + more);
        let line_start = |at: usize| text[..at].rfind('\n').map_or(0, |at| at + 1);
        let first = line_start(line_start(start).saturating_sub(1));
        let last = |end: usize| line_end((line_end(end) + 1).min(text.len()));
        let end = [end, line_end(start).min(end)].into_iter().find(|end| last(*end) - first <= MOST)?;
        let (lines, (from, to)) = shown_lines_with(&text[first..last(end)], (start - first, end - first));
        Some(Excerpt {
            name: shown(&source.name).into_owned(),
            text: lines,
            before: text[..first].matches('\n').count(),
            label: (from, to - from),
        })
    }
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let found = self.text.read_span(span, before, after)?;
        let (data, span, lines) = (found.data(), *found.span(), found.line_count());
        let (line, column) = (self.before + found.line(), found.column());
        Ok(Box::new(MietteSpanContents::new_named(self.name.clone(), data, span, line, column, lines)))
    }
}
