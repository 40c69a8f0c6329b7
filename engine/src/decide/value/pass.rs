//! A pass's chance as its passer sees it: every defender's race to the ball's way, to where it comes down, and up to a
//! lob; then whether the throw is on the mark.
//!
//! The passer takes each defender to go on as he is going until the ball comes by (to its landing for a while at most),
//! to start a reaction after the release, and to get a hand and then his feet to the ball. Each is judged where the ball
//! is nearest to him, at the receiver's end where it flies over him there, and where it comes down. By how much the hand falls short is the margin; how sure the passer is of
//! it is the doubt, the scale of a logistic curve that turns the margin into a chance.

use crate::decide::View;
use crate::law::conduct::judging::{GOES_ON_FOR_S, GOES_ON_SHARE, REACTION_COUNTED_ON_S};
use crate::law::conduct::pass_chance::{
    CLEARS_HAND_M, DOUBT_BETWEEN_M, DOUBT_CROWD_M, DOUBT_GROWS_AFTER_S, DOUBT_GROWS_PER_S, DOUBT_OUTSIDE_M,
    ENDS_IN_CROWD_M, ENDS_OUTSIDE_M, LANDING_WITHIN_M, LEAST_BETWEEN_JUMPERS_M, NO_SPREAD_M, OUT_OF_PASS_M,
    RECEIVERS_END_SHARE, RUNS_UNDER_LOB_SHARE, SAFE_BY_M, SHIELDS_LANDING_M, SHIELDS_WAY_M,
};
use crate::law::pass::{aim, pass_height};
use crate::law::reach::{GOES_UP_M, OVER_HEADS_M, gets_up, hand_height_m, hand_reach_m};
use crate::law::{release, sprint};
use crate::math::{Vec2, exp, logistic, max, min, to_segment};
use crate::setup::{Body, PassKind, PassSkill};
use crate::slots::{DEFENCE, Slot};

/// A pass that a player imagines.
#[derive(Clone, Copy, Debug)]
pub struct PassTry {
    /// How it is thrown.
    pub kind: PassKind,
    /// Where its passer stands, m.
    pub from: Vec2,
    /// Where it comes down, m.
    pub to: Vec2,
    /// Who is to get it.
    pub receiver: Slot,
    /// Time until it leaves the hands, s.
    pub wait_s: f32,
}

impl PassTry {
    /// A pass by the viewer that leaves in `wait_s`, thrown ahead of the receiver as he is believed to stand and move.
    pub fn aimed(view: &View<'_>, kind: PassKind, receiver: Slot, wait_s: f32) -> Self {
        let setup = &view.given.setup;
        let skill = &setup.attackers.skill.pass[kind as usize];
        let (from, man) = (view.me.at, (view.mind.at(receiver), view.mind.velocity(receiver)));
        let to = aim(&setup.court, skill, kind, from, man, wait_s);
        Self { kind, from, to, receiver, wait_s }
    }

    /// Its length from where the passer stands, m.
    pub fn length_m(&self) -> f32 {
        self.from.distance(self.to)
    }

    /// Believed chance that it arrives.
    pub fn completion(&self, view: &View<'_>) -> f32 {
        let flight = Imagined::of(view, self);
        let doubt_m = flight.doubt_m();
        let mut chance = 1.0;
        for defender in DEFENCE {
            if let Some(beaten) = flight.beaten_to_lob(defender) {
                chance *= 1.0 - beaten;
            }
            if let Some(margin_m) = flight.margin_m(defender) {
                chance *= logistic(margin_m / doubt_m);
            }
        }
        chance * flight.on_the_mark()
    }
}

/// A pass in the air as its passer imagines it.
struct Imagined<'a> {
    view: &'a View<'a>,
    kind: PassKind,
    /// How the passer throws this kind.
    skill: &'a PassSkill,
    /// What a defender's body can do.
    body: &'a Body,
    /// Where it leaves the hands, m.
    from: Vec2,
    /// Where it comes down, m.
    to: Vec2,
    /// Length of its way, m.
    length_m: f32,
    /// How far from the rim it comes down, m.
    ends_m: f32,
    /// How long it flies, s.
    span_s: f32,
    /// Time until it leaves the hands, s.
    wait_s: f32,
    /// How far a defender runs until it comes down, m; 0 where none is asked to, outside.
    feet_m: f32,
    /// Where the receiver is now, m.
    receiver_at: Vec2,
}

