// The page of one film: the floor, what is read beside it, and what happened.

const HEIGHT_SHOWN_CM = 500;
const SPACE_SHOWN_CM = 400;

const film = reelOf("reel");
const { reel, told, last, name, holder, look, lanes, stress, views, ballHeight, shotClock } = film;
const wanted = { trails: true, lanes: true, believed: false, guards: false, route: true, chosen: -1, box: reel.used_cm };
const stage = makeStage(film, byId("floor"), wanted, (p) => choose(wanted.chosen === p ? -1 : p));
let shownFrame = -1;

// ---- Readings ------------------------------------------------------------------------------------------

const LOOK_WORDS = ["nobody holds it", "out of his range", "guarded", "not ready to shoot yet", "open", "wide open"];

function fill(ruler, share, open) {
  ruler.querySelector(".fill").style.width = `${100 * Math.min(Math.max(share, 0), 1)}%`;
  ruler.classList.toggle("open", open);
}

function readBall(i) {
  const flight = film.flightAt(i);
  const words = holder[i] >= 0 ? `${name(holder[i])} has it` : flight ? flight.words : "dead";
  byId("ball-words").textContent = words;
  byId("height-words").textContent = `${told.length(ballHeight[i])} high`;
  fill(byId("height"), ballHeight[i] / HEIGHT_SHOWN_CM, false);
  byId("shot-clock").textContent = shotClock ? `${(shotClock[i] / 10).toFixed(1)} s on the shot clock, ${(shotClock[0] / 10).toFixed(1)} when this began` : "no shot clock";
}

/** The last shot by now, or the first one to come. */
function readShot(i) {
  const shot = reel.shots.findLast(({ frame }) => frame <= i) ?? reel.shots[0];
  if (!shot) return;
  const seconds = (shot.frame * reel.step_s).toFixed(1);
  byId("shot-m").textContent = told.room(shot.space);
  byId("shot-words").textContent = `of room, ${shot.open ? "open" : "contested"}`;
  byId("shot-who").textContent = `${shot.chance} % to go in; ${name(shot.by)} at ${seconds} s, a ${shot.three ? "three" : "two"} from ${told.length(shot.far)}`;
}

function readLook(i) {
  // As he shoots, what the shot counts: the defender has come on since the last look.
  const shot = reel.shots.find(({ frame }) => frame === i);
  const space = shot ? shot.space : look.space[i];
  byId("look-m").textContent = space < 0 ? "–" : shot ? told.room(space) : told.exact(space);
  byId("look-words").textContent = shot ? `${shot.open ? "open" : "guarded"}, as he shoots` : LOOK_WORDS[look.state[i]];
  byId("look-who").textContent = space < 0 ? " " : `${name(look.nearest[i])} to ${name(holder[i])}`;
  fill(byId("look"), space / SPACE_SHOWN_CM, shot ? shot.open : look.state[i] >= 4);
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
    way.replaceChildren(sample, `${told.room(clear[i])}, ${WAY_CLASSES[state[i]]}`);
    chance.textContent = believed[i] < 0 ? "–" : `${believed[i]} %`;
  });
}

function readStress(i) {
  const late = stress.late[i];
  byId("late-s").textContent = late < 0 ? "–" : `${(late / 100).toFixed(2)} s`;
  byId("late-words").textContent = late < 0 ? "not measured now" : late === 0 ? "in time everywhere" : `late for ${name(stress.lateFor[i])}`;
  byId("gap-words").textContent = late < 0 ? " " : `${told.length(stress.gap[i])} between the lines, widest seam ${told.length(stress.seam[i])}`;
}

function readView(i) {
  const list = byId("ages");
  list.hidden = wanted.chosen < 0;
  if (wanted.chosen < 0) {
    const often = (1 / (reel.views.every * reel.step_s)).toFixed(0);
    byId("knows").textContent = `Hollow marks will show where he believes the others to be, ${often} times a second.`;
    return;
  }
  const k = Math.floor(i / reel.views.every);
  const view = views[wanted.chosen];
  const tenths = Math.round(k * reel.views.every * reel.step_s * 10);
  const lost = reel.players.filter((_, p) => (view.lost[k] >> p) & 1).map((player) => player.name);
  const sight = view.seesBall[k] ? "Sees the ball." : "Does not see the ball.";
  byId("knows").textContent = `${sight} ${lost.length ? `Has lost ${lost.join(", ")}.` : "Has lost nobody."} Last saw them so long ago:`;
  list.replaceChildren(...reel.players.flatMap((player, p) => {
    if (p === wanted.chosen) return [];
    const item = document.createElement("li");
    item.className = (view.lost[k] >> p) & 1 ? "lost" : "";
    const age = document.createElement("span");
    age.textContent = `${(Math.max(tenths - view.asOf[p][k], 0) / 10).toFixed(1)} s`;
    item.append(player.mark, age);
    return [item];
  }));
}

// ---- The strip -----------------------------------------------------------------------------------------

function drawStrip() {
  const share = (frame) => (100 * frame) / Math.max(last, 1);
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

// ---- Drawing, playing ----------------------------------------------------------------------------------

const trace = makeTrace(byId("trace"), reel.told, (frame) => player.seek(frame));
const player = makePlayer({
  last,
  stepS: reel.step_s,
  stops: reel.shots.map((shot) => shot.frame),
  events: trace.frames,
  draw(frame) {
    stage.draw(frame);
    const i = Math.floor(frame);
    if (i === shownFrame) return;
    shownFrame = i;
    for (const read of [readBall, readLook, readShot, readPasses, readStress, readView]) read(i);
    const words = trace.read(i);
    if (byId("now").textContent !== words) byId("now").textContent = words;
  },
});

function redraw() {
  shownFrame = -1;
  player.show();
}

function choose(who) {
  wanted.chosen = who;
  byId("who").value = who;
  explain("who", who >= 0);
  redraw();
}

// ---- Hands ---------------------------------------------------------------------------------------------

byId("who").addEventListener("change", (event) => choose(Number(event.target.value)));
byId("see-shot").hidden = reel.shots.length === 0;
byId("to-shot").addEventListener("click", () => {
  const shot = reel.shots.find(({ frame }) => frame > shownFrame) ?? reel.shots[0];
  player.seek(shot.frame);
});
for (const [id, part] of [["trailed", "trails"], ["laned", "lanes"], ["believed", "believed"], ["guarded", "guards"], ["routed", "route"]]) {
  onTick(id, (on) => {
    wanted[part] = on;
    redraw();
  });
}
onTick("zoomed", (on) => {
  wanted.box = on ? reel.used_cm : reel.frame_cm;
  if (stage.fit()) redraw();
});
byId("tier").addEventListener("change", () => {
  trace.filter();
  redraw();
});
new ResizeObserver(() => {
  if (stage.fit()) redraw();
}).observe(byId("floor"));

byId("rim-mark").style.left = `${(100 * reel.rim_cm) / HEIGHT_SHOWN_CM}%`;
byId("open-mark").style.left = `${(100 * reel.look.open_cm) / SPACE_SHOWN_CM}%`;
byId("wide-mark").style.left = `${(100 * reel.look.wide_open_cm) / SPACE_SHOWN_CM}%`;
drawHolders(film, byId("holders"), last);
drawStrip();
trace.filter();
choose(-1);
player.begin();
