//! The page: one file that needs nothing else, made of a template, the floor's lines and the reel.

use std::fmt::Write as _;

use engine::film::Film;
use engine::setup::Setup;
use engine::slots::{ATTACK, DEFENCE};
use engine::{OPEN_M, WIDE_OPEN_M};

use super::court::{floor_svg, frame_cm};
use super::narrate::{Line, ending, lines, numbers};
use super::reel::Reel;
use super::telling::THOUGHTS;
use super::{Side, Words};
use crate::marks;
use crate::note::NOTE;
use crate::players::told;
use crate::wording::{capital, escaped, listed};

const TEMPLATE: &str = include_str!("page/film.html");
const HEAD: &str = include_str!("page/head.html");
const FLOOR: &str = include_str!("page/floor.html");
const TRANSPORT: &str = include_str!("page/transport.html");
const LEGEND: &str = include_str!("page/legend.html");
const KEYS: &str = include_str!("page/keys.html");
const STYLE: &str = include_str!("page/film.css");
/// What every page's script begins with.
const SCRIPT: &str =
    concat!(include_str!("page/reel.js"), include_str!("page/stage.js"), include_str!("page/player.js"));
const OWN_SCRIPT: &str = include_str!("page/film.js");

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
pub fn page(side: &Side<'_>, caption: &Caption) -> String {
    let (film, setup, words) = (side.film, side.setup, side.words());
    let limit = |metres: f32| side.units.exact(f64::from(metres));
    let reel = Reel::json(film, setup, &words);
    let points = film.record.real(engine::Measure::Points);
    let own = [
        ("outcome", escaped(&sentence(&ending(film), points))),
        ("setting", escaped(&setting(setup, &words))),
        ("floor", floor("floor", "The half court from above, the rim at the top", setup)),
        ("open", limit(OPEN_M)),
        ("wide", limit(WIDE_OPEN_M)),
        ("people", people(&words)),
        ("trace", trace(&lines(film, &words))),
        ("numbers", table(film)),
        ("digest", format!("{:016x}", film.record.digest)),
        // No text in it may end the element that holds it.
        ("reel", reel.replace('<', "\\u003c")),
    ];
    whole(TEMPLATE, OWN_SCRIPT, (caption, film.record.possession), &own)
}

/// A page of this template, with what every page of films has.
pub(super) fn whole(
    template: &str,
    script: &str,
    (caption, possession): (&Caption, u64),
    own: &[(&str, String)],
) -> String {
    let titles = [
        ("style", STYLE.into()),
        ("name", escaped(&caption.name)),
        ("possession", possession.to_string()),
        ("seed", caption.seed.to_string()),
    ];
    let shared = [
        ("head", filled(HEAD, &titles)),
        ("script", [&marks::script(), SCRIPT, script].concat()),
        ("transport", TRANSPORT.into()),
        ("legend", LEGEND.into()),
        ("keys", KEYS.into()),
        ("question", escaped(&caption.question)),
        ("command", escaped(&caption.command)),
        ("thoughts", escaped(THOUGHTS)),
        ("note", escaped(NOTE)),
    ];
    filled(template, &[&titles, shared.as_slice(), own].concat())
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
fn setting(setup: &Setup, words: &dyn Words) -> String {
    let routes = words.routes();
    let routes: Vec<&str> = routes.iter().map(String::as_str).collect();
    let with = if routes.is_empty() { String::new() } else { format!(" with {}", listed(&routes)) };
    let mut text = format!("{} attack{with}, against a {}.", capital(&setup.attack.name), setup.zone.name);
    told(setup).iter().for_each(|said| text.push_str(&format!(" {}", capital(said))));
    text
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

/// A floor without players, under an id of its own; words of it for those who cannot see it.
pub(super) fn floor(id: &str, label: &str, setup: &Setup) -> String {
    let [left, top, width, height] = frame_cm(&setup.court);
    filled(
        FLOOR,
        &[
            ("id", id.into()),
            ("label", escaped(label)),
            ("frame", format!("{left} {top} {width} {height}")),
            ("lines", floor_svg(&setup.court)),
        ],
    )
}

/// The lines of a trace as items of a list.
pub(super) fn trace(lines: &[Line]) -> String {
    let mut text = String::new();
    for line in lines {
        let (tier, time_s, words) = (line.tier.key(), line.time_s, escaped(&line.text));
        let _ = writeln!(
            text,
            "<li class=\"{tier}\"><button type=\"button\" data-tier=\"{tier}\"><span class=\"when\">{time_s:.1} \
             s</span> <span class=\"what\">{words}</span></button></li>"
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
        let film = engine::film_possession(&setup, 1, 17);
        let text =
            page(&Side { name: "a", film: &film, setup: &setup, units: crate::units::Units::M }, &caption);
        for word in ["http:", "https:", "src=", "@import", "url(", "fetch(", "XMLHttpRequest"] {
            assert!(!text.contains(word), "the page has {word}");
        }
        assert!(text.contains("A &lt;/script&gt; &amp; &quot;B&quot;") && text.contains(NOTE));
        assert!(text.contains(&marks::script()), "the script draws by the sizes of all other pictures");
        assert_eq!(text.matches("</script>").count(), 2, "the reel and the script");
        assert!(text.len() < 500_000, "{} bytes", text.len());
    }
}
