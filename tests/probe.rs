use engine::{Measure, Outcome};
use crate::support::*;
fn perfect(setup: &mut engine::setup::Setup) {
            setup.limits.all_seeing_zone = true;
            let (body, head) = (&mut setup.defenders.body, &mut setup.defenders.head);
            (head.reaction_s, head.reaction_spread_s, head.choice_s) = (0.0, 0.0, 0.0);
            (body.sprint_m_s, body.sprint_spread_m_s, body.sprint_tau_s) = (50.0, 0.0, 0.001);
            (body.slide_share, body.backpedal_share, body.slide_tau_s) = (1.0, 1.0, 0.001);
            (body.braking_m_s2, body.lateral_m_s2, body.turn_rad_s) = (10_000.0, 10_000.0, 1000.0);
            setup.attack.habits.fake_chance = 0.0;
            setup.attack.habits.fakes_most = 0;
}
#[test]
fn figures() {
    for v in question().variants {
        let p = changed(&v.setup, perfect);
        let q = changed(&v.setup, |s| { perfect(s); s.zone.on_ball_m = 0.7; s.zone.closeout_stop_m = 0.7; });
        let f = changed(&v.setup, |s| s.limits.frozen_zone = true);
        let a = |s| mean(&records(s, 1, 1000), Measure::OpenLookAvailable);
        let fr = records(&f, 1, 2000);
        let without: Vec<_> = fr.iter().filter(|r| r.value(Measure::OpenLookAvailable) == 0).copied().collect();
        let kinds: Vec<String> = Measure::ALL.iter().filter(|m| m.key().starts_with("turnover_") || (**m as usize) < 6).map(|m| (m.key(), sum(&without, *m))).filter(|x| x.1 > 0).map(|x| format!("{x:?}")).collect();
        println!("{}: perfect {:.3}, perfect and on the ball at 0.7 m {:.3}, frozen {:.4}, without: {} rim shots {} good {}", v.name, a(&p), a(&q), mean(&fr, Measure::OpenLookAvailable), kinds.join(" "), sum(&without, Measure::RimShots), sum(&without, Measure::GoodShotTaken));
        let _ = Outcome::ALL;
    }
}
