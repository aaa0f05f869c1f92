// The page: the build, its steps, the clock of the one in hand.

import * as keep from "/keep.js";
import * as send from "/send.js";
import { make, minutes, counted } from "/words.js";
import { clocksWith, pending, stateWith, spentOf } from "/clocks.js";
import { unnamed, nameSheet } from "/piece.js";
import { openSheet, openDoor, refreshEntries } from "/sheets.js";

const at = (id) => document.getElementById(id);
const undoFor = 5000; // milliseconds in which a tap may be taken back

// page is all that is shown; nothing else holds any of it.
export const page = { view: null, builds: {}, slug: "", step: "", slips: [], pending: [], clocks: [] };

export function build() { return page.builds[page.slug] || null; }
export function stepNamed(id) { return build()?.steps.find((s) => s.id === id); }

// take keeps a slip of the build shown and says so.
export async function take(kind, what = {}, options = {}) {
  try {
    return await keep.add({ kind, build: page.slug, at: Date.now(), ...what }, options);
  } catch (error) {
    tell("could not save on this phone: " + error.message);
    throw error;
  } finally {
    send.wake();
  }
}

// tell says something to those who listen.
export function tell(words) { at("told").textContent = words; }

let undoTimer = 0;
async function takeWithUndo(kind, what, words) {
  const n = await take(kind, what, { hold: undoFor });
  const bar = at("undo");
  bar.firstElementChild.textContent = words;
  bar.hidden = false;
  bar.lastElementChild.onclick = async () => {
    await keep.remove(n);
    bar.hidden = true;
    tell("undone");
  };
  clearTimeout(undoTimer);
  undoTimer = setTimeout(() => { bar.hidden = true; }, undoFor - 300);
}

function clockOf(step, slug = page.slug) { return page.clocks.find((c) => c.build === slug && c.step === step); }

// put sets what is shown where it has changed, so that nothing moves under a
// finger.
function put(node, key, children) {
  if (node.dataset.shown === key) return;
  node.dataset.shown = key;
  node.replaceChildren(...children());
}

function drawBuilds() {
  const builds = page.view?.builds || [];
  put(at("build"), JSON.stringify(builds) + page.slug, () => builds.map((b) => {
    const option = make("option", { value: b.slug }, b.name);
    option.selected = b.slug === page.slug;
    return option;
  }));
}

const marks = { "to do": "M16 5a11 11 0 1 1-.1 0Z", resting: "M16 5a11 11 0 1 1-.1 0Z M7 20h9 M9 24h7", "under way": "M16 5a11 11 0 1 1-.1 0Z M16 16V9 M8 22 22 11", done: "M6 17l7 7L26 8" };

function mark(state) {
  const ns = "http://www.w3.org/2000/svg";
  const svg = document.createElementNS(ns, "svg"), path = document.createElementNS(ns, "path");
  svg.setAttribute("viewBox", "0 0 32 32");
  svg.setAttribute("aria-hidden", "true");
  path.setAttribute("d", marks[state] || marks["to do"]);
  svg.append(path);
  return svg;
}

function drawSteps() {
  const b = build();
  const steps = (b?.steps || []).map((s) => ({ ...s, state: stateWith(s, page.slug, page.clocks, page.pending) }));
  put(at("steps"), JSON.stringify(steps) + page.step + page.slug, () => steps.map((s) => {
    const button = make("button", { type: "button", className: "step", dataset: { state: s.state, step: s.id } }, mark(s.state),
      make("span", { className: "words" }, s.words || s.id), make("span", { className: "state" }, s.state));
    if (s.id === page.step) button.setAttribute("aria-current", "true");
    button.onclick = () => choose(s.id);
    return make("li", {}, button);
  }));
  const empty = at("empty");
  empty.hidden = !b || steps.length > 0;
  empty.textContent = "No steps yet. Notes, photographs and measurements work all the same.";
  at("why").hidden = !(b?.why || page.view?.fault);
  at("why").textContent = b?.why || page.view?.fault || "";
}

