"use strict";
// Draws a film. Every number shown comes from the reel as the program wrote it; between two frames only
// places and directions are drawn in between.

const reel = JSON.parse(document.getElementById("reel").textContent);
const byId = (id) => document.getElementById(id);
const last = reel.frames - 1;
const BALL = 10;
const TRAIL_FRAMES = Math.round(2 / reel.step_s);
const SPEEDS = [0.25, 0.5, 1, 2, 4];
const HEIGHT_SHOWN_CM = 500;
const SPACE_SHOWN_CM = 400;

// ---- The reel's numbers --------------------------------------------------------------------------------

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

const x = reel.x.map(track);
const y = reel.y.map(track);
const face = reel.face.map(track);
const ballHeight = track(reel.ball_height);
const perFrame = (runs) => spread(runs, reel.frames);
const holder = perFrame(reel.holder);
const braced = reel.braced.map(perFrame);
const look = { space: track(reel.look.space), nearest: perFrame(reel.look.nearest), state: perFrame(reel.look.state) };
const lanes = reel.lanes.map((lane) => ({
  clear: track(lane.clear), nearest: perFrame(lane.nearest), state: perFrame(lane.state), chance: perFrame(lane.chance),
}));
const stress = {
  late: perFrame(reel.stress.late), lateFor: perFrame(reel.stress.late_for),
  gap: track(reel.stress.line_gap), seam: track(reel.stress.widest_seam),
};
const samples = Math.ceil(reel.frames / reel.views.every);
const views = reel.views.of.map((view) => ({
  gaze: track(view.gaze), x: view.x.map(track), y: view.y.map(track), asOf: view.as_of.map(track),
  lost: spread(view.lost, samples), seesBall: spread(view.sees_ball, samples),
}));

const name = (player) => reel.players[player].name;
const metres = (cm, digits = 1) => (cm / 100).toFixed(digits);
const attacks = (player) => player < 5;

// ---- State ---------------------------------------------------------------------------------------------

let at = 0; // frame, with a fraction while it plays
let playing = false;
let chosen = -1;
let scale = 1; // marks are drawn larger where the floor is small
let shownFrame = -1;
let before = 0; // time of the last picture, ms

/** Value of a track at a time between two frames; what jumps is not drawn in between. */
function between(values, frame, most) {
  const i = Math.floor(frame);
  const step = i < last ? values[i + 1] - values[i] : 0;
  return Math.abs(step) > most ? values[i] : values[i] + step * (frame - i);
}
const place = (player, frame) => [between(x[player], frame, 120), between(y[player], frame, 120)];

// ---- Drawing -------------------------------------------------------------------------------------------

const floor = byId("floor");

function svg(tag, attributes, parent) {
  const element = document.createElementNS(floor.namespaceURI, tag);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (parent) parent.append(element);
  return element;
}

const marks = reel.players.map((player, p) => {
  const group = svg("g", { class: `mark ${attacks(p) ? "attack" : "defence"}` }, byId("marks"));
  svg("circle", { class: "ring", r: 58 }, group);
  const turns = svg("g", {}, group);
  if (attacks(p)) {
    svg("path", { class: "nose", d: "M38-15 58 0 38 15z" }, turns);
    svg("circle", { r: 40 }, group);
  } else {
    svg("path", { class: "body", d: "M-34-37H14L50 0 14 37H-34z" }, turns);
  }
  svg("text", { y: attacks(p) ? 15 : 12 }, group).textContent = player.mark;
  svg("title", {}, group).textContent = player.name;
  group.addEventListener("click", () => choose(chosen === p ? -1 : p));
  return { group, turns };
});
const shadow = svg("circle", { class: "shadow", r: 22 }, byId("ball"));
const ball = svg("circle", { class: "ball", r: 24 }, byId("ball"));

const trails = reel.players.map((_, p) => {
  const kinds = attacks(p) ? ["run", "dribble", "braced"] : ["follow"];
  return kinds.map((kind) => ({ kind, path: svg("path", { class: `trail ${kind}` }, byId("trails")) }));
});
const passTrail = svg("path", { class: "trail pass" }, byId("trails"));
const ways = lanes.map(() => svg("path", { class: "way" }, byId("ways")));
const air = svg("path", { class: "air" }, byId("flight"));
const airEnd = svg("circle", { class: "air-end", r: 26 }, byId("flight"));

