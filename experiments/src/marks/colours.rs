//! The colours of the marks: the same in a report, on a sheet and in a film.

/// Ground of a picture, and of what is hollow.
pub const CARD: &str = "#fffdf8";
/// The floor.
pub const FLOOR: &str = "#f4efe5";
/// The lane.
pub const LANE: &str = "#e9e1d0";
/// Lines of the floor: three times as dark as the floor at least.
pub const LINE: &str = "#75664a";
/// Text, ball and board.
pub const INK: &str = "#1c2329";
/// Text that is read last.
pub const SOFT: &str = "#566069";
/// The attack.
pub const ATTACK: &str = "#14599a";
/// What lies on it.
pub const ON_ATTACK: &str = "#ffffff";
/// The defence.
pub const DEFENCE: &str = "#a93f12";
/// The ball.
pub const BALL: &str = "#f6c945";

/// The rim.
pub const RIM: &str = "#b3261e";

/// What a picture puts in the place of these colours in the dark.
pub const DARK: &str = "@media (prefers-color-scheme:dark){.card{fill:#1a2026}.bounds{fill:#20272d}.lane{fill:#2a333a}\
                        .line{stroke:#8593a0}.rim{stroke:#ff8a80}.ink{fill:#e9e6df}.soft{fill:#a4aeb6}.inked{stroke:#e9e6df}\
                        .disc{fill:#7db9f2;stroke:#1a2026}.arrow{fill:#7db9f2}.inkarrow{fill:#e9e6df}.number{fill:#0d1a26}.way{stroke:#7db9f2}\
                        .body{fill:#1a2026;stroke:#f3a270}.nose{fill:#f3a270}.letter{fill:#f3a270}\
                        .ball{fill:#ffe08a;stroke:#0d1114}}";

#[cfg(test)]
mod tests {
    use super::*;

    /// A clip and a page of the same film look alike.
    #[test]
    fn the_colours_are_the_pages() {
        let css = include_str!("../film/page/film.css");
        for (name, light) in [
            ("card", CARD),
            ("floor", FLOOR),
            ("lane", LANE),
            ("line", LINE),
            ("ink", INK),
            ("soft", SOFT),
            ("attack", ATTACK),
            ("defence", DEFENCE),
            ("ball", BALL),
            ("rim", RIM),
        ] {
            let key = format!("--{name}: ");
            let values: Vec<&str> =
                css.split(&key).skip(1).map(|rest| rest.split(';').next().unwrap()).collect();
            let [bright, dark] = values[..] else { panic!("{name} has {values:?}") };
            assert_eq!(bright, light, "{name}");
            assert!(DARK.contains(dark), "{name} is {dark} in the dark");
        }
    }
}
