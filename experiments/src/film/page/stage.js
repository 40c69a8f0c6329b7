// A floor on which a film is drawn. Between two frames only places and directions are drawn in between.

const WAY_CLASSES = ["", "arm", "lunge", "clear"];
const [WAVE_CM, SWING_CM] = MARK.wave; // length of a dribble's wave, and how far it swings

function svg(tag, attributes, parent) {
  const element = document.createElementNS(document.querySelector("svg").namespaceURI, tag);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (parent) parent.append(element);
  return element;
}

/**
 * Draws a film on a floor. `wanted` says what is to be seen besides the players: `trails`, `lanes`, `believed`, `guards`,
 * `route`, the `chosen` player whose beliefs are shown, and the `box` of the floor.
 */
function makeStage(film, floor, wanted, onPick = () => {}) {
  const { reel, last, x, y, face, holder, braced, lanes, views } = film;
  const layer = (name) => floor.querySelector(`.${name}`);
  const trailFrames = Math.round(2 / reel.step_s);
  let scale = 1; // marks are drawn larger where the floor is small

  /** Value of a track at a time between two frames; what jumps is not drawn in between. */
  function between(values, frame, most) {
    const i = Math.floor(frame);
    const step = i < last ? values[i + 1] - values[i] : 0;
    return Math.abs(step) > most ? values[i] : values[i] + step * (frame - i);
  }
  const place = (player, frame) => [between(x[player], frame, 120), between(y[player], frame, 120)];

  /** How far each attacker has come, cm, so that a wave stays where it is drawn. */
  const come = lanes.map((_, p) => {
    let sum = 0;
    return Float64Array.from(x[p], (_, f) => (sum += f ? Math.hypot(x[p][f] - x[p][f - 1], y[p][f] - y[p][f - 1]) : 0));
  });

  const marks = reel.players.map((player, p) => {
    const group = svg("g", { class: `mark ${attacks(p) ? "attack" : "defence"}` }, layer("marks"));
    svg("circle", { class: "ring", r: 62 }, group);
    const turns = svg("g", {}, group);
    if (attacks(p)) {
      svg("path", { class: "nose", d: MARK.noses[0] }, turns);
      svg("circle", { r: MARK.disc }, group);
    } else {
      svg("path", { class: "nose", d: MARK.noses[1] }, turns);
      const [corner, side] = [-MARK.square, 2 * MARK.square];
      svg("rect", { class: "body", x: corner, y: corner, width: side, height: side, rx: 8 }, group);
    }
    svg("text", { y: attacks(p) ? 17 : 13, class: player.mark.length > 2 ? "long" : "" }, group).textContent = player.mark;
    svg("title", {}, group).textContent = player.name;
    group.addEventListener("click", () => onPick(p));
    return { group, turns };
  });
  const shadow = svg("circle", { class: "shadow", r: 22 }, layer("ball-layer"));
  const ball = svg("circle", { class: "ball", r: 24 }, layer("ball-layer"));
  const trails = reel.players.map((_, p) => {
    const kinds = attacks(p) ? ["run", "dribble", "braced"] : ["follow"];
    return kinds.map((kind) => ({ kind, path: svg("path", { class: `trail ${kind}` }, layer("trails")) }));
  });
  const passTrail = svg("path", { class: "trail pass" }, layer("trails"));
  const shotTrail = svg("path", { class: "trail shot" }, layer("trails"));
  const ways = lanes.map(() => svg("path", { class: "way" }, layer("ways")));
  const air = svg("path", { class: "air" }, layer("flight"));
  const airEnd = svg("circle", { class: "air-end", r: 26 }, layer("flight"));

  /** How a player moves in a frame, for the style of his trail. */
  function motion(p, frame) {
    if (!attacks(p)) return "follow";
    if (holder[frame] === p) return "dribble";
    return braced[p][frame] ? "braced" : "run";
  }

  /** The way of a dribble from one frame to the next: a wave. */
  function wave(p, f) {
    const [dx, dy] = [x[p][f + 1] - x[p][f], y[p][f + 1] - y[p][f]];
    const length = Math.hypot(dx, dy);
    if (length < 1) return "";
    const steps = Math.ceil(length / 8);
    let way = "";
    for (let n = 1; n <= steps; n += 1) {
      const share = n / steps;
      const swing = (SWING_CM * Math.sin((2 * Math.PI * (come[p][f] + share * length)) / WAVE_CM)) / length;
      way += `L${(x[p][f] + share * dx - swing * dy).toFixed(0)} ${(y[p][f] + share * dy + swing * dx).toFixed(0)}`;
    }
    return way;
  }

  function drawTrails(frame) {
    layer("trails").style.display = wanted.trails ? "" : "none";
    if (!wanted.trails) return;
    const now = Math.floor(frame);
    const first = Math.max(0, now - trailFrames);
    trails.forEach((paths, p) => {
      const way = { run: "", dribble: "", braced: "", follow: "" };
      for (let f = first; f < now; f += 1) {
        const jumps = Math.hypot(x[p][f + 1] - x[p][f], y[p][f + 1] - y[p][f]) > 120;
        if (jumps) continue;
        const kind = motion(p, f + 1);
        const goes = f > first && motion(p, f) === kind && way[kind] !== "";
        if (!goes) way[kind] += `M${x[p][f]} ${y[p][f]}`;
        way[kind] += kind === "dribble" ? wave(p, f) : `L${x[p][f + 1]} ${y[p][f + 1]}`;
      }
      const kind = motion(p, now);
      if (way[kind] !== "" && kind !== "dribble") way[kind] += `L${place(p, frame).join(" ")}`;
      // Who stands braced hardly moves: a bar is drawn where he stands.
      if (way.braced !== "" && kind === "braced") way.braced += bar(p, now);
      for (const { kind: own, path } of paths) path.setAttribute("d", way[own]);
    });
    const flown = (kind) => reel.flights.filter((f) => f.kind === kind && f.last >= first && f.last < now);
    const way = (f) => [f.from, [x[BALL][f.last + 1], y[BALL][f.last + 1]]];
    const line = ([from, to]) => `M${from.join(" ")}L${to.join(" ")}`;
    passTrail.setAttribute("d", flown("pass").map((f) => line(way(f))).join(""));
    shotTrail.setAttribute("d", flown("shot").map((f) => line(way(f))).join(""));
  }

  /** A bar across the way that a braced player faces, before him. */
  function bar(p, frame) {
    const angle = (face[p][frame] * Math.PI) / 180;
    const [off, half] = MARK.bar;
    const [bx, by] = [x[p][frame] + Math.cos(angle) * off, y[p][frame] + Math.sin(angle) * off];
    const [dx, dy] = [-Math.sin(angle) * half, Math.cos(angle) * half];
    return `M${x[p][frame]} ${y[p][frame]}L${bx} ${by}M${bx - dx} ${by - dy}L${bx + dx} ${by + dy}`;
  }

  function drawWays(frame) {
    const i = Math.floor(frame);
    const shown = wanted.lanes && holder[i] >= 0;
    ways.forEach((way, mate) => {
      const state = lanes[mate].state[i];
      way.style.display = shown && state > 0 ? "" : "none";
      if (!shown || state === 0) return;
      way.setAttribute("class", `way ${WAY_CLASSES[state]}`);
      way.setAttribute("d", `M${place(holder[i], frame).join(" ")}L${place(mate, frame).join(" ")}`);
    });
  }

  /** The lanes as the man with the ball believes them: to where he believes his mates to be, with the chance he gives it. */
  function drawBelieved(frame) {
    const group = layer("believed");
    group.replaceChildren();
    const i = Math.floor(frame);
    const by = holder[i];
    if (!wanted.believed || by < 0 || !attacks(by)) return;
    const k = Math.floor(i / reel.views.every);
    const sampled = Math.min(k * reel.views.every, last);
    const from = place(by, frame);
    lanes.forEach((lane, mate) => {
      if (lane.chance[i] < 0) return;
      const to = [x[mate][sampled] + views[by].x[mate][k], y[mate][sampled] + views[by].y[mate][k]];
      svg("path", { class: "believed-way", d: `M${from.join(" ")}L${to.join(" ")}` }, group);
      label(group, between2(from, to, 0.5), `${lane.chance[i]} %`, "believed-words");
    });
  }
  const between2 = (a, b, share) => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];

  function drawGuards(frame) {
    const group = layer("guards");
    group.replaceChildren();
    if (!wanted.guards) return;
    const i = Math.floor(frame);
    film.guards.forEach((whom, d) => {
      if (whom[i] < 0) return;
      const kind = film.onBall[i] === 5 + d ? "guard on-ball" : "guard";
      svg("path", { class: kind, d: `M${place(5 + d, frame).join(" ")}L${place(whom[i], frame).join(" ")}` }, group);
    });
  }

  /** The route as its file has it, and the way that was run so far. */
  function drawRoute(frame) {
    const group = layer("route");
    group.replaceChildren();
    if (!wanted.route) return;
    const i = Math.floor(frame);
    for (const route of reel.drawn.filter((r) => r.first <= i && i <= r.last + film.second)) {
      svg("path", { class: "route-drawn", d: `M${route.places.map((at) => at.join(" ")).join("L")}` }, group);
      route.places.slice(1).forEach(([cx, cy]) => svg("circle", { class: "route-place", cx, cy, r: 15 }, group));
      let run = "";
      for (let f = route.first; f <= Math.min(i, route.last); f += 2) run += `${run ? "L" : "M"}${x[route.by][f]} ${y[route.by][f]}`;
      svg("path", { class: "route-run", d: run }, group);
    }
  }

  /** Who has a dead ball: whoever stands where it is, or took the rebound. */
  function atHand(i) {
    const near = reel.players.findIndex((_, p) => Math.hypot(x[p][i] - x[BALL][i], y[p][i] - y[BALL][i]) < 60);
    return near >= 0 ? near : rebounder(i);
  }

  /** Where a held ball is drawn: before its holder, or turned aside as far as it must be to cover nobody's number. */
  function inHand(hands, frame) {
    const [px, py] = stands[hands];
    const facing = between(face[hands], frame, 400);
    const spots = [0, 45, -45, 90, -90, 135, -135, 180].map((turn) => {
      const angle = ((facing + turn) * Math.PI) / 180;
      return [px + Math.cos(angle) * 66 * scale, py + Math.sin(angle) * 66 * scale];
    });
    const room = ([sx, sy]) => Math.min(...stands.map(([ox, oy], p) => (p === hands ? Infinity : Math.hypot(sx - ox, sy - oy))));
    return spots.find((spot) => room(spot) >= 52 * scale) ?? spots.reduce((a, b) => (room(b) > room(a) ? b : a));
  }

  function drawBall(frame) {
    const i = Math.floor(frame);
    const hands = holder[i] >= 0 || film.flightAt(i) ? holder[i] : atHand(i);
    let [bx, by] = place(BALL, frame);
    const height = between(film.ballHeight, frame, 1000);
    const flight = film.flightAt(i);
    air.style.display = airEnd.style.display = flight ? "" : "none";
    air.setAttribute("class", flight && flight.kind === "shot" ? "air shot" : "air");
    if (flight) {
      air.setAttribute("d", `M${flight.from.join(" ")}L${flight.to.join(" ")}`);
      airEnd.setAttribute("cx", flight.to[0]);
      airEnd.setAttribute("cy", flight.to[1]);
    }
    if (hands >= 0) [bx, by] = inHand(hands, frame);
    const size = (0.75 + height / 500) * scale;
    ball.setAttribute("transform", `translate(${bx} ${by}) scale(${size})`);
    shadow.setAttribute("transform", `translate(${bx + height * 0.12} ${by + height * 0.17}) scale(${0.75 * scale})`);
  }

  function drawView(frame) {
    const group = layer("view");
    group.replaceChildren();
    const { chosen } = wanted;
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
      else if (attacks(other)) svg("circle", { class: kind, r: MARK.disc }, ghost);
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

  let stands = []; // where the marks are drawn: words have to keep clear of them
  let said = []; // the words that are there: middle and half width
  let lined = []; // places along lines, on which no words lie where there is room beside them

  /** Places along a line. */
  const along = (from, to) => [...Array(24).keys()].map((nth) => between2(from, to, nth / 23));

  /** Words near a place, where they cover no player's number and no other words. */
  function label(group, [lx, ly], words, kind) {
    const size = 40 * scale;
    const [wide, high] = [words.length * size * 0.32 + 48 * scale, 66 * scale];
    const spots = [[0, 0]];
    for (const far of [70, 110, 150, 190, 240, 300, 370]) for (let n = 0; n < 12; n += 1) {
      spots.push([far * scale * Math.cos((n * Math.PI) / 6), far * scale * Math.sin((n * Math.PI) / 6)]);
    }
    const [left, top, width, height] = wanted.box;
    const free = ([dx, dy]) => {
      const [cx, cy] = [lx + dx, ly + dy];
      const inside = cx - wide > left - 30 && cx + wide < left + width + 30 && cy - high > top && cy + high / 2 < top + height;
      const clear = ([px, py], more, taller) => Math.abs(px - cx) > wide + more || Math.abs(py - cy) > high + taller;
      const players = stands.every((at) => clear(at, 0, 0));
      return inside && players && said.every(([at, half]) => clear(at, half - 48 * scale, -20 * scale));
    };
    const open = spots.filter(free);
    const beside = ([dx, dy]) => lined.every(([px, py]) =>
      Math.abs(px - lx - dx) > wide - 40 * scale || Math.abs(py - ly - dy) > high - 36 * scale);
    const [dx, dy] = open.find(beside) ?? open[0] ?? [0, -110 * scale];
    said.push([[lx + dx, ly + dy], wide]);
    const text = svg("text", { class: `words ${kind}`, x: lx + dx, y: ly + dy + size * 0.35, "font-size": size }, group);
    text.textContent = words;
  }

  /** What is said on the floor: the shot as it leaves the hands, who has the rebound, and that play starts again. */
  function drawNotes(frame) {
    const group = layer("notes");
    group.replaceChildren();
    const i = Math.floor(frame);
    const shot = film.shotAt(i);
    lined = [];
    if (shot) {
      const [from, near] = [place(shot.by, frame), film.look.nearest[i]];
      lined = along(from, [0, 0]);
      if (near >= 0) {
        const to = place(near, frame);
        lined.push(...along(from, to));
        svg("path", { class: "space", d: `M${from.join(" ")}L${to.join(" ")}` }, group);
        label(group, between2(from, to, 0.5), film.told.room(shot.space), "space-words");
      }
      svg("path", { class: "shot-way", d: `M${from.join(" ")}L0 0` }, group);
      label(group, between2(from, [0, 0], 0.35), `${shot.chance} % to go in`, "shot-words");
    }
    const caught = rebounder(i);
    marks.forEach(({ group: mark }, p) => mark.classList.toggle("rebounder", p === caught));
    if (caught >= 0) label(group, place(caught, frame), "rebound", "rebound-words");
    const again = reel.restarts.some((first) => first <= i && i <= first + film.second);
    if (again) label(group, [wanted.box[0] + wanted.box[2] / 2, wanted.box[1] + wanted.box[3] - 90 * scale], "play starts again", "restart-words");
  }

  /** Where the marks stand: a little apart where one would cover another's number. */
  function apart(frame) {
    const at = marks.map((_, p) => place(p, frame));
    const least = 80 * scale;
    for (let pass = 0; pass < 6; pass += 1) at.forEach((a, p) => at.slice(0, p).forEach((b) => {
      const [dx, dy] = [a[0] - b[0], a[1] - b[1]];
      const gap = Math.hypot(dx, dy);
      if (gap >= least) return;
      const [ux, uy] = gap > 0.01 ? [dx / gap, dy / gap] : [0, 1];
      const push = (least - gap) / 2;
      a[0] += push * ux; a[1] += push * uy;
      b[0] -= push * ux; b[1] -= push * uy;
    }));
    return at;
  }

  /** Who has taken a rebound a moment ago; -1 nobody. */
  function rebounder(i) {
    const rebound = reel.rebounds.findLast(([first]) => first <= i && i <= first + film.second);
    return rebound ? rebound[1] : -1;
  }

  function drawMarks(frame) {
    const i = Math.floor(frame);
    marks.forEach(({ group, turns }, p) => {
      const [px, py] = stands[p];
      group.setAttribute("transform", `translate(${px} ${py}) scale(${scale})`);
      turns.setAttribute("transform", `rotate(${between(face[p], frame, 400)})`);
      group.classList.toggle("chosen", p === wanted.chosen);
      group.classList.toggle("braced", attacks(p) && braced[p][i] === 1);
    });
  }

  return {
    draw(frame) {
      stands = apart(frame);
      said = [];
      for (const part of [drawTrails, drawRoute, drawGuards, drawWays, drawNotes, drawBelieved, drawView, drawMarks, drawBall]) part(frame);
    },
    /** Shows the part of the floor that is wanted; `false` while it has no width. */
    fit() {
      floor.setAttribute("viewBox", wanted.box.join(" "));
      const pixels = floor.getBoundingClientRect().width / wanted.box[2];
      if (pixels === 0) return false;
      scale = Math.max(1, 12 / (40 * pixels));
      return true;
    },
  };
}
