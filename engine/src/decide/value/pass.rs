//! The chance that a pass arrives, as its passer believes.
//!
//! The law of the hand is the true one (`law/reach.rs`): a hand out in time touches the ball with a chance that rises with
//! the time that it has to spare, unless a body is in its way. The passer asks it of where he believes the defenders, at
//! some points of the ball's way, and is not sure of the times.

use crate::decide::View;
use crate::law::conduct::judging::{COMES_ON_FOR_S, GOES_ON_FOR_S, REACTION_COUNTED_ON_S, SEEN_AGO_S};
use crate::law::conduct::pass_chance::{
    CLEARS_HAND_M, DOUBT_M, DOUBT_MOVING_S, DOUBT_ROUND_M, DOUBT_S, LEAST_BETWEEN_JUMPERS_M, NO_SPREAD_M,
    OUT_OF_PASS_M, RECEIVERS_END_SHARE, RUNS_UNDER_LOB_SHARE,
};
use crate::law::pass::{aim, pass_height};
use crate::law::reach::{
    EVEN_CHANCE_S, GOES_UP_M, PASSIVE_M, body_height_m, gets_up, hand_height_m, hand_needs_s, passes_body_m,
};
use crate::law::{release, sprint};
use crate::math::{Vec2, exp, logistic, max, min, to_segment};
use crate::setup::{Body, PassKind, PassSkill};
use crate::slots::{ATTACK, DEFENCE, Slot};

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
        let skill = &setup.player(view.me.slot).skill.pass[kind as usize];
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
        let mut chance = 1.0;
        for defender in DEFENCE {
            if let Some(beaten) = flight.beaten_to_lob(defender) {
                chance *= 1.0 - beaten;
            }
            if let Some(threat) = flight.threat(defender) {
                chance *= logistic(-threat);
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
    /// Where it leaves the hands, m.
    from: Vec2,
    /// Where it comes down, m.
    to: Vec2,
    /// Length of its way, m.
    length_m: f32,
    /// How long it flies, s.
    span_s: f32,
    /// Time until it leaves the hands, s.
    wait_s: f32,
    /// Who is to get it.
    receiver: Slot,
}

impl<'a> Imagined<'a> {
    fn of(view: &'a View<'a>, pass: &PassTry) -> Self {
        let skill = &view.given.player(view.me.slot).skill.pass[pass.kind as usize];
        let from = release::hands(|slot| view.mind.at(slot), pass.kind, pass.from, pass.to, view.side);
        let length_m = from.distance(pass.to);
        Self {
            view,
            kind: pass.kind,
            skill,
            from,
            to: pass.to,
            length_m,
            span_s: skill.flight_s(pass.kind, length_m),
            wait_s: pass.wait_s,
            receiver: pass.receiver,
        }
    }

    /// Chance that a defender who gets near where a lob comes down goes up with the receiver and beats him to it.
    fn beaten_to_lob(&self, defender: Slot) -> Option<f32> {
        if self.kind != PassKind::Lob {
            return None;
        }
        let (body, runs_s) = (self.body(defender), self.span_s - REACTION_COUNTED_ON_S);
        let off = self.then(defender, 1.0).distance(self.to);
        let run = RUNS_UNDER_LOB_SHARE * strides_m(body, runs_s);
        let there = max(off - run, min(off, LEAST_BETWEEN_JUMPERS_M));
        if there >= GOES_UP_M || body.arm_reach_m <= 0.0 {
            return None;
        }
        let hand = hand_height_m(runs_s, there, body.standing_reach_m, body.jump_m);
        Some(gets_up(hand, self.skill.catch_height_m))
    }

    /// How sure the passer is that a defender touches the ball, logit, at the point of its way where he is surest; `None`
    /// where the defender is too far away or it flies over him.
    fn threat(&self, defender: Slot) -> Option<f32> {
        let now = self.view.mind.at(defender);
        let (off, nearest) = to_segment(now, self.from, self.to);
        let (body, run_s) = (self.body(defender), max(self.out_s(1.0), 0.0));
        if off > OUT_OF_PASS_M + body.lunge_reach_m + run_s * body.sprint_m_s {
            return None;
        }
        // Who crosses its way is nearest to it where he will be then.
        let (_, nearest) = to_segment(self.then(defender, nearest), self.from, self.to);
        let mut most = f32::NEG_INFINITY;
        // Where it is nearest to him, and later, when it is farther off but he has had more time.
        for share in [nearest, max(nearest, RECEIVERS_END_SHARE), 1.0] {
            most = max(most, self.threat_at(defender, share));
        }
        (most > f32::NEG_INFINITY).then_some(most)
    }

    /// The same at a share of its way; negative infinity where he does not get at it there.
    fn threat_at(&self, defender: Slot, share: f32) -> f32 {
        let (at, ball) = (self.then(defender, share), self.from.toward(self.to, share));
        let (out_s, height, body) = (self.out_s(share), self.height_m(share), self.body(defender));
        let off = max(at.distance(ball) - strides_m(body, out_s), 0.0);
        let hand = hand_height_m(out_s, off, body.standing_reach_m, body.jump_m);
        if height > hand + CLEARS_HAND_M || off > body.lunge_reach_m || body.arm_reach_m <= 0.0 {
            return f32::NEG_INFINITY;
        }
        let spare_s = out_s - hand_needs_s(off, body.hand_m_s, body.arm_reach_m);
        let by_hand = (spare_s - EVEN_CHANCE_S) / DOUBT_S;
        // What strikes his body needs no hand.
        let moving = self.view.mind.velocity(defender).len();
        let by_body = (PASSIVE_M - off) / (DOUBT_M + DOUBT_MOVING_S * moving);
        let round = self.round_m(at, (ball, height)) / DOUBT_ROUND_M;
        max(min(by_hand, round), by_body)
    }

    /// By how much a hand that goes from `at` to a ball at a place and height passes the attacker's body that is most in its
    /// way, the receiver's where he will catch it, m.
    fn round_m(&self, at: Vec2, (ball, height_m): (Vec2, f32)) -> f32 {
        let mut least = f32::INFINITY;
        for mate in ATTACK {
            let is_receiver = mate == self.receiver;
            let reach_m = self.view.given.player(mate).body.standing_reach_m;
            if mate != self.view.me.slot && height_m < body_height_m(is_receiver, reach_m) {
                let body = if is_receiver { self.to } else { self.view.whereabouts(mate) };
                least = min(least, passes_body_m(body, self.view.radius_m(mate), is_receiver, at, ball));
            }
        }
        least
    }

    /// What a defender's body can do.
    fn body(&self, defender: Slot) -> &'a Body {
        &self.view.given.player(defender).body
    }

    /// Chance that the throw's error stays within the catch, as a passer takes it: as large lengthwise as to the side. In truth
    /// it is only to the side (known limits of `engine/MODEL.md`).
    fn on_the_mark(&self) -> f32 {
        let spread = self.skill.error_rad * self.length_m;
        let reach = self.view.given.player(self.receiver).skill.catch_far_m;
        if spread > NO_SPREAD_M { 1.0 - exp(-0.5 * (reach / spread) * (reach / spread)) } else { 1.0 }
    }

    /// Where a defender will be when the ball is at a share of its way, who goes on for a while as he was seen to go, m.
    fn then(&self, defender: Slot, share: f32) -> Vec2 {
        let (at, velocity) = (self.view.mind.at(defender), self.view.mind.velocity(defender));
        let comes = velocity.dot(self.from.toward(self.to, share) - at) > 0.0;
        let goes_on_s = if comes { COMES_ON_FOR_S } else { GOES_ON_FOR_S };
        at + velocity * min(self.wait_s + share * self.span_s + SEEN_AGO_S, goes_on_s)
    }

    /// How long a defender's hand has been going out when the ball is at a share of its way, s: he starts when he sees
    /// the release.
    fn out_s(&self, share: f32) -> f32 {
        share * self.span_s - REACTION_COUNTED_ON_S
    }

    /// How high the ball is at a share of its way, m.
    fn height_m(&self, share: f32) -> f32 {
        pass_height(self.kind, self.skill, self.span_s, share)
    }
}

/// How far a defender runs from rest in a time, m.
fn strides_m(body: &Body, span_s: f32) -> f32 {
    sprint::from_rest_m(body, max(span_s, 0.0))
}