impl<'a> Imagined<'a> {
    fn of(view: &'a View<'a>, pass: &PassTry) -> Self {
        let setup = &view.given.setup;
        let skill = &setup.attackers.skill.pass[pass.kind as usize];
        let from = release::hands(|slot| view.mind.at(slot), pass.kind, pass.from, pass.to, view.side);
        let (length_m, ends_m) = (from.distance(pass.to), pass.to.len());
        let (body, span_s) = (&setup.defenders.body, skill.flight_s(pass.kind, length_m));
        let comes_down = ends_m <= ENDS_OUTSIDE_M || pass.kind == PassKind::Lob;
        Self {
            view,
            kind: pass.kind,
            skill,
            body,
            from,
            to: pass.to,
            length_m,
            ends_m,
            span_s,
            wait_s: pass.wait_s,
            feet_m: if comes_down { strides_m(body, span_s - REACTION_COUNTED_ON_S) } else { 0.0 },
            receiver_at: view.mind.at(pass.receiver),
        }
    }

    /// How sure he is of a hand's reach: by where it ends, and less the longer it flies, m.
    fn doubt_m(&self) -> f32 {
        let outside = self.ends_m > ENDS_OUTSIDE_M;
        let doubt = if outside {
            DOUBT_OUTSIDE_M
        } else if self.ends_m < ENDS_IN_CROWD_M {
            DOUBT_CROWD_M
        } else {
            DOUBT_BETWEEN_M
        };
        let over_hands = self.kind == PassKind::Overhead && outside;
        let long = if over_hands { 0.0 } else { max(self.span_s - DOUBT_GROWS_AFTER_S, 0.0) };
        doubt * (1.0 + DOUBT_GROWS_PER_S * long)
    }

    /// Chance that a defender who gets near where a lob comes down goes up with the receiver and beats him to it.
    fn beaten_to_lob(&self, defender: Slot) -> Option<f32> {
        if self.kind != PassKind::Lob {
            return None;
        }
        let (body, runs_s) = (self.body, self.span_s - REACTION_COUNTED_ON_S);
        let off = self.at_landing(defender).distance(self.to);
        let run = RUNS_UNDER_LOB_SHARE * self.feet_m;
        let there = max(off - run, min(off, LEAST_BETWEEN_JUMPERS_M));
        if there >= GOES_UP_M || body.arm_reach_m <= 0.0 {
            return None;
        }
        let hand = hand_height_m(runs_s, there, body.standing_reach_m, body.jump_m);
        Some(gets_up(hand, self.skill.catch_height_m))
    }

    /// How far a defender's hand falls short of the ball, on its way or where it comes down, m; `None` where he is too
    /// far away or it flies over him.
    fn margin_m(&self, defender: Slot) -> Option<f32> {
        let at = self.when_it_comes_by(defender);
        let (off, share) = self.low_enough(at)?;
        let out_s = self.out_s(share);
        // A defender on the far side of the receiver has to come through him, unless it is over his head.
        let shielded = self.height_m(share) < OVER_HEADS_M
            && share > RECEIVERS_END_SHARE
            && (self.receiver_at - at).dot(self.to - self.from) < 0.0;
        let feet = strides_m(self.body, out_s);
        let margin = off - self.hand_m(out_s) - feet + if shielded { SHIELDS_WAY_M } else { 0.0 };
        let landing = self.landing_margin_m(defender);
        Some(min(margin, landing.unwrap_or(SAFE_BY_M)))
    }

    /// How far a defender at `at` is from the ball, m, at the share of its way where he can get at it: where it is nearest
    /// to him, or, where it flies over him there, at the receiver's end. `None` where he is too far off or it is over him
    /// there too.
    fn low_enough(&self, at: Vec2) -> Option<(f32, f32)> {
        let (off, share) = to_segment(at, self.from, self.to);
        let run_s = max(self.out_s(share), 0.0);
        if off > OUT_OF_PASS_M + self.body.lunge_reach_m + run_s * self.body.sprint_m_s {
            return None;
        }
        if !self.flies_over(off, share) {
            return Some((off, share));
        }
        let late = max(share, RECEIVERS_END_SHARE);
        let off = at.distance(self.from.toward(self.to, late));
        if self.flies_over(off, late) { None } else { Some((off, late)) }
    }

