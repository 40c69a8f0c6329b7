//! What of a text that may be a whole query is the filter.

use scenarios::shown;
use sqlparser::tokenizer::{Token, TokenWithSpan, Whitespace};

/// What stands behind WHERE where a whole query was given, or only its end: all columns of possessions can be meant.
pub fn behind_where(tokens: Vec<TokenWithSpan>) -> Result<Vec<TokenWithSpan>, String> {
    const WHOLE: [&str; 5] = ["select", "*", "from", "possessions", "where"];
    let is_blank = |token: &TokenWithSpan| matches!(token.token, Token::Whitespace(_));
    let mut words = tokens.iter().enumerate().filter(|(_, token)| !is_blank(token));
    let lower = |(place, token): (usize, &TokenWithSpan)| (place, token.token.to_string().to_lowercase());
    let first = words.clone().next().map(lower).map(|(_, word)| word);
    let wanted = match first.as_deref() {
        Some("select") => &WHOLE[..],
        Some("where") => &WHOLE[4..],
        _ => return Ok(tokens),
    };
    let mut from = 0;
    for wanted in wanted {
        let found = words.next().map(lower);
        match found {
            Some((place, word)) if word == *wanted => from = place + 1,
            found => {
                return Err(format!(
                    "found {} where {} should stand; allowed is SELECT * FROM possessions WHERE with a filter behind it, or \
                     the filter alone; columns, sums and orders are for a database, which reads the files as well",
                    found.map_or_else(|| "its end".to_owned(), |(_, word)| shown(&word).into_owned()),
                    wanted.to_uppercase()
                ));
            }
        }
    }
    let mut filter: Vec<TokenWithSpan> = tokens.into_iter().skip(from).collect();
    // A query may end so.
    while filter.last().is_some_and(|token| is_blank(token) || token.token == Token::SemiColon) {
        filter.pop();
    }
    Ok(filter)
}

/// A remark of SQL, which would hide what stands behind it.
pub fn remark(token: &TokenWithSpan) -> Option<String> {
    match &token.token {
        Token::Whitespace(
            remark @ (Whitespace::SingleLineComment { .. } | Whitespace::MultiLineComment(_)),
        ) => Some(remark.to_string().trim_end().to_owned()),
        _ => None,
    }
}
