// Words and small parts of the page.

// make is an element with properties and children.
export function make(name, what = {}, ...children) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(what)) {
    if (key === "dataset") Object.assign(node.dataset, value);
    else if (key.startsWith("aria-") || key === "for" || key === "list") node.setAttribute(key, value);
    else node[key] = value;
  }
  node.append(...children.filter((c) => c !== null && c !== undefined));
  return node;
}

const ns = "http://www.w3.org/2000/svg";

// drawn is an element of a drawing.
export function drawn(name, what) {
  const node = document.createElementNS(ns, name);
  for (const [key, value] of Object.entries(what)) node.setAttribute(key, value);
  return node;
}

// counted is a running time: 0:07:12.
export function counted(ms) {
  const s = Math.max(0, Math.floor(ms / 1000)), two = (n) => String(n).padStart(2, "0");
  return `${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
}

// minutes is a time in words: "48 min", "1 h 20 min".
export function minutes(ms) {
  const m = Math.max(1, Math.round(ms / 60000)), h = Math.floor(m / 60);
  if (ms < 30000) return "less than a minute";
  return h === 0 ? `${m} min` : m % 60 === 0 ? `${h} h` : `${h} h ${m % 60} min`;
}

// clockTime is a moment: 14:10, with its day where that is another.
export function clockTime(ms) {
  const t = new Date(ms), two = (n) => String(n).padStart(2, "0");
  const time = `${two(t.getHours())}:${two(t.getMinutes())}`;
  if (t.toDateString() === new Date().toDateString()) return time;
  return `${t.getFullYear()}-${two(t.getMonth() + 1)}-${two(t.getDate())} ${time}`;
}

// number mends what keyboards of other countries offer: 71,2 is 71.2. 1,250 may
// be either and is left for the workroom to ask about.
export function number(text) {
  const s = text.trim().replace("\u2212", "-");
  return /^-?\d+,\d{1,2}(\s*[a-z]+)?$/i.test(s) ? s.replace(",", ".") : s;
}

// about says what a slip is, in a line.
export function about(slip) {
  const step = slip.step || "";
  switch (slip.kind) {
    case "on": return "clock on: " + step;
    case "pause": return "clock paused: " + step;
    case "off": return (slip.done ? "clock off and done: " : "clock off: ") + step;
    case "drop": return "time discarded: " + step;
    case "time": return `${slip.spent} for ${step}`;
    case "done": return "done: " + step;
    case "measured": return `${slip.name} ${slip.value}`;
    case "trace": return "paper piece: " + slip.piece;
    case "altered": return "altered paper: " + slip.piece;
    case "edges": return `edges of ${slip.piece}: ${slip.of.join(", ")}`;
    case "hang": return `hem drop at ${slip.drops.length} places: ${slip.of.join(", ")}`;
  }
  return (slip.photo ? "photograph" : "note") + (slip.note ? ": " + slip.note : "");
}
