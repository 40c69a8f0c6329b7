//! The style sheet of all pictures: in colours that follow the page, or in colours written out.
//!
//! Sequential blues: C. Brewer, M. Harrower, ColorBrewer 2.0, scheme Blues, marked safe for colour-blind readers. The five defenders: M. Okabe, K. Ito, Color Universal Design
//! (2008), with a dash pattern each. Dark variants are the same hues with the lightness turned round.

use std::sync::LazyLock;

/// For pages: colours are variables, light, dark and printed.
pub const STYLE: &str = include_str!("style.css");

/// For files of their own, which programs for slides and papers open that know no variables: the light colours written
/// out, and over them the dark ones for a dark screen.
pub static WRITTEN_OUT: LazyLock<String> = LazyLock::new(|| {
    let (light, dark) = (written_out(0, ".pic"), written_out(1, ".pic"));
    let over: Vec<&str> =
        dark.lines().zip(light.lines()).filter(|(dark, light)| dark != light).map(|both| both.0).collect();
    format!("{light}@media screen and (prefers-color-scheme:dark){{{}}}\n", over.join("\n"))
});

/// Every rule with the colours of one of the first lines of the sheet, 0 for the light and 1 for the dark ones; its
/// selectors begin with these words instead of `.pic`.
pub fn written_out(scheme: usize, selector: &str) -> String {
    let colours: Vec<(&str, &str)> = STYLE
        .lines()
        .nth(scheme)
        .unwrap_or_default()
        .split(['{', ';', '}'])
        .filter_map(|part| part.split_once(':'))
        .filter(|(name, _)| name.starts_with("--"))
        .collect();
    let all = STYLE.lines().filter(|line| line.starts_with(".pic")).map(without_variables);
    let colour = |line: String| {
        let named =
            |line: String, (name, colour): &(&str, &str)| line.replace(&format!("var({name})"), colour);
        colours.iter().fold(line.replace(".pic", selector), named) + "\n"
    };
    all.map(colour).collect()
}

/// A rule without the declarations of variables.
fn without_variables(rule: &str) -> String {
    let Some((head, body)) = rule.split_once('{').filter(|(_, body)| body.starts_with("--")) else {
        return rule.to_owned();
    };
    let kept: Vec<&str> = body.split(';').filter(|part| !part.starts_with("--")).collect();
    format!("{head}{{{}", kept.join(";"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks;

    /// A mark looks the same in a report, on a sheet and in a film.
    #[test]
    fn the_colours_are_those_of_the_marks() {
        let scheme = |nth: usize| STYLE.lines().nth(nth).unwrap();
        for (name, colour) in [
            ("card", marks::CARD),
            ("floor", marks::FLOOR),
            ("lane", marks::LANE),
            ("line", marks::LINE),
            ("attack", marks::ATTACK),
            ("on-attack", marks::ON_ATTACK),
            ("defence", marks::DEFENCE),
            ("ball", marks::BALL),
        ] {
            let key = format!("--{name}:");
            let own = |nth: usize| scheme(nth).split(&key).nth(1).unwrap().split([';', '}']).next().unwrap();
            assert_eq!((own(0), own(2)), (colour, colour), "{name} by day and printed");
            assert!(marks::DARK.contains(own(1)), "{name} is {} in the dark", own(1));
        }
        // Whatever is drawn has a rule that follows the page.
        for class in ["disc", "mate", "body", "number", "letter", "ball", "way", "arrow", "inked", "inkarrow"]
        {
            assert!(STYLE.contains(&format!(".{class}{{")), "{class}");
        }
    }

    #[test]
    fn written_out_no_variable_is_left_and_the_dark_colours_lie_over_the_light_ones() {
        let text = WRITTEN_OUT.as_str();
        assert!(!text.contains("var(") && !text.contains("--"), "{text}");
        let (light, dark) = text.split_once("@media screen and (prefers-color-scheme:dark){").unwrap();
        assert!(
            light.contains(".pic .rim{stroke:#b3261e") && dark.contains(".pic .rim{stroke:#ff8a80"),
            "{text}"
        );
        assert!(light.contains(".pic .mid{") && !dark.contains(".pic .mid{"), "only colours are told twice");
        assert!(light.contains("background:#fff") && dark.contains("background:#14181d"), "{text}");
    }
}
