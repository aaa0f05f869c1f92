// What was taken down on this phone: refused, waiting, kept.

import * as keep from "/keep.js";
import * as send from "/send.js";
import { page, tell } from "/bench.js";
import { make, about, clockTime } from "/words.js";
import { changeSlip, mayChange, form, field } from "/sheets.js";

let shown = "";

// drawEntries fills the sheet; where nothing has changed it is left alone.
export function drawEntries(body) {
  const key = JSON.stringify(page.slips.map((one) => [one.n, one.state, one.said, one.ask])) + send.link.state + !!install;
  if (shown === key && body.childElementCount) return;
  shown = key;
  const of = (state) => page.slips.filter((one) => one.state === state);
  const refused = of("refused"), waiting = of("waiting"), kept = of("kept").reverse();
  body.replaceChildren(
    ...group("Needs you", refused, "", (one) => refusedEntry(one)),
    ...group("On this phone", waiting, linkWords(), (one) => entry(one, one.said)),
    ...group("Sent", kept, kept.length ? "" : "Nothing yet.", (one) => entry(one, one.said)),
    foot(waiting.length + refused.length),
  );
}

function group(title, list, words, draw) {
  if (!list.length && title !== "Sent") return [];
  return [make("h3", {}, list.length ? `${title}: ${list.length}` : title), words ? make("p", { className: "hint" }, words) : null,
    list.length ? make("ol", { className: "entries" }, ...list.map(draw)) : null].filter(Boolean);
}

function linkWords() {
  switch (send.link.state) {
    case "away": return "Not connected. Safe on this phone; sent when it is.";
    case "door": return "Type the code shown on the computer; then they are sent.";
  }
  return "";
}

function entry(one, said, ...more) {
  return make("li", { dataset: { state: one.state } }, make("span", { className: "what" }, about(one.slip)),
    make("small", {}, `${clockTime(one.slip.at)}, ${page.view?.builds.find((b) => b.slug === one.slip.build)?.name || one.slip.build}`),
    said ? make("span", { className: "why" }, said) : null, ...more);
}

// refusedEntry offers what can be done about a slip that was refused.
function refusedEntry(one) {
  const choices = make("div", { className: "choices" });
  const choice = (words, act) => choices.append(make("button", { type: "button", onclick: act }, words));
  const instead = (slip) => keep.add({ ...one.slip, id: "", ...slip }, { instead: one.n }).then(send.wake);
  if (one.ask) {
    const closed = one.ask.closed - send.link.skew;
    if (one.ask.ran) choice(`I worked all that time: ${one.ask.ran}`, () => instead({ sure: true }));
    if (one.ask.closed) choice(`I stopped at ${clockTime(closed)}: ${one.ask.closedRan}`, () => instead({ at: closed, sure: true }));
    choice("Discard this time", () => instead({ kind: "drop", sure: false }));
    return entry(one, one.said, choices, tookForm(instead));
  }
  choice("Try again", () => keep.change(one.n, { state: "waiting", said: "" }).then(send.wake));
  if (mayChange(one)) choice("Change it", () => changeSlip(one));
  choices.append(twice("Delete", "Tap again to delete for good", () => keep.remove(one.n)));
  if (one.slip.kind === "off") return entry(one, one.said, choices, tookForm((what) => instead({ ...what, kind: "time" })));
  return entry(one, one.said, choices);
}

// tookForm asks how long it took.
function tookForm(instead) {
  const spent = make("input", { type: "text", placeholder: "1 h 20 min", maxLength: 40 });
  return form(async () => {
    if (!spent.value.trim()) throw new Error("Write how long it took, as 45 min or 1 h 20 min.");
    await instead({ spent: spent.value.trim() });
  }, field("or it took", spent), make("button", {}, "Save"));
}

// twice is a button that must be pressed a second time.
function twice(words, sure, act) {
  const button = make("button", { type: "button", className: "away" }, words);
  button.onclick = () => {
    if (button.textContent === sure) act();
    button.textContent = sure;
  };
  return button;
}

let install = null;
addEventListener("beforeinstallprompt", (event) => { event.preventDefault(); install = event; });

// foot tells what this phone can do without the workroom, and lets it go.
function foot(unsent) {
  const worker = !!navigator.serviceWorker?.controller;
  const words = worker
    ? "Works without a connection. Entries stay on this phone until they are sent."
    : "Works without a connection while it is open. Entries stay on this phone until they are sent.";
  const node = make("div", { className: "foot" }, make("p", { className: "hint" }, words));
  if (install) node.append(make("button", { type: "button", onclick: () => install.prompt() }, "Put the bench on the home screen"));
  node.append(twice("Disconnect this phone", unsent ? `Tap again: ${unsent} unsent ${unsent === 1 ? "entry" : "entries"} would be lost` : "Tap again to disconnect", async () => {
    await keep.forget();
    await send.leave();
    page.view = null;
    tell("disconnected");
    location.reload();
  }));
  return node;
}
