//! The frame of every page that stands by itself: nothing in it may be fetched, and it has a light and a dark scheme.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use scenarios::shown_lines;

/// A whole page; `policy` says what it may use besides, `styles` are its style sheets in order.
pub fn document(title: &str, policy: &str, styles: &[&str], body: &Markup) -> String {
    let more = html! {
        meta name="color-scheme" content="light dark";
        meta http-equiv="Content-Security-Policy" content=(format!("default-src 'none'; {policy}"));
    };
    let page = framed(title, &more, styles, body);
    // Whatever text came from outside: where marks stand, no hidden character does.
    shown_lines(&page).into_owned() + "\n"
}

/// A form to be printed and filled in by hand: dark on light wherever it is seen.
pub fn form(title: &str, style: &str, body: &Markup) -> String {
    framed(title, &html! {}, &[style], body)
}

fn framed(title: &str, more: &Markup, styles: &[&str], body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                (more)
                title { (title) }
                style { @for style in styles { (PreEscaped(style)) } }
            }
            body { (body) }
        }
    };
    page.into_string()
}
