
// Defenders moved by hand: the numeric fields are the truth, the floor shows them and writes into them.

const SVG = "http://www.w3.org/2000/svg";
/** Part of the floor that is shown, m: half its width, from behind the baseline, to beyond the arc. */
const FLOOR = { half: 7.9, from: -2, to: 9.5 };

function drawn(kind, attributes, parent) {
  const element = document.createElementNS(SVG, kind);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  parent.append(element);
  return element;
}

/** A floor over the tables of a zone, for the place of the ball that is chosen. */
function makeBoard(panel) {
  const board = panel.querySelector(".board");
  const place = panel.querySelector("select.place");
  const tables = [...panel.querySelectorAll("table.places")];
  const svg = drawn("svg", {
    viewBox: `${-FLOOR.half} ${FLOOR.from} ${2 * FLOOR.half} ${FLOOR.to - FLOOR.from}`,
    role: "group",
    "aria-label": "Where the defenders stand",
    class: "pic moving",
  }, board);

  const rounded = (metres) => Math.round(metres * 10) / 10;
  function at(event) {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [point.x, point.y];
  }

  function show() {
    const table = tables.find((own) => own.dataset.place === place.value);
    for (const own of tables) own.hidden = own !== table;
    svg.replaceChildren();
    drawn("image", { href: `${root}floor.svg`, x: -FLOOR.half, y: FLOOR.from, width: 2 * FLOOR.half, height: FLOOR.to - FLOOR.from }, svg);
    const [x, y] = table.dataset.ball.split(",").map(Number);
    drawn("circle", { class: "ball", cx: x, cy: y, r: 0.22, "stroke-width": 0.06 }, svg);
    for (const row of table.tBodies[0].rows) man(row);
  }

  function man(row) {
    const name = row.cells[0].textContent;
    const fields = [...row.querySelectorAll("input")];
    const mark = drawn("g", { tabindex: 0, role: "button", class: "man" }, svg);
    drawn("rect", { class: "body", x: -0.42, y: -0.42, width: 0.84, height: 0.84, rx: 0.12, "stroke-width": 0.08 }, mark);
    const letters = name.split(" ").map((word) => word[0].toUpperCase()).join("").slice(0, 2);
    drawn("text", { class: "letter mid", y: 0.16 }, mark).textContent = letters;
    const set = (x, y) => {
      const most = [FLOOR.half - 0.4, FLOOR.to - 0.4];
      const least = [0.4 - FLOOR.half, -1.2];
      [x, y].forEach((value, axis) => {
        fields[axis].value = rounded(Math.min(Math.max(value, least[axis]), most[axis]));
      });
      put();
    };
    const now = () => fields.map((field) => Number(field.value));
    function put() {
      const [x, y] = now();
      mark.setAttribute("transform", `translate(${x} ${y})`);
      mark.setAttribute("aria-label", `${name}: ${x} m to the side, ${y} m out; arrow keys move him`);
      const moved = fields.some((field) => Number(field.value) !== Number(field.dataset.usual));
      mark.classList.toggle("moved", moved);
    }
    for (const field of fields) field.addEventListener("input", put);
    mark.addEventListener("keydown", (event) => {
      const by = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] }[event.key];
      if (!by) return;
      event.preventDefault();
      const [x, y] = now();
      set(x + by[0], y + by[1]);
    });
    mark.addEventListener("pointerdown", (event) => {
      mark.setPointerCapture(event.pointerId);
      event.preventDefault();
      mark.focus();
    });
    mark.addEventListener("pointermove", (event) => {
      if (mark.hasPointerCapture(event.pointerId)) set(...at(event));
    });
    put();
  }

  place.addEventListener("change", show);
  show();
}

for (const panel of document.querySelectorAll(".panel details.move")) makeBoard(panel);