/** How an attacker moves in a frame, for the style of his trail. */
function motion(p, frame) {
  if (!attacks(p)) return "follow";
  if (holder[frame] === p) return "dribble";
  return braced[p][frame] ? "braced" : "run";
}

function drawTrails(frame) {
  const shown = byId("trailed").checked;
  byId("trails").style.display = shown ? "" : "none";
  if (!shown) return;
  const now = Math.floor(frame);
  const first = Math.max(0, now - TRAIL_FRAMES);
  trails.forEach((paths, p) => {
    const way = { run: "", dribble: "", braced: "", follow: "" };
    for (let f = first; f < now; f += 1) {
      const jumps = Math.hypot(x[p][f + 1] - x[p][f], y[p][f + 1] - y[p][f]) > 120;
      if (jumps) continue;
      const kind = motion(p, f + 1);
      const goes = f > first && motion(p, f) === kind && way[kind] !== "";
      // Who stands braced hardly moves: a short bar is drawn where he stands.
      way[kind] += goes ? `L${x[p][f + 1]} ${y[p][f + 1]}` : `M${x[p][f]} ${y[p][f]}L${x[p][f + 1]} ${y[p][f + 1]}`;
    }
    const kind = motion(p, now);
    if (way[kind] !== "") way[kind] += `L${place(p, frame).join(" ")}`;
    if (way.braced !== "" && kind === "braced") way.braced += bar(p, now);
    for (const { kind: own, path } of paths) path.setAttribute("d", way[own]);
  });
  const thrown = reel.flights.filter((f) => (f.kind === "pass" || f.kind === "shot") && f.last >= first && f.last < now);
  passTrail.setAttribute("d", thrown.map((f) => `M${f.from.join(" ")}L${x[BALL][f.last + 1]} ${y[BALL][f.last + 1]}`).join(""));
}

/** A bar across the way that a braced player faces. */
function bar(p, frame) {
  const angle = (face[p][frame] * Math.PI) / 180;
  const [dx, dy] = [-Math.sin(angle) * 62, Math.cos(angle) * 62];
  return `M${x[p][frame] - dx} ${y[p][frame] - dy}L${x[p][frame] + dx} ${y[p][frame] + dy}`;
}

function drawWays(frame) {
  const i = Math.floor(frame);
  const shown = byId("laned").checked && holder[i] >= 0;
  ways.forEach((way, mate) => {
    const state = lanes[mate].state[i];
    way.style.display = shown && state > 0 ? "" : "none";
    if (!shown || state === 0) return;
    way.setAttribute("class", `way ${WAY_CLASSES[state]}`);
    way.setAttribute("d", `M${place(holder[i], frame).join(" ")}L${place(mate, frame).join(" ")}`);
  });
}
const WAY_CLASSES = ["", "arm", "lunge", "clear"];
const WAY_WORDS = ["", "arm", "lunge", "clear"];

function drawBall(frame) {
  const i = Math.floor(frame);
  let [bx, by] = place(BALL, frame);
  const height = between(ballHeight, frame, 1000);
  const flight = flightAt(i);
  air.style.display = airEnd.style.display = flight ? "" : "none";
  if (flight) {
    air.setAttribute("d", `M${flight.from.join(" ")}L${flight.to.join(" ")}`);
    airEnd.setAttribute("cx", flight.to[0]);
    airEnd.setAttribute("cy", flight.to[1]);
  }
  if (holder[i] >= 0) {
    // A held ball is drawn in front of its man, so that his number can be read.
    const angle = (between(face[holder[i]], frame, 400) * Math.PI) / 180;
    bx += Math.cos(angle) * 52 * scale;
    by += Math.sin(angle) * 52 * scale;
  }
  const size = (0.75 + height / 500) * scale;
  ball.setAttribute("transform", `translate(${bx} ${by}) scale(${size})`);
  shadow.setAttribute("transform", `translate(${bx + height * 0.12} ${by + height * 0.17}) scale(${0.75 * scale})`);
}
const flightAt = (i) => reel.flights.find((f) => f.first <= i && i <= f.last);

