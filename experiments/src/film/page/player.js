// The clock of a page, its buttons, its keys and its links to a moment.

const SPEEDS = [0.25, 0.5, 1, 2, 4];
const FREEZE_MS = 1800;

/**
 * Plays `last + 1` frames of `stepS` seconds: `draw(frame)` draws, a fraction while it plays. `stops` are frames at which it
 * stands for a moment while it plays, `events()` the frames that the keys for events go through.
 */
function makePlayer({ last, stepS, stops, events, draw }) {
  let at = 0; // frame, with a fraction while it plays
  let playing = false;
  let before = 0; // time of the last picture, ms
  let frozen = 0; // until then it stands, ms

  function show() {
    draw(at);
    const seconds = (Math.floor(at) * stepS).toFixed(2);
    const whole = (last * stepS).toFixed(2);
    byId("clock").textContent = `${seconds} / ${whole} s`;
    byId("scrub").value = Math.floor(at);
    byId("scrub").setAttribute("aria-valuetext", `${seconds} of ${whole} seconds`);
    byId("moment").setAttribute("href", `#t=${seconds}`);
  }

  function setPlaying(on) {
    playing = on;
    document.body.classList.toggle("playing", on);
    byId("play").setAttribute("aria-label", on ? "Pause" : "Play");
    // Nobody wants every line read out while it plays.
    byId("now").setAttribute("aria-live", on ? "off" : "polite");
  }

  function go(frame) {
    at = Math.min(Math.max(Math.round(frame), 0), last);
    show();
  }

  function pause() {
    setPlaying(false);
    at = Math.floor(at);
    show();
  }

  function play() {
    if (at >= last) at = 0;
    setPlaying(true);
    before = performance.now();
    frozen = 0;
    requestAnimationFrame(tick);
  }

  function tick(now) {
    if (!playing) return;
    // A page that was out of sight goes on where it was.
    const passed = Math.min(Math.max(now - before, 0), 250) / 1000;
    before = now;
    if (now >= frozen) {
      const next = Math.min(at + (passed / stepS) * Number(byId("speed").value), last);
      const stop = byId("frozen").checked ? stops.find((frame) => at < frame && frame <= next) : undefined;
      if (stop !== undefined) frozen = now + FREEZE_MS;
      at = stop ?? next;
      show();
    }
    if (at >= last) pause();
    else requestAnimationFrame(tick);
  }

  const toggle = () => (playing ? pause() : play());
  function seek(frame) {
    pause();
    go(frame);
  }
  const step = (frames) => seek(at + frames);
  const next = () => seek(events().find((frame) => frame > at) ?? last);
  const previous = () => seek(events().findLast((frame) => frame < Math.floor(at)) ?? 0);

  function faster(by) {
    const speed = byId("speed");
    const place = SPEEDS.indexOf(Number(speed.value)) + by;
    speed.value = SPEEDS[Math.min(Math.max(place, 0), SPEEDS.length - 1)];
  }

  const second = Math.round(1 / stepS);
  const onClick = {
    play: toggle, back: () => step(-1), forward: () => step(1), start: () => seek(0), end: () => seek(last),
    earlier: previous, later: next,
  };
  for (const [id, action] of Object.entries(onClick)) byId(id).addEventListener("click", action);
  byId("scrub").max = last;
  byId("scrub").addEventListener("input", (event) => seek(Number(event.target.value)));

  const onKey = {
    " ": toggle,
    ArrowLeft: (event) => step(event.shiftKey ? -second : -1),
    ArrowRight: (event) => step(event.shiftKey ? second : 1),
    ArrowDown: next,
    ArrowUp: previous,
    Home: () => seek(0),
    End: () => seek(last),
    "+": () => faster(1),
    "=": () => faster(1),
    "-": () => faster(-1),
  };
  // Only while the floor has the focus: everywhere else a key does what it always does.
  byId("stage").addEventListener("keydown", (event) => {
    const action = onKey[event.key];
    if (!action || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    action(event);
  });

  /** Goes to the moment that the address names; whether it names one. */
  function follow() {
    const seconds = Number(/^#t=(\d+(?:\.\d+)?)$/.exec(location.hash)?.[1]);
    if (Number.isNaN(seconds)) return false;
    seek(seconds / stepS);
    return true;
  }
  addEventListener("hashchange", follow);
  // Inside another page there is no address that could be passed on.
  byId("moment").hidden = location.protocol === "about:";

  return {
    seek,
    show,
    /** To the moment of the address, or from the start: by itself where nobody asked for less motion. */
    begin() {
      show();
      if (!follow() && !matchMedia("(prefers-reduced-motion: reduce)").matches) play();
    },
  };
}

/** Which lines of a trace are shown: the ball's, with moves, with thoughts. */
const TIERS = { ball: 0, moves: 1, thoughts: 2 };
const tierShown = () => TIERS[byId("tier").value];

/** A list of lines that lead to their moments. */
function makeTrace(list, told, seek) {
  const lines = [...list.querySelectorAll("button")];
  const tiers = lines.map((line) => TIERS[line.dataset.tier]);
  lines.forEach((line, n) => line.addEventListener("click", () => seek(told[n])));
  return {
    /** Frames of the lines that are shown. */
    frames: () => told.filter((_, n) => tiers[n] <= tierShown()),
    filter: () => lines.forEach((line, n) => { line.parentElement.hidden = tiers[n] > tierShown(); }),
    /** Marks the line of a frame; its words. */
    read(i) {
      let current = 0;
      told.forEach((frame, n) => { if (frame <= i && tiers[n] <= tierShown()) current = n; });
      lines.forEach((line, n) => {
        if (n === current) line.setAttribute("aria-current", "step");
        else line.removeAttribute("aria-current");
        line.classList.toggle("ahead", told[n] > i);
      });
      const item = lines[current].parentElement;
      const [top, bottom] = [item.offsetTop, item.offsetTop + item.offsetHeight];
      if (top < list.scrollTop || bottom > list.scrollTop + list.clientHeight) list.scrollTop = top - list.clientHeight / 3;
      return lines[current].textContent.trim().replace(/\s+/g, " ");
    },
  };
}

/** The row of who has the ball, over the bar of time. */
function drawHolders(film, row, whole) {
  const share = (frame) => (100 * Math.min(frame, whole)) / Math.max(whole, 1);
  film.reel.holder.forEach(([first, player], n) => {
    const end = n + 1 < film.reel.holder.length ? film.reel.holder[n + 1][0] : film.last;
    const span = document.createElement("span");
    span.className = player < 0 ? "aloft" : attacks(player) ? "held" : "stolen";
    span.textContent = player < 0 ? "" : film.reel.players[player].mark;
    span.style.left = `${share(first)}%`;
    span.style.width = `${share(end) - share(first)}%`;
    row.append(span);
  });
}

/** A tick box that switches something of the floor. */
function onTick(id, action) {
  const box = byId(id);
  const act = () => {
    explain(id, box.checked);
    action(box.checked);
  };
  box.addEventListener("change", act);
  act();
}

/** The legend names what is drawn and nothing else. */
function explain(id, shown) {
  for (const entry of document.querySelectorAll(`.legend [data-of="${id}"]`)) entry.hidden = !shown;
}
