//! Attacks in which that comes to be seen which is asked of an opponent's zone, as overrides by dotted path.

/// A rover who drops to the corner, in an attack that has been taught nothing: what the zone does about corners.
pub const SHOWS_CORNERS: [(&str, &str); 2] =
    [("attack.rover.route", "\"corner-drop\""), ("attack.plan", "\"free\"")];
/// Guards who fake twice: everything else.
pub const SHOWS_THE_REST: [(&str, &str); 1] = [("attack.guards.options", "{ fake-twice = 1.0 }")];
/// What the rover does where nobody says which attacks are to be compared against such a zone: stay, go through a gap, drop to
/// the corner.
pub const COMPARED: [&str; 3] = ["hold-wing", "seam-cross", "corner-drop"];
