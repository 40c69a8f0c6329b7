"use strict";
// A reel's numbers, frame by frame. Every number shown comes from the reel as the program wrote it.

const BALL = 10;
const byId = (id) => document.getElementById(id);

/** Feet and inches, of so many whole inches; from ten feet on whole feet. */
function feet(cm, inches) {
  const whole = Math.trunc(inches / 12);
  if (whole >= 10) return `${(cm / 30.48).toFixed(0)}\u00a0ft`;
  if (whole === 0) return `${inches}\u00a0in`;
  return inches % 12 === 0 ? `${whole}\u00a0ft` : `${whole}\u00a0ft\u00a0${inches % 12}\u00a0in`;
}

/** How lengths (cm) are told: any, how far somebody is away, and the same to a centimetre. As the program tells them, number and unit kept together. */
const LENGTHS = {
  m: { length: (cm) => `${(cm / 100).toFixed(1)}\u00a0m`, room: (cm) => `${(cm / 100).toFixed(1)}\u00a0m`, exact: (cm) => `${(cm / 100).toFixed(2)}\u00a0m` },
  ft: {
    length: (cm) => feet(cm, Math.round(cm / 2.54)),
    room: (cm) => feet(cm, Math.trunc((cm + 0.2) / 2.54)),
    exact: (cm) => feet(cm, Math.trunc((cm + 0.2) / 2.54)),
  },
};
const attacks = (player) => player < 5;

/** A track: the first number, then differences. */
function track(steps) {
  let sum = 0;
  return Int32Array.from(steps, (step) => (sum += step));
}

/** Runs `[first frame, value]` as a value for every one of `count` frames. */
function spread(runs, count) {
  const values = new Int32Array(count);
  runs.forEach(([first, value], n) => values.fill(value, first, n + 1 < runs.length ? runs[n + 1][0] : count));
  return values;
}

/** Everything of a reel by frame. */
function unpack(reel) {
  const perFrame = (runs) => spread(runs, reel.frames);
  const samples = Math.ceil(reel.frames / reel.views.every);
  return {
    reel,
    told: LENGTHS[reel.units],
    last: reel.frames - 1,
    second: Math.round(1 / reel.step_s),
    name: (player) => reel.players[player].name,
    x: reel.x.map(track),
    y: reel.y.map(track),
    face: reel.face.map(track),
    ballHeight: track(reel.ball_height),
    holder: perFrame(reel.holder),
    braced: reel.braced.map(perFrame),
    look: { space: track(reel.look.space), nearest: perFrame(reel.look.nearest), state: perFrame(reel.look.state) },
    lanes: reel.lanes.map((lane) => ({
      clear: track(lane.clear), nearest: perFrame(lane.nearest), state: perFrame(lane.state), chance: perFrame(lane.chance),
    })),
    stress: {
      late: perFrame(reel.stress.late), lateFor: perFrame(reel.stress.late_for),
      gap: track(reel.stress.line_gap), seam: track(reel.stress.widest_seam),
    },
    views: reel.views.of.map((view) => ({
      gaze: track(view.gaze), x: view.x.map(track), y: view.y.map(track), asOf: view.as_of.map(track),
      lost: spread(view.lost, samples), seesBall: spread(view.sees_ball, samples),
    })),
    guards: reel.guards.map(perFrame),
    onBall: perFrame(reel.on_ball),
    shotClock: reel.shot_clock ? track(reel.shot_clock) : null,
    flightAt: (i) => reel.flights.find((f) => f.first <= i && i <= f.last),
    /** The shot that leaves the hands in this frame. */
    shotAt: (i) => reel.shots.find((shot) => shot.frame === i),
  };
}

const reelOf = (id) => unpack(JSON.parse(byId(id).textContent));
