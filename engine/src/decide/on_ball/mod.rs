//! The ball-handler: weighs shot, passes, drive, fake and going on by expected points from his beliefs.
//!
//! Decision noise is a capped Gumbel draw for each option but waiting, so that the options are taken nearly with
//! the softmax probabilities; the draws hold for one stretch of thought, or a patient man would sooner or later
//! do anything.

mod closeout;
mod dribble;
mod drive;
mod pass;
mod taste;

use crate::slots::{ATTACK, DEFENCE, Slot};
pub use pass::FEED_M;

use crate::decide::three_seconds;
use crate::decide::value;
use crate::decide::{View, nearest_defender};
use crate::film::Action;
use crate::law::floor::{HIGH_POST, touch_class};
use crate::math::{Vec2, clamp, max, min, vec2};
use crate::random::{Purpose, Streams};
use crate::setup::{Moved, PassKind};
use crate::state::*;

/// A pass is pulled back when its chance has fallen by this much before it left the hands. (assumed)
const PULL_BACK: f32 = 0.28;
/// So short before its release a shot is not brought down any more, s. (assumed)
const PAST_S: f32 = 0.15;
/// Mean of a standard Gumbel draw (Euler's constant).
const GUMBEL_MEAN: f32 = 0.577_215_7;
/// Largest noise, in temperatures. (assumed)
const NOISE_MOST: f32 = 2.2;
/// How far ahead waiting is weighed, s. (assumed)
const WAITING_S: f32 = 0.5;
/// How long one stretch of thought lasts, s. (assumed)
const THOUGHT_S: f32 = 0.8;
/// A guard so far above his place still brings the ball up, m; he dribbles at this speed. (assumed)
const BRINGS_UP_M: f32 = 2.0;
const BRING_UP_M_S: f32 = 4.0;
/// A man under the board steps out from there at this speed, m/s. (assumed)
const STEP_OUT_M_S: f32 = 2.0;
/// The first step of a drive from outside is carried through, s. (assumed)
const FIRST_STEP_S: f32 = 0.6;
/// For how long a defender who came out too fast can be driven past, s. (assumed)
const OFF_BALANCE_S: f32 = 0.4;
/// Farther from his place than this a holder dribbles back to it, m. (assumed)
const OFF_PLACE_M: f32 = 0.5;
/// What a drive from outside that is stopped costs beside its time, points: two men's hands are at a dribbled ball
/// for about a second, four times the hazard of a held one, and a charge may be called. (assumed)
const STOPPED_COST_POINTS: f32 = 0.16;
/// Identity of the first receiver of a pass, for its noise.
const FIRST_RECEIVER: usize = 3;

/// Identity of an option, for its noise.
fn identity(action: Action) -> usize {
    match action {
        Action::Hold => 0,
        Action::Shoot => 1,
        Action::Drive => 2,
        Action::Pass(to, _) => FIRST_RECEIVER + to.in_team(),
        Action::DribbleAt(_) => Menu::IDENTITIES - 1,
    }
}

/// Draws the noise of a new stretch of thought.
fn ponder(view: &View<'_>, h: &mut Hands<'_>) {
    let stretch = (h.hold.caught_s, ((view.clock.now - h.hold.caught_s) / THOUGHT_S) as u8);
    if h.menu.stretch == stretch {
        return;
    }
    let new_hold = h.menu.stretch.0 != stretch.0;
    h.menu.stretch = stretch;
    let event = h.streams.next_event(view.me.slot, Purpose::Choice);
    for option in 1..Menu::IDENTITIES {
        // What he fancies of shot and drive stays with him through the hold; receivers come and go.
        if new_hold || option >= FIRST_RECEIVER {
            // Capped: a player misjudges, he does not do just anything once he has thought often enough.
            let noise = h.streams.gumbel(view.me.slot, Purpose::Choice, event, option as u8);
            h.menu.noise[option] = min(noise, NOISE_MOST);
        }
    }
    // Waiting is what the others are weighed against: it has the mean of a Gumbel draw, no luck of its own.
    h.menu.noise[0] = GUMBEL_MEAN;
}

/// What the ball-handler may change.
pub(crate) struct Hands<'a> {
    pub board: &'a mut Board,
    pub hold: &'a mut Hold,
    pub progress: &'a mut Progress,
    pub plan: &'a mut Plan,
    pub wishes: &'a mut Wishes,
    pub menu: &'a mut Menu,
    pub streams: &'a mut Streams,
    pub signals: &'a mut Signals,
}