function drawView(frame) {
  const group = byId("view");
  group.replaceChildren();
  if (chosen < 0) return;
  const i = Math.floor(frame);
  const k = Math.floor(i / reel.views.every);
  const view = views[chosen];
  const [px, py] = place(chosen, frame);
  const [sharp, whole] = reel.views.sight[attacks(chosen) ? 0 : 1];
  svg("path", { class: "field", d: wedge(px, py, view.gaze[k], whole, 620) }, group);
  svg("path", { class: "sight", d: wedge(px, py, view.gaze[k], sharp, 620) }, group);
  const sampled = Math.min(k * reel.views.every, last);
  for (let other = 0; other <= BALL; other += 1) {
    if (other === chosen) continue;
    const lost = other < BALL && (view.lost[k] >> other) & 1;
    const [tx, ty] = place(other, frame);
    const [gx, gy] = [x[other][sampled] + view.x[other][k], y[other][sampled] + view.y[other][k]];
    svg("path", { class: lost ? "tie lost" : "tie", d: `M${tx} ${ty}L${gx} ${gy}` }, group);
    const ghost = svg("g", { transform: `translate(${gx} ${gy}) scale(${scale})` }, group);
    const kind = lost ? "ghost lost" : "ghost";
    if (other === BALL) svg("circle", { class: kind, r: 18 }, ghost);
    else if (attacks(other)) svg("circle", { class: kind, r: 42 }, ghost);
    else svg("path", { class: kind, d: "M-36-36H36V36H-36z" }, ghost);
    if (lost) svg("text", { class: "ghost-name", y: 11 }, ghost).textContent = `${reel.players[other].mark}?`;
  }
}

/** A sector of a circle around a direction, half angles in degrees. */
function wedge(px, py, middle, half, radius) {
  const end = (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    return `${(px + radius * Math.cos(angle)).toFixed(1)} ${(py + radius * Math.sin(angle)).toFixed(1)}`;
  };
  return `M${px} ${py}L${end(middle - half)}A${radius} ${radius} 0 ${half > 90 ? 1 : 0} 1 ${end(middle + half)}z`;
}

function drawMarks(frame) {
  const i = Math.floor(frame);
  marks.forEach(({ group, turns }, p) => {
    const [px, py] = place(p, frame);
    group.setAttribute("transform", `translate(${px} ${py}) scale(${scale})`);
    turns.setAttribute("transform", `rotate(${between(face[p], frame, 400)})`);
    group.classList.toggle("chosen", p === chosen);
    group.classList.toggle("braced", attacks(p) && braced[p][i] === 1);
  });
}

// ---- Readings ------------------------------------------------------------------------------------------

const LOOK_WORDS = ["nobody holds it", "out of his range", "guarded", "not ready to shoot yet", "open", "wide open"];

function fill(ruler, share, open) {
  ruler.querySelector(".fill").style.width = `${100 * Math.min(Math.max(share, 0), 1)}%`;
  ruler.classList.toggle("open", open);
}

function readBall(i) {
  const flight = flightAt(i);
  const words = holder[i] >= 0 ? `${name(holder[i])} has it` : flight ? flight.words : "dead";
  byId("ball-words").textContent = words;
  byId("height-words").textContent = `${metres(ballHeight[i])} m high`;
  fill(byId("height"), ballHeight[i] / HEIGHT_SHOWN_CM, false);
}

function readLook(i) {
  const space = look.space[i];
  byId("look-m").textContent = space < 0 ? "–" : `${metres(space, 2)} m`;
  byId("look-words").textContent = LOOK_WORDS[look.state[i]];
  byId("look-who").textContent = space < 0 ? " " : `${name(look.nearest[i])} to ${name(holder[i])}`;
  fill(byId("look"), space / SPACE_SHOWN_CM, look.state[i] >= 4);
}

const passRows = lanes.map((_, mate) => {
  const row = document.createElement("tr");
  const head = document.createElement("th");
  head.scope = "row";
  const number = document.createElement("span");
  number.className = "num";
  number.textContent = reel.players[mate].mark;
  head.append(number, name(mate));
  const way = document.createElement("td");
  const chance = document.createElement("td");
  row.append(head, way, chance);
  byId("passes").append(row);
  return { way, chance };
});

function readPasses(i) {
  passRows.forEach(({ way, chance }, mate) => {
    const { clear, state, chance: believed } = lanes[mate];
    if (state[i] === 0) {
      way.textContent = holder[i] === mate ? "has the ball" : "–";
      chance.textContent = "";
      return;
    }
    const sample = svg("svg", { viewBox: "0 -16 120 32", "aria-hidden": "true" });
    svg("path", { class: `way ${WAY_CLASSES[state[i]]}`, d: "M8 0H112" }, sample);
    way.replaceChildren(sample, `${metres(clear[i])} m, ${WAY_WORDS[state[i]]}`);
    chance.textContent = believed[i] < 0 ? "–" : `${believed[i]} %`;
  });
}

