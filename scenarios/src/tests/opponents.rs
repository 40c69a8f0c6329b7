//! What was scouted of defenders reaches those of whom it speaks, and nobody else.

use engine::setup::Setup;

use super::{Folder, small};
use crate::scenario;

fn setup(rest: &str) -> Setup {
    let folder = Folder::with(&[("s.toml", &small(rest))]);
    let read = scenario(&folder.path("s.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    (*read.setup).clone()
}

#[test]
fn a_line_or_a_position_is_what_was_scouted_of_it() {
    let setup = setup(
        "[[opponent]]\nwho = \"everybody\"\nbites = \"seldom\"\nhead = { talk_chance = 0.9 }\n\
         [[opponent]]\nwho = \"back-line\"\nlate = \"always\"\nbites = \"often\"\n\
         [[opponent]]\nwho = \"point\"\ncheats_high_post = \"often\"\nover_helps = \"always\"\n",
    );
    let team = &setup.defenders;
    let of = |slot: usize| setup.individuals[slot].as_ref().expect("a scouted defender");
    assert!(setup.individuals[..5].iter().all(Option::is_none));
    // Point, wings, backs.
    for slot in 5..10 {
        let back = slot >= 8;
        let head = &of(slot).own.head;
        let late = if back { 0.25 } else { 0.0 };
        assert!((head.reaction_s - team.head.reaction_s - late).abs() < 1e-6, "{slot}");
        let bites = if back { 1.4 } else { 0.6 };
        assert!((head.bite_chance - team.head.bite_chance * bites).abs() < 1e-6, "{slot}");
        assert_eq!(head.talk_chance, 0.9);
        assert_eq!(head.shift_on_release, team.head.shift_on_release);
    }
    let (point, back) = (of(5).zone.as_ref().expect("a zone"), of(8).zone.as_ref().expect("a zone"));
    assert_eq!(**back, setup.zone);
    assert!(point.help_within_m > setup.zone.help_within_m && point.stunt_m == 1.2);
    for (own, usual) in point.table.anchors.iter().zip(&setup.zone.table.anchors) {
        assert!((own[0].distance(usual[0]) - 0.5).abs() < 1e-5, "{:?} {:?}", own[0], usual[0]);
        assert_eq!(own[1..], usual[1..]);
    }
}

#[test]
fn what_speaks_of_nobody_is_refused_with_those_there_are() {
    let folder = Folder::with(&[("s.toml", &small("[[opponent]]\nwho = \"centre\"\nlate = \"allways\"\n"))]);
    let told = scenario(&folder.path("s.toml")).expect_err("a fault").to_string();
    assert!(
        told.contains(
            "opponent.1.who: found \"centre\", allowed everybody, front-line, back-line, point, wing or back"
        ),
        "{told}"
    );
    assert!(
        told.contains("opponent.1.late: found \"allways\"") && told.contains("did you mean `always`?"),
        "{told}"
    );
}