/// Decides for the player with the ball.
pub(crate) fn decide(view: &View<'_>, mut h: Hands<'_>) {
    stop_program(view, &mut h);
    if closeout::rushed(view.mind, view.me.at) {
        h.hold.rushed_s = view.clock.now;
    }
    if brings_up(view, &h) {
        h.hold.brought_s = view.clock.now;
    }
    match h.hold.handling {
        Handling::Shooting(at_s) => {
            // A hand has come into his face since: he brings it down again.
            let here = view.me.at;
            let left_s = at_s - view.clock.now;
            let space_m = || value::space_ahead(view, here, left_s);
            if left_s > PAST_S && taste::spoilt(here, space_m(), h.hold.shot_space_m, view.clock.shot_clock) {
                h.hold.handling = Handling::Hold;
            }
            stand(view, &mut h);
        }
        Handling::Passing { to, kind, .. } => {
            // A hand has come into the way since: he keeps the ball.
            let here = view.me.at;
            let at = value::aim_pass(view, kind, here, to, 0.1);
            if value::completion(view, kind, here, at, to, 0.1) < h.hold.pass_chance - PULL_BACK {
                h.hold.handling = Handling::Hold;
            }
            stand(view, &mut h);
        }
        Handling::Faking(until) if view.clock.now < until => stand(view, &mut h),
        Handling::Faking(_) => {
            h.hold.handling = Handling::Hold;
            think(view, &mut h);
        }
        Handling::Hold => {
            if view.clock.now < first_decision(view, h.hold, h.progress) {
                stand(view, &mut h);
            } else {
                think(view, &mut h);
            }
        }
        Handling::DribbleAt(to) => {
            dribble::end_if_done(view, &mut h);
            // One stretch of thought is carried through.
            let going = matches!(h.hold.handling, Handling::DribbleAt(_));
            if going && view.clock.now < h.hold.dribble.since_s + THOUGHT_S {
                dribble::go(view, &mut h, to);
            } else {
                think(view, &mut h);
            }
        }
        Handling::Drive(way) => {
            if !drive_ends(view, way, &mut h) {
                return;
            }
            think(view, &mut h);
        }
    }
}

/// Whether a driver stops to think: from outside once the first step is done; a post move is carried through first.
fn drive_ends(view: &View<'_>, way: Way, h: &mut Hands<'_>) -> bool {
    let here = view.me.at;
    let in_post = here.len2() < drive::POST_M * drive::POST_M;
    let spent = view.clock.now - h.hold.dribble.since_s;
    if way == Way::OffScreen && drive::turned(here, h.hold.dribble.corner) {
        // Round the screener: now for the rim.
        h.hold.dribble.way = Way::Straight;
        h.hold.handling = Handling::Drive(Way::Straight);
    }
    let to = aim(view, here, h.hold);
    // Under the board there is nothing to go up for.
    let arrived = here.distance(to) < 0.35 && !view.given.setup.court.behind_board(here);
    let blocked = drive::blocked(view, to) && (!in_post || spent > 0.4);
    if arrived || blocked || (in_post && spent > 0.8) {
        h.hold.handling = Handling::Hold;
        dribbles(view, h.hold);
        // Near the rim he has got as far as he gets: up with it, or out to whoever is open.
        if blocked && !in_post {
            // Once stopped he does not try it again on the same hold.
            h.hold.leave.drive = false;
            h.hold.leave.blow_by = false;
        }
        h.hold.dribble.committed = in_post;
        h.hold.dribble.up_with_it = in_post && here.distance(h.hold.dribble.from) > 0.5;
        h.signals.say(view.clock.now, here, Signal::DriveStop { by: view.me.slot });
        return true;
    }
    if !in_post && spent >= FIRST_STEP_S {
        return true;
    }
    steer(view, h);
    false
}

/// He has put the ball on the floor: a shot now takes a gather first.
pub(super) fn dribbles(view: &View<'_>, hold: &mut Hold) {
    if hold.off_catch {
        // From a gather after the first dribble on he could stop and shoot at any moment.
        hold.ready_s = view.clock.now + view.given.setup.attackers.skill.gather_s;
    }
    hold.off_catch = false;
}

/// Where the drive weighed last leads from here, m.
fn aim(view: &View<'_>, here: Vec2, hold: &Hold) -> Vec2 {
    if hold.dribble.way == Way::OffScreen {
        hold.dribble.corner
    } else {
        drive::goal(view.side, here, hold.dribble.way)
    }
}

/// Whether he is still bringing the ball up to his place.
fn brings_up(view: &View<'_>, h: &Hands<'_>) -> bool {
    let here = view.me.at;
    view.me.slot.is_guard()
        && matches!(h.hold.handling, Handling::Hold)
        && here.y - h.plan.home.y > BRINGS_UP_M
}