// drawPieces offers traced pieces whose edges have no names yet.
function drawPieces() {
  const pieces = unnamed();
  at("pieces").hidden = pieces.length === 0;
  put(at("pieces"), JSON.stringify(pieces.map((p) => [page.slug, p.piece])), () => pieces.map((p) =>
    make("li", {}, make("button", { type: "button", onclick: () => nameSheet(p) }, "Name the edges of " + p.piece))));
}

function drawDock() {
  const here = clockOf(page.step), step = stepNamed(page.step);
  const others = page.clocks.filter((c) => c !== here);
  at("others").hidden = others.length === 0;
  put(at("others"), JSON.stringify(others.map((c) => [c.build, c.step, !c.running])), () => others.map((c) => {
    const button = make("button", { type: "button" }, make("span", { className: "words" }, c.words || c.step),
      make("span", { className: "spent", dataset: { build: c.build, step: c.step } }));
    if (!c.running) button.append(make("span", { className: "unseen" }, ", paused"));
    button.onclick = () => goTo(c.build, c.step);
    return make("li", {}, button);
  }));
  at("now-step").textContent = here?.words || step?.words || page.step || "Tap a step to begin";
  const go = at("go"), rest = at("rest");
  at("dock").dataset.clock = here ? (here.running ? "runs" : "rests") : "";
  go.textContent = here ? (here.running ? "Stop" : "Go on") : "Start";
  rest.textContent = here && !here.running ? "Stop" : "Pause";
  rest.hidden = !here;
  go.disabled = !page.step;
  at("tick").disabled = !page.step;
  drawSpent();
}

function drawSpent() {
  const here = clockOf(page.step);
  at("now-spent").textContent = here ? counted(spentOf(here)) : "";
  for (const node of document.querySelectorAll("#others .spent")) {
    const c = clockOf(node.dataset.step, node.dataset.build);
    node.textContent = c ? counted(spentOf(c)) : "";
  }
  at("dock").style.setProperty("--run", String(here?.running ? Math.floor(spentOf(here) / 1000) : 0));
}

function drawCount() {
  const waiting = page.slips.filter((one) => one.state === "waiting").length;
  const refused = page.slips.filter((one) => one.state === "refused").length;
  const link = send.link.state;
  const words = [];
  if (refused) words.push(refused === 1 ? "1 needs you" : `${refused} need you`);
  if (waiting) words.push(`${waiting} on this phone`);
  if (link === "away") words.push("not connected");
  if (link === "door") words.push("needs the code");
  if (link === "looking" && !words.length) words.push("connecting");
  at("count-words").textContent = words.join(", ") || "all sent";
  at("count").dataset.state = refused ? "refused" : link === "away" || link === "door" ? "away" : waiting ? "waiting" : "kept";
}

// draw shows everything as it is now.
export async function draw() {
  page.slips = await keep.all();
  page.pending = pending(page.slips, page.view?.asked || 0);
  page.clocks = clocksWith(page.view?.clocks || [], page.pending, send.link.skew, page.builds);
  drawBuilds();
  drawPieces();
  drawSteps();
  drawDock();
  drawCount();
  refreshEntries();
}

// choose takes a step in hand.
function choose(id) {
  page.step = id;
  keep.remember("step:" + page.slug, id);
  draw();
}

// goTo shows another build, and a step of it.
async function goTo(slug, step) {
  if (slug !== page.slug) await showBuild(slug);
  if (step) choose(step);
}

async function showBuild(slug) {
  page.slug = slug;
  keep.remember("slug", slug);
  page.builds[slug] ??= await keep.recall("build:" + slug);
  page.step = "";
  await firstStep();
  await draw();
  await look();
}

