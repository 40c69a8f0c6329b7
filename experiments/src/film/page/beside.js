// The page of one possession under two variants: two floors, one clock.

const films = [0, 1].map((n) => reelOf(`reel-${n}`));
const parting = Number(document.querySelector("#parting button")?.dataset.time ?? NaN);
const stepS = films[0].reel.step_s;
const whole = Math.max(...films.map((film) => film.last));
const parts = Number.isNaN(parting) ? -1 : Math.ceil(parting / stepS - 1e-3);

/** The least box that holds both. */
function around([a, b]) {
  const [left, top] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
  const [right, bottom] = [Math.max(a[0] + a[2], b[0] + b[2]), Math.max(a[1] + a[3], b[1] + b[3])];
  return [left, top, right - left, bottom - top];
}
const used = around(films.map((film) => film.reel.used_cm));
const wanted = { trails: true, lanes: true, believed: false, guards: false, route: true, chosen: -1, box: used };
const stages = films.map((film, n) => makeStage(film, byId(`floor-${n}`), wanted));
const traces = films.map((film, n) => makeTrace(byId(`trace-${n}`), film.reel.told, (frame) => player.seek(frame)));

const player = makePlayer({
  last: whole,
  stepS,
  stops: [parts, ...films.flatMap((film) => film.reel.shots.map((shot) => shot.frame))].filter((frame) => frame > 0).sort((a, b) => a - b),
  events: () => traces.flatMap((trace) => trace.frames()).sort((a, b) => a - b),
  draw(frame) {
    const said = films.map((film, n) => {
      // Whichever is over first stands still at its end.
      const own = Math.min(frame, film.last);
      stages[n].draw(own);
      const words = traces[n].read(Math.floor(own));
      byId(`here-${n}`).textContent = words;
      return words;
    });
    const words = said[0] === said[1] ? said[0] : said.join(" | ");
    if (byId("now").textContent !== words) byId("now").textContent = words;
  },
});

function fit() {
  if (stages.map((stage) => stage.fit()).every(Boolean)) player.show();
}

for (const button of document.querySelectorAll("#parting button")) {
  button.addEventListener("click", () => player.seek(Math.round(Number(button.dataset.time) / stepS)));
}
for (const [id, part] of [["trailed", "trails"], ["laned", "lanes"], ["guarded", "guards"], ["routed", "route"]]) {
  onTick(id, (on) => {
    wanted[part] = on;
    player.show();
  });
}
onTick("zoomed", (on) => {
  wanted.box = on ? used : films[0].reel.frame_cm;
  fit();
});
byId("tier").addEventListener("change", () => {
  traces.forEach((trace) => trace.filter());
  player.show();
});
new ResizeObserver(fit).observe(byId("stage"));
films.forEach((film, n) => drawHolders(film, byId(`holders-${n}`), whole));
byId("parts").hidden = parts < 0;
byId("parts").style.left = `${(100 * parts) / Math.max(whole, 1)}%`;
traces.forEach((trace) => trace.filter());
player.begin();