/// Keeps a drive going toward its goal.
fn steer(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    let to = aim(view, here, h.hold);
    let body = &view.given.setup.attackers.body;
    let cap = body.sprint_m_s * body.dribble_share;
    h.wishes.go(view.me.slot, to, cap, (to - here).unit_or(view.mind.gaze));
    h.wishes.wish.through[view.me.slot] = 1.0;
}

fn stop_program(view: &View<'_>, h: &mut Hands<'_>) {
    let Some(program) = h.plan.program.take() else { return };
    h.signals.say(view.clock.now, view.me.at, Signal::ProgramEnd { by: view.me.slot, program });
    h.plan.last_program = Some(program);
    h.plan.last_s = view.clock.now;
    h.plan.arrived_s = f32::INFINITY;
}

/// When he is ready to decide after a catch, s.
fn first_decision(view: &View<'_>, hold: &Hold, progress: &Progress) -> f32 {
    let head = &view.given.setup.attackers.head;
    let guard = view.me.slot.is_guard();
    let factor = if guard { view.given.setup.attack.habits.guard_hold_factor } else { 1.0 };
    // Who catches at the high post has his back to the rim: he faces up first.
    let inside = touch_class(&view.given.setup.court, progress.last_catch) & HIGH_POST != 0;
    let first = if inside { max(head.face_up_s, head.first_decision_s) } else { head.first_decision_s };
    hold.caught_s + first * factor
}

/// Stands with the ball and faces the rim.
fn stand(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    let look = (Vec2::RIM - here).unit_or(view.mind.gaze);
    h.wishes.go(view.me.slot, here, 0.6, look);
    h.wishes.brace[view.me.slot] = 1.0;
}

fn think(view: &View<'_>, h: &mut Hands<'_>) {
    weigh(view, h);
    let temperature = view.given.setup.attackers.head.temperature_points;
    ponder(view, h);
    let mut best = (f32::NEG_INFINITY, 0);
    for (index, option) in h.menu.options[..h.menu.count].iter().enumerate() {
        let noise = h.menu.noise[identity(option.action)];
        let value = option.value_points + temperature * noise;
        if value > best.0 {
            best = (value, index);
        }
    }
    carry_out(view, h, best.1);
}

/// Fills the menu with every option that he has.
fn weigh(view: &View<'_>, h: &mut Hands<'_>) {
    let setup = &view.given.setup;
    let (skill, habits) = (&setup.attackers.skill, &setup.attack.habits);
    let here = view.me.at;
    let held = view.clock.now - max(h.hold.caught_s, h.hold.brought_s);
    let driving = matches!(h.hold.handling, Handling::Drive(_));
    let left = view.clock.shot_clock;
    let patience = if h.progress.impatient { 0.5 } else { 1.0 };
    let on = |at: Vec2, spent: f32, moved: Moved, held: f32| {
        patience * value::going_on(view, at, left - spent, moved, held)
    };
    h.menu.count = 0;

    // Keep it: waiting costs a little of the clock, and the zone settles.
    // A count that runs against him (in the lane, closely guarded) leaves him little to wait for.
    let officials = &setup.officials;
    let count = three_seconds::count(view);
    let counted = count.is_some_and(|(left, needs)| left < needs)
        || officials.closely_guarded_s.is_some_and(|limit| view.clock.guarded > limit - 1.8);
    let waiting = on(here, WAITING_S, h.progress.moved, held + WAITING_S)
        * if counted || h.hold.dribble.up_with_it { 0.2 } else { 1.0 };
    // To one who dribbles at a team-mate the next dribble is what waiting is to one who stands.
    if !matches!(h.hold.handling, Handling::DribbleAt(_)) {
        h.menu.add(Action::Hold, waiting - taste::sticks(held), 1.0);
    }

    let until_release = if driving || !h.hold.off_catch {
        skill.gather_s
    } else {
        max(h.hold.ready_s - view.clock.now, 0.25)
    };
    let shot = value::shot(view, view.me.slot, here, until_release, h.hold.off_catch);
    if shot.points > 0.3 {
        h.hold.shot_space_m = shot.space_m;
        h.menu.add(Action::Shoot, shot.points - taste::hasty(view, here, &shot, left), shot.chance);
    }

    let (way, through) = drive_way(view, h);
    let in_post = here.len() < drive::POST_M;
    let blows_by = h.hold.leave.blow_by && view.clock.now - h.hold.rushed_s < OFF_BALANCE_S;
    let sees_way = h.hold.leave.open_drive && through > 0.6;
    let allowed = h.hold.leave.drive || blows_by || driving || in_post || sees_way;
    // Nobody starts a drive from outside into a man who already stands in the way.
    let before = h.hold.dribble.way;
    h.hold.dribble.way = way;
    let to = aim(view, here, h.hold);
    let squarely = way != Way::OffScreen && drive::squarely(view.mind, here, to);
    let walled = !driving && !in_post && (squarely || drive::blocked(view, to));
    h.hold.dribble.way = before;
    let has_way = here.len() > 1.5 || setup.court.behind_board(here);
    if has_way && here.len() < 9.5 && allowed && !walled && !h.hold.dribble.committed {
        let end = drive::goal(view.side, here, way);
        let (at_rim, _) = value::make_chance_at(view, end, 0.9);
        // Stopped on the way: from the post he still gets a shot off with the defender on him; from outside
        // he has drawn help and must find someone.
        let fails = if in_post {
            value::shot(view, view.me.slot, here.toward(end, 0.45), skill.gather_s, false).points
        } else {
            on(here.toward(end, 0.45), 1.2, Moved::In, 0.0) - STOPPED_COST_POINTS
        };
        h.menu.add(Action::Drive, through * at_rim + (1.0 - through) * fails, through);
        h.hold.dribble.way = way;
    }

    dribble::weigh(view, h, &on);

    for to in ATTACK {
        if to == view.me.slot {
            continue;
        }
        // One option for each receiver: how to throw it there is a matter of skill, not of taste.
        let mut best: Option<(PassKind, f32, f32)> = None;
        for kind in PassKind::ALL {
            if let Some((value, chance)) = pass::worth(view, to, kind, &on)
                && best.is_none_or(|b| value > b.1)
            {
                best = Some((kind, value, chance));
            }
        }
        if let Some((kind, value, chance)) = best {
            let reverses =
                to.is_guard() && view.me.slot.is_guard() && held < 1.2 && from_side(h.progress, here);
            let urge = if reverses { habits.reversal_urge_points } else { 0.0 };
            // Thrown from the lane with the count nearly up, the call may come before he is out of it.
            let release = skill.pass[kind as usize].release_s;
            let late = count.is_some_and(|(left, needs)| left < needs + release - 0.2);
            let called = if late { 0.4 } else { 0.0 };
            h.menu.add(Action::Pass(to, kind), value + urge - called, chance);
        }
    }
}