    /// How far a defender's hand falls short of the ball where it comes down, m; `None` where he has no business there
    /// or it is over him.
    fn landing_margin_m(&self, defender: Slot) -> Option<f32> {
        let (to, from, body) = (self.to, self.from, self.body);
        let out_s = self.span_s - REACTION_COUNTED_ON_S;
        // Outside, who could reach the landing could reach the way as well: only the crowd inside matters.
        if out_s <= 0.0 || self.ends_m > ENDS_OUTSIDE_M {
            return None;
        }
        let at = self.at_landing(defender);
        let off = at.distance(to);
        if off > LANDING_WITHIN_M {
            return None;
        }
        let (hand, feet) = (self.hand_m(out_s), self.feet_m);
        let up = hand_height_m(out_s, min(max(off - feet, 0.0), hand), body.standing_reach_m, body.jump_m);
        if self.skill.catch_height_m > up {
            return None;
        }
        // The body between shields a ball that comes in below the heads all the way, not one that drops in from above.
        // On the receiver's far side he has to come through him; on the near side he is in the way anyway.
        let behind = self.height_m(RECEIVERS_END_SHARE) < OVER_HEADS_M && (to - at).dot(to - from) < 0.0;
        Some(off - hand - feet + if behind { SHIELDS_LANDING_M } else { 0.0 })
    }

    /// Chance that the throw's error stays within the catch.
    fn on_the_mark(&self) -> f32 {
        let spread = self.skill.error_rad * self.length_m;
        let reach = self.view.given.setup.attackers.skill.catch_far_m;
        if spread > NO_SPREAD_M { 1.0 - exp(-0.5 * (reach / spread) * (reach / spread)) } else { 1.0 }
    }

    /// Where a defender will be who goes on as he is going until the ball comes by, m.
    fn when_it_comes_by(&self, defender: Slot) -> Vec2 {
        let now = self.view.mind.at(defender);
        let (_, share) = to_segment(now, self.from, self.to);
        now + self.view.mind.velocity(defender) * (GOES_ON_SHARE * (self.wait_s + share * self.span_s))
    }

    /// Where a defender will be who goes on as he is going for a while after the throw, m.
    fn at_landing(&self, defender: Slot) -> Vec2 {
        let ahead_s = min(self.wait_s + self.span_s, GOES_ON_FOR_S);
        self.view.mind.at(defender) + self.view.mind.velocity(defender) * (GOES_ON_SHARE * ahead_s)
    }

    /// How long a defender's hand has been going out when the ball is at a share of its way, s: he starts when he sees
    /// the release.
    fn out_s(&self, share: f32) -> f32 {
        share * self.span_s - REACTION_COUNTED_ON_S
    }

    /// How far a defender's hand has got by then, m.
    fn hand_m(&self, out_s: f32) -> f32 {
        let body = self.body;
        hand_reach_m(out_s, body.hand_m_s, body.arm_reach_m, body.lunge_reach_m)
    }

    /// How high the ball is at a share of its way, m.
    fn height_m(&self, share: f32) -> f32 {
        pass_height(self.kind, self.skill, self.span_s, share)
    }

    /// Whether it flies over the hand of a defender who is `off` from it at a share of its way.
    fn flies_over(&self, off: f32, share: f32) -> bool {
        let (body, out_s) = (self.body, self.out_s(share));
        let (height, hand) = (self.height_m(share), self.hand_m(out_s));
        let up = |left: f32| {
            hand_height_m(out_s, min(left, hand), body.standing_reach_m, body.jump_m) + CLEARS_HAND_M
        };
        // What his feet do not bring him nearer he stretches for; his way is asked for only where it decides.
        height > up(0.0) || height > up(off) && height > up(max(off - strides_m(body, out_s), 0.0))
    }
}

/// How far a defender runs from rest in a time, m.
fn strides_m(body: &Body, span_s: f32) -> f32 {
    sprint::from_rest_m(body, max(span_s, 0.0))
}