function readStress(i) {
  const late = stress.late[i];
  byId("late-s").textContent = late < 0 ? "–" : `${metres(late, 2)} s`;
  byId("late-words").textContent = late < 0 ? "not measured now" : late === 0 ? "in time everywhere" : `late for ${name(stress.lateFor[i])}`;
  byId("gap-words").textContent = late < 0 ? " " : `${metres(stress.gap[i])}\u00a0m between the lines, widest seam ${metres(stress.seam[i])}\u00a0m`;
}

function readView(i) {
  const list = byId("ages");
  list.hidden = chosen < 0;
  if (chosen < 0) {
    const often = (1 / (reel.views.every * reel.step_s)).toFixed(0);
    byId("knows").textContent = `Hollow marks will show where he believes the others to be, ${often} times a second.`;
    return;
  }
  const k = Math.floor(i / reel.views.every);
  const view = views[chosen];
  const tenths = Math.round(k * reel.views.every * reel.step_s * 10);
  const lost = reel.players.filter((_, p) => (view.lost[k] >> p) & 1).map((player) => player.name);
  const sight = view.seesBall[k] ? "Sees the ball." : "Does not see the ball.";
  byId("knows").textContent = `${sight} ${lost.length ? `Has lost ${lost.join(", ")}.` : "Has lost nobody."} Last saw them so long ago:`;
  list.replaceChildren(...reel.players.flatMap((player, p) => {
    if (p === chosen) return [];
    const item = document.createElement("li");
    item.className = (view.lost[k] >> p) & 1 ? "lost" : "";
    const age = document.createElement("span");
    age.textContent = `${(Math.max(tenths - view.asOf[p][k], 0) / 10).toFixed(1)} s`;
    item.append(player.mark, age);
    return [item];
  }));
}

// ---- What happened -------------------------------------------------------------------------------------

const told = [...document.querySelectorAll("#trace button")];
told.forEach((button, n) => button.addEventListener("click", () => {
  pause();
  go(reel.told[n]);
}));

function readTrace(i) {
  let current = 0;
  reel.told.forEach((frame, n) => { if (frame <= i) current = n; });
  told.forEach((button, n) => {
    if (n === current) button.setAttribute("aria-current", "step");
    else button.removeAttribute("aria-current");
    button.classList.toggle("ahead", reel.told[n] > i);
  });
  const list = byId("trace");
  const line = told[current].parentElement;
  const [top, bottom] = [line.offsetTop, line.offsetTop + line.offsetHeight];
  if (top < list.scrollTop || bottom > list.scrollTop + list.clientHeight) {
    list.scrollTop = top - list.clientHeight / 3;
  }
  const words = told[current].textContent.trim().replace(/\s+/g, " ");
  if (byId("now").textContent !== words) byId("now").textContent = words;
}

// ---- The strip -----------------------------------------------------------------------------------------

function drawStrip() {
  const share = (frame) => (100 * frame) / Math.max(last, 1);
  const row = byId("holders");
  const add = (from, to, kind, text) => {
    const span = document.createElement("span");
    span.className = kind;
    span.textContent = text;
    span.style.left = `${share(from)}%`;
    span.style.width = `${share(Math.min(to, last) - from)}%`;
    row.append(span);
  };
  reel.holder.forEach(([first, player], n) => {
    const end = n + 1 < reel.holder.length ? reel.holder[n + 1][0] : last;
    if (player < 0) add(first, end, "aloft", "");
    else add(first, end, attacks(player) ? "held" : "stolen", reel.players[player].mark);
  });
  const up = (cm) => 100 - (100 * Math.min(cm, SPACE_SHOWN_CM)) / SPACE_SHOWN_CM;
  let space = "";
  let late = "";
  for (let f = 0; f < last; f += 1) {
    const here = `${share(f).toFixed(2)} `;
    const next = `${share(f + 1).toFixed(2)} `;
    if (look.space[f] >= 0) space += `M${here}100L${here}${up(look.space[f])}L${next}${up(look.space[f])}L${next}100z`;
    if (stress.late[f] > 0) late += `M${here}0H${next}V${Math.min(stress.late[f], 100)}H${here}z`;
  }
  const looks = byId("looks");
  svg("path", { class: "space", d: space }, looks);
  svg("path", { class: "late", d: late }, looks);
  svg("path", { class: "open", d: `M0 ${up(reel.look.open_cm)}H100` }, looks);
  svg("path", { class: "wide", d: `M0 ${up(reel.look.wide_open_cm)}H100` }, looks);
}