/// The best way to the rim and its chance: a straight way, or off a screen. A driver keeps to his way round a
/// screener until he has turned the corner.
fn drive_way(view: &View<'_>, h: &mut Hands<'_>) -> (Way, f32) {
    if h.hold.handling == Handling::Drive(Way::OffScreen) {
        return (Way::OffScreen, drive::chance_round(view, h.hold.dribble.corner));
    }
    let straight = drive::best(view);
    if matches!(h.hold.handling, Handling::Hold)
        && let Some(corner) = drive::corner(view)
    {
        let through = drive::chance_round(view, corner);
        if through > straight.1 {
            h.hold.dribble.corner = corner;
            return (Way::OffScreen, through);
        }
    }
    straight
}

/// The ball came to this guard from the side (so that the next pass would reverse it).
fn from_side(progress: &Progress, here: Vec2) -> bool {
    (progress.came_from - here).len2() > 4.0 && (progress.came_from.x - here.x) * here.x > 0.0
}

fn carry_out(view: &View<'_>, h: &mut Hands<'_>, index: usize) {
    let chosen = h.menu.options[index].action;
    let was_driving = matches!(h.hold.handling, Handling::Drive(_));
    let repeats = matches!(
        (chosen, h.hold.handling),
        (Action::Hold, Handling::Hold)
            | (Action::Drive, Handling::Drive(_))
            | (Action::DribbleAt(_), Handling::DribbleAt(_))
    );
    if !repeats {
        let what = Signal::Decision { by: view.me.slot, chosen: index as u8 };
        h.signals.say(view.clock.now, view.me.at, what);
    }
    let here = view.me.at;
    if matches!(h.hold.handling, Handling::DribbleAt(_)) && !matches!(chosen, Action::DribbleAt(_)) {
        dribble::end(view, h);
    }
    match chosen {
        Action::Hold => {
            h.hold.handling = Handling::Hold;
            keep(view, h);
        }
        Action::Shoot => {
            if here.len() > drive::POST_M && closeout::show_shot(view, h) {
                stand(view, h);
                return;
            }
            let skill = &view.given.setup.attackers.skill;
            let at_s = if was_driving || !h.hold.off_catch {
                view.clock.now + skill.gather_s
            } else {
                max(h.hold.ready_s, view.clock.now + 0.25)
            };
            h.hold.handling = Handling::Shooting(at_s);
            stand(view, h);
            if was_driving {
                // The last steps of a lay-up carry him on.
                let on = here + view.me.velocity * (skill.gather_s * 0.7);
                // Not under the board: he comes up beside the rim.
                let on = vec2(on.x, max(on.y, min(here.y, drive::FRONT_Y_M)));
                h.wishes.go(view.me.slot, on, f32::INFINITY, (Vec2::RIM - here).unit_or(view.mind.gaze));
            }
        }
        Action::Drive => {
            if !was_driving && here.len() > drive::POST_M && closeout::show_shot(view, h) {
                stand(view, h);
                return;
            }
            if !was_driving {
                h.signals.say(view.clock.now, here, Signal::DriveStart { by: view.me.slot });
                h.hold.dribble.since_s = view.clock.now;
                h.hold.dribble.from = here;
            }
            h.hold.handling = Handling::Drive(h.hold.dribble.way);
            dribbles(view, h.hold);
            steer(view, h);
        }
        Action::Pass(to, kind) => {
            if h.hold.leave.pass_fakes > 0 && !was_driving && show_fake(view, h, to) {
                return;
            }
            let pass = &view.given.setup.attackers.skill.pass[kind as usize];
            let look_off = h.hold.leave.look_off;
            h.hold.pass_chance = h.menu.options[index].chance;
            h.hold.handling = Handling::Passing { to, kind, at_s: view.clock.now + pass.release_s, look_off };
            stand(view, h);
        }
        Action::DribbleAt(to) => dribble::go(view, h, to),
    }
}