// firstStep is the one last chosen here, else one whose clock runs, else the
// first that is not done.
async function firstStep() {
  const b = build();
  if (!b || page.step) return;
  const last = await keep.recall("step:" + page.slug);
  if (page.step || build() !== b) return; // chosen by hand meanwhile
  const running = page.clocks.find((c) => c.build === page.slug);
  const open = b.steps.find((s) => s.state !== "done");
  page.step = [running?.step, b.steps.find((s) => s.id === last && s.state !== "done")?.id, open?.id, b.steps[0]?.id].find(Boolean) || "";
  requestAnimationFrame(() => document.querySelector("[aria-current]")?.scrollIntoView({ block: "center" }));
}

// look asks the workroom, and remembers what it said for when it is away.
export async function look() {
  const view = await send.look(page.slug);
  if (view) {
    if (!page.slug || !view.builds.some((b) => b.slug === page.slug)) {
      page.slug = view.clocks[0]?.build || view.builds[0]?.slug || "";
      page.view = view;
      keep.remember("slug", page.slug);
      if (page.slug) return look();
    }
    page.view = view;
    if (view.build) {
      page.builds[view.build.slug] = view.build;
      keep.remember("build:" + view.build.slug, view.build);
    }
    keep.remember("view", { ...view, build: undefined });
    await firstStep();
    if (page.slips.some((one) => one.state === "waiting")) send.wake();
  }
  await draw();
}

function onGo() {
  const here = clockOf(page.step), words = stepNamed(page.step)?.words || page.step;
  if (!here) return takeWithUndo("on", { step: page.step }, "Started: " + words);
  if (!here.running) return takeWithUndo("on", { step: page.step }, "Started again: " + words);
  return takeWithUndo("off", { step: page.step }, `Stopped at ${minutes(spentOf(here))}: ${words}`);
}

function onRest() {
  const here = clockOf(page.step), words = here.words || page.step;
  if (here.running) return takeWithUndo("pause", { step: page.step }, "Paused: " + words);
  return takeWithUndo("off", { step: page.step }, `Stopped at ${minutes(spentOf(here))}: ${words}`);
}

function onTick() {
  const words = stepNamed(page.step)?.words || page.step;
  if (clockOf(page.step)) return takeWithUndo("off", { step: page.step, done: true }, "Stopped and done: " + words);
  return takeWithUndo("done", { step: page.step }, "Done: " + words);
}

async function begin() {
  at("go").onclick = onGo;
  at("rest").onclick = onRest;
  at("tick").onclick = onTick;
  at("count").onclick = () => (send.link.state === "door" ? openDoor() : openSheet("entries"));
  at("build").onchange = (event) => showBuild(event.target.value);
  for (const button of document.querySelectorAll("[data-sheet]")) button.onclick = () => openSheet(button.dataset.sheet);
  keep.onChange(draw);
  send.onLinkChange(() => { draw(); if (send.link.state === "door") openDoor(); });
  send.onSentSome(look);
  page.view = (await keep.recall("view")) || null;
  page.slug = (await keep.recall("slug")) || "";
  if (page.slug) page.builds[page.slug] = await keep.recall("build:" + page.slug);
  await firstStep();
  await draw();
  await look();
  send.wake();
  setInterval(drawSpent, 1000);
  setInterval(() => { if (!document.hidden) look(); }, 15000);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
  prefetch();
}

// prefetch remembers the builds changed last, so that one may turn to them
// where the workroom is out of reach.
async function prefetch() {
  for (const b of (page.view?.builds || []).slice(0, 12)) {
    if (page.builds[b.slug]) continue;
    const view = await send.look(b.slug);
    if (!view?.build) return;
    page.builds[b.slug] = view.build;
    await keep.remember("build:" + b.slug, view.build);
  }
}

begin().catch((error) => {
  at("why").hidden = false;
  at("why").textContent = "This phone cannot save anything here. Is this a private window?";
});

if ("serviceWorker" in navigator && isSecureContext) navigator.serviceWorker.register("/worker.js").catch(() => {});
