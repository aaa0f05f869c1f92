// Moving the corners of a traced piece by hand: a part of it, enlarged, in which a finger
// drags the corner from wherever it lies, and buttons and arrow keys move it a little.

import { make, drawn } from "/words.js";

const seen = 48, tall = 30; // mm that are enlarged, across and down
const little = 0.1; // mm
const most = 30; // mm

const rounded = (mm) => Math.round(mm * 10) / 10;

// partsOf are the letters and numbers of a path, as the workroom writes it.
const partsOf = (path) => path.match(/[A-Z]|-?[\d.]+/g);

// shifted is a path whose two ends are moved, right and up, with the control points beside
// them.
export function shifted(path, start, end) {
  const parts = partsOf(path);
  const at = [];
  parts.forEach((p, i) => { if (!/[A-Z]/.test(p)) at.push(i); });
  const move = (k, by) => {
    parts[at[k]] = String(rounded(+parts[at[k]] + by[0]));
    parts[at[k + 1]] = String(rounded(+parts[at[k + 1]] - by[1]));
  };
  const n = at.length, curvedStart = parts[at[2] - 1] === "C", curvedEnd = parts.findLast((p) => /[A-Z]/.test(p)) === "C";
  move(0, start);
  if (curvedStart) move(2, start);
  move(n - 2, end);
  if (curvedEnd) move(n - 4, end);
  return parts.join(" ");
}

// cornerMover is the part of a sheet that moves corners: moved says how far each lies right
// of and above where it was seen, changed is told the paths of the edges.
export function cornerMover(piece, moved, changed) {
  const n = piece.edges.length;
  let at = 0;
  const from = piece.edges.map((e) => partsOf(e.path).slice(1, 3).map(Number));
  const paths = () => piece.edges.map((e, i) => shifted(e.path, moved[i], moved[(i + 1) % n]));
  const glass = drawn("svg", { class: "glass", tabindex: "0", role: "group" });
  const buttons = from.map((_, i) => make("button", { type: "button", "aria-label": "corner " + (i + 1), onclick: () => choose(i) }, String(i + 1)));
  const far = make("output", {});
  const way = (words, sign, x, y) => make("button", { type: "button", "aria-label": `${words} by ${little} mm`, onclick: () => by(x, y) }, sign);
  const draw = () => {
    const [x, y] = from[at], [right, up] = moved[at];
    glass.setAttribute("viewBox", `${x - seen / 2} ${y - tall / 2} ${seen} ${tall}`);
    glass.setAttribute("aria-label", `corner ${at + 1}: drag it, or press the arrow keys`);
    const grid = [];
    for (let k = -25; k <= 25; k += 5) grid.push(`M${x + k} ${y - 25}V${y + 25}M${x - 25} ${y + k}H${x + 25}`);
    glass.replaceChildren(drawn("path", { d: grid.join(""), class: "grid" }), ...piece.edges.map((e) => drawn("path", { d: e.path, class: "was" })),
      ...paths().map((d) => drawn("path", { d, class: "edge" })), drawn("circle", { cx: x + right, cy: y - up, r: 1.6, class: "held" }));
    buttons.forEach((b, i) => b.setAttribute("aria-pressed", String(i === at)));
    far.textContent = right || up ? wordsOf(at) : "as it was seen";
    back.disabled = !right && !up;
  };
  const wordsOf = (i) => {
    const [right, up] = moved[i].map(rounded), said = [];
    if (right) said.push(`${Math.abs(right)} ${right > 0 ? "right" : "left"}`);
    if (up) said.push(`${Math.abs(up)} ${up > 0 ? "up" : "down"}`);
    return `${i + 1}: ${said.join(", ")}`;
  };
  const put = (right, up) => {
    const long = Math.hypot(right, up), least = Math.min(1, most / (long || 1));
    moved[at] = [rounded(right * least), rounded(up * least)];
    draw();
    changed(paths());
  };
  const by = (x, y) => put(moved[at][0] + x, moved[at][1] + y);
  const choose = (i) => { at = i; draw(); };
  const back = make("button", { type: "button", onclick: () => put(0, 0) }, "Put it back");
  let held = null; // where the finger came down, and how far the corner was moved then
  glass.onpointerdown = (event) => {
    held = { x: event.clientX, y: event.clientY, was: moved[at] };
    glass.setPointerCapture(event.pointerId);
  };
  glass.onpointermove = (event) => {
    if (!held) return;
    const mm = seen / glass.getBoundingClientRect().width;
    put(held.was[0] + (event.clientX - held.x) * mm, held.was[1] - (event.clientY - held.y) * mm);
  };
  glass.onpointerup = glass.onpointercancel = () => { held = null; };
  glass.onkeydown = (event) => {
    const to = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (!to) return;
    event.preventDefault();
    const step = event.shiftKey ? 10 * little : little;
    by(to[0] * step, to[1] * step);
  };
  const node = make("details", { className: "corners" }, make("summary", {}, "Move a corner"),
    make("p", { className: "hint" }, "Where it does not lie as on your paper. Corners have numbers against the clock, from the lower left."),
    make("div", { className: "edges" }, ...buttons), glass, make("p", { className: "far" }, far),
    make("div", { className: "ways" }, way("left", "←", -little, 0), way("right", "→", little, 0), way("up", "↑", 0, little), way("down", "↓", 0, -little), back));
  return {
    node,
    show: () => { draw(); changed(paths()); },
    said: () => moved.map((m, i) => (m[0] || m[1] ? wordsOf(i) : "")).filter(Boolean),
  };
}
