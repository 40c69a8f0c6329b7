//! The page: one file that needs nothing else, made of a template, the floor's lines and the reel.

use std::fmt::Write as _;

use engine::film::Film;
use engine::setup::{Program, ProgramKind, Setup};
use engine::slots::{ATTACK, DEFENCE};

use super::court::{floor_svg, frame_cm};
use super::narrate::{ending, lines, numbers};
use super::reel::Reel;
use super::{SetupWords, Words};
use crate::note::NOTE;
use crate::wording::{capital, escaped, listed};

const TEMPLATE: &str = include_str!("page/film.html");
const STYLE: &str = include_str!("page/film.css");
const SCRIPT: &str = include_str!("page/film.js");

/// What a page says of its film besides the film.
#[derive(Clone, Debug)]
pub struct Caption {
    /// Name of the scenario, or of the experiment and its variant.
    pub name: String,
    /// The experiment's question; empty where there is none.
    pub question: String,
    /// Master seed.
    pub seed: u64,
    /// The command that shows the film again.
    pub command: String,
}

/// A film as a page.
pub fn page(film: &Film, setup: &Setup, caption: &Caption) -> String {
    let words = SetupWords::new(setup, film);
    let reel = Reel::json(film, setup, &words);
    let [left, top, width, height] = frame_cm(&setup.court);
    let points = film.record.real(engine::Measure::Points);
    filled(
        TEMPLATE,
        &[
            ("style", STYLE.into()),
            ("script", SCRIPT.into()),
            ("name", escaped(&caption.name)),
            ("possession", film.record.possession.to_string()),
            ("seed", caption.seed.to_string()),
            ("outcome", escaped(&sentence(&ending(film), points))),
            ("question", escaped(&caption.question)),
            ("setting", escaped(&setting(setup))),
            ("frame", format!("{left} {top} {width} {height}")),
            ("floor", floor_svg(&setup.court)),
            ("people", people(&words)),
            ("trace", trace(film, &words)),
            ("numbers", table(film)),
            ("command", escaped(&caption.command)),
            ("digest", format!("{:016x}", film.record.digest)),
            ("note", escaped(NOTE)),
            // No text in it may end the element that holds it.
            ("reel", reel.replace('<', "\\u003c")),
        ],
    )
}

/// `A made shot, 3 points; an open look taken.`
fn sentence(ending: &str, points: f64) -> String {
    let (outcome, marks) = ending.split_once("; ").unwrap_or((ending, ""));
    let unit = if points == 1.0 { "point" } else { "points" };
    let mut text = format!("{}, {points:.0} {unit}", capital(outcome));
    if !marks.is_empty() {
        let _ = write!(text, "; {marks}");
    }
    text + "."
}

/// `Rover attack with seam-cross, against a 1-2-2.`
fn setting(setup: &Setup) -> String {
    let is_route = |program: &&Program| program.kind == ProgramKind::Route;
    let mut routes: Vec<&str> =
        setup.attack.programs.iter().filter(is_route).map(|program| program.name.as_str()).collect();
    // A route may have several programs.
    routes.dedup();
    let with = if routes.is_empty() { String::new() } else { format!(" with {}", listed(&routes)) };
    format!("{} attack{with}, against a {}.", capital(&setup.attack.name), setup.zone.name)
}

fn people(words: &dyn Words) -> String {
    let mut text = String::new();
    for (team, players) in [("Attack", ATTACK), ("Defence", DEFENCE)] {
        let _ = writeln!(text, "<optgroup label=\"{team}\">");
        for player in players {
            let (value, name) = (player.index(), escaped(&words.player(player)));
            let _ = writeln!(text, "<option value=\"{value}\">{name}</option>");
        }
        text.push_str("</optgroup>\n");
    }
    text
}

fn trace(film: &Film, words: &dyn Words) -> String {
    let mut text = String::new();
    for line in lines(film, words) {
        let _ = writeln!(
            text,
            "<li><button type=\"button\"><span class=\"when\">{:.1} s</span> <span class=\"what\">{}</span></button></li>",
            line.time_s,
            escaped(&line.text)
        );
    }
    text
}

fn table(film: &Film) -> String {
    let mut text = String::new();
    for (words, shown) in numbers(film) {
        let _ = writeln!(text, "<tr><th scope=\"row\">{words}</th><td>{shown}</td></tr>");
    }
    text
}

/// A template with every `{{key}}` replaced. What is put in is not looked at again.
fn filled(template: &str, values: &[(&str, String)]) -> String {
    let mut text = String::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once("{{") {
        let (key, after) = after.split_once("}}").expect("a template closes what it opens");
        let value = values.iter().find(|(name, _)| *name == key);
        text.push_str(before);
        text.push_str(&value.unwrap_or_else(|| panic!("nothing is called {key}")).1);
        rest = after;
    }
    text + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_template_is_filled_once() {
        let values = [("a", String::from("{{b}}")), ("b", "<&>".into())];
        assert_eq!(filled("x {{a}} y {{b}}{{b}}", &values), "x {{b}} y <&><&>");
        assert_eq!(escaped("a < b & \"c\""), "a &lt; b &amp; &quot;c&quot;");
    }

    #[test]
    fn an_ending_reads_as_a_sentence() {
        assert_eq!(
            sentence("a made shot; an open look taken", 3.0),
            "A made shot, 3 points; an open look taken."
        );
        assert_eq!(sentence("free throws", 1.0), "Free throws, 1 point.");
    }

    /// Nothing in the page points to another file or to a network, so it works anywhere.
    #[test]
    fn a_page_needs_nothing_else() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let caption = Caption {
            name: "A </script> & \"B\"".into(),
            question: String::new(),
            seed: 1,
            command: "zoneprobe film sunken-122 --seed 1 --possession 17".into(),
        };
        let text = page(&engine::film_possession(&setup, 1, 17), &setup, &caption);
        for word in ["http:", "https:", "src=", "@import", "url(", "fetch(", "XMLHttpRequest"] {
            assert!(!text.contains(word), "the page has {word}");
        }
        assert!(text.contains("A &lt;/script&gt; &amp; &quot;B&quot;") && text.contains(NOTE));
        assert_eq!(text.matches("</script>").count(), 2, "the reel and the script");
        assert!(text.len() < 500_000, "{} bytes", text.len());
    }
}