/// Shows a pass to the team-mate farthest from the one who is to get it.
fn show_fake(view: &View<'_>, h: &mut Hands<'_>, to: Slot) -> bool {
    let real = view.mind.at(to);
    let mut best = (4.0, None);
    for other in ATTACK {
        if other == view.me.slot || other == to {
            continue;
        }
        let off = (view.mind.at(other) - real).len();
        if off > best.0 {
            best = (off, Some(other));
        }
    }
    let Some(other) = best.1 else { return false };
    h.hold.leave.pass_fakes -= 1;
    h.hold.handling = Handling::Faking(view.clock.now + 0.4);
    h.board.post(view.clock.now, News::Fake { to: other });
    h.signals.say(view.clock.now, view.me.at, Signal::Fake { by: view.me.slot, toward: other, bitten: 0 });
    stand(view, h);
    true
}

/// Keeps the ball: a perimeter player dribbles to a better angle, never into a defender; a post stands.
fn keep(view: &View<'_>, h: &mut Hands<'_>) {
    let here = view.me.at;
    let setup = &view.given.setup;
    if let Some((left, needs)) = three_seconds::count(view)
        && left < needs + 0.3
    {
        // He dribbles out of the lane.
        let out = three_seconds::exit(view, here);
        h.wishes.go(view.me.slot, out, 3.0, (Vec2::RIM - here).unit_or(view.mind.gaze));
        dribbles(view, h.hold);
        return;
    }
    if setup.court.behind_board(here) {
        // He steps out from under the board, to where he could shoot.
        let out = drive::goal(view.side, here, Way::Straight);
        h.wishes.go(view.me.slot, out, STEP_OUT_M_S, (Vec2::RIM - here).unit_or(view.mind.gaze));
        dribbles(view, h.hold);
        return;
    }
    if here.len() < 4.6 {
        stand(view, h);
        return;
    }
    let (_, space) = nearest_defender(view.mind, here);
    let out = (here - Vec2::RIM).unit_or(view.mind.gaze);
    let home = setup.court.inside(h.plan.home, 0.5);
    // Toward home if he is off it, else a probing step toward the more open side.
    let to = if here.distance(home) > OFF_PLACE_M {
        home
    } else {
        let along = out.quarter() * view.side;
        let room = |at: Vec2| DEFENCE.into_iter().map(|d| (view.mind.at(d) - at).len()).fold(9.0, min);
        let (a, b) = (home + along * 0.8, home - along * 0.8);
        let pick = if room(a) >= room(b) { a } else { b };
        if space < 1.3 { pick + out * 0.4 } else { pick }
    };
    let most = if brings_up(view, h) { BRING_UP_M_S } else { 2.4 };
    let cap = clamp(0.8 + 0.5 * here.distance(to), 0.8, most);
    h.wishes.go(view.me.slot, setup.court.inside(to, 0.4), cap, (Vec2::RIM - here).unit_or(view.mind.gaze));
    if here.distance(to) > 0.6 && view.clock.now - h.hold.caught_s > 1.0 {
        dribbles(view, h.hold);
    }
}