// ---- Playing -------------------------------------------------------------------------------------------

function draw() {
  const i = Math.floor(at);
  drawTrails(at);
  drawWays(at);
  drawView(at);
  drawMarks(at);
  drawBall(at);
  if (i === shownFrame) return;
  shownFrame = i;
  readBall(i);
  readLook(i);
  readPasses(i);
  readStress(i);
  readView(i);
  readTrace(i);
  const seconds = (i * reel.step_s).toFixed(2);
  const whole = (last * reel.step_s).toFixed(2);
  byId("clock").textContent = `${seconds} / ${whole} s`;
  byId("scrub").value = i;
  byId("scrub").setAttribute("aria-valuetext", `${seconds} of ${whole} seconds`);
}

function redraw() {
  shownFrame = -1;
  draw();
}

function go(frame) {
  at = Math.min(Math.max(Math.round(frame), 0), last);
  draw();
}

function setPlaying(on) {
  playing = on;
  document.body.classList.toggle("playing", on);
  byId("play").setAttribute("aria-label", on ? "Pause" : "Play");
  // Nobody wants every line read out while it plays.
  byId("now").setAttribute("aria-live", on ? "off" : "polite");
}

function pause() {
  setPlaying(false);
  at = Math.floor(at);
  draw();
}

function play() {
  if (at >= last) at = 0;
  setPlaying(true);
  before = performance.now();
  requestAnimationFrame(tick);
}

function tick(now) {
  if (!playing) return;
  // A page that was out of sight goes on where it was.
  const passed = Math.min(Math.max(now - before, 0), 250) / 1000;
  before = now;
  at = Math.min(at + (passed / reel.step_s) * Number(byId("speed").value), last);
  draw();
  if (at >= last) pause();
  else requestAnimationFrame(tick);
}

const toggle = () => (playing ? pause() : play());

function step(frames) {
  pause();
  go(at + frames);
}

function faster(by) {
  const speed = byId("speed");
  const next = SPEEDS.indexOf(Number(speed.value)) + by;
  speed.value = SPEEDS[Math.min(Math.max(next, 0), SPEEDS.length - 1)];
}

function choose(player) {
  chosen = player;
  byId("who").value = player;
  redraw();
}

// ---- Hands ---------------------------------------------------------------------------------------------

const onClick = { play: toggle, back: () => step(-1), forward: () => step(1), start: () => step(-reel.frames), end: () => step(reel.frames) };
for (const [id, action] of Object.entries(onClick)) byId(id).addEventListener("click", action);
byId("scrub").addEventListener("input", (event) => {
  pause();
  go(Number(event.target.value));
});
byId("who").addEventListener("change", (event) => choose(Number(event.target.value)));
byId("trailed").addEventListener("change", redraw);
byId("laned").addEventListener("change", redraw);

const second = Math.round(1 / reel.step_s);
const onKey = {
  " ": toggle,
  ArrowLeft: (event) => step(event.shiftKey ? -second : -1),
  ArrowRight: (event) => step(event.shiftKey ? second : 1),
  Home: () => step(-reel.frames),
  End: () => step(reel.frames),
  "+": () => faster(1),
  "=": () => faster(1),
  "-": () => faster(-1),
};
document.addEventListener("keydown", (event) => {
  const action = onKey[event.key];
  if (!action || !byId("keyed").checked || event.ctrlKey || event.metaKey || event.altKey) return;
  // Lists have keys of their own; a button or a box is pressed with the space bar.
  if (event.target.closest("select")) return;
  if (event.key === " " && event.target.closest("button, input[type=checkbox]")) return;
  event.preventDefault();
  action(event);
});

new ResizeObserver(() => {
  const pixels = floor.getBoundingClientRect().width / reel.frame_cm[2];
  if (pixels === 0) return;
  scale = Math.max(1, 12 / (40 * pixels));
  redraw();
}).observe(floor);

byId("scrub").max = last;
byId("rim-mark").style.left = `${(100 * reel.rim_cm) / HEIGHT_SHOWN_CM}%`;
byId("open-mark").style.left = `${(100 * reel.look.open_cm) / SPACE_SHOWN_CM}%`;
byId("wide-mark").style.left = `${(100 * reel.look.wide_open_cm) / SPACE_SHOWN_CM}%`;
drawStrip();
choose(-1);
if (!matchMedia("(prefers-reduced-motion: reduce)").matches) play();
