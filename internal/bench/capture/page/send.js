// Sends what was taken down, in order, and asks the workroom what there is.

import * as keep from "/keep.js";

const soonest = 1000, latest = 30000; // milliseconds until it is tried again
const patience = 90000; // milliseconds until an answer is given up; a photograph takes its time

// What is known of the connection: "looking", "here", "away" or "door".
export const link = { state: "looking", skew: 0 };

let onLink = () => {};
export function onLinkChange(call) { onLink = call; }

function set(state) {
  if (link.state === state) return;
  link.state = state;
  onLink();
}

async function ask(address, options = {}) {
  const late = new AbortController();
  const timer = setTimeout(() => late.abort(), options.body instanceof FormData ? patience : 10000);
  try {
    const answer = await fetch(address, { ...options, signal: late.signal, cache: "no-store", redirect: "error", credentials: "same-origin" });
    const said = await answer.json();
    return { status: answer.status, said };
  } finally {
    clearTimeout(timer);
  }
}

// look asks what there is to do; null where the workroom does not answer.
export async function look(build) {
  const asked = Date.now();
  try {
    const { status, said } = await ask("/state?build=" + encodeURIComponent(build || ""));
    if (said.state === "door") set("door");
    else if (status === 200) {
      link.skew = said.now - Date.now();
      set("here");
      return { ...said, asked };
    } else set(status === 503 || status === 429 ? "here" : "away");
  } catch {
    set("away");
  }
  return null;
}

// enter exchanges a code for a session; it returns what was wrong, or nothing.
export async function enter(code) {
  try {
    const { status, said } = await ask("/pair", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ code }) });
    if (status !== 200) return said.said;
    set("here");
    wake();
    return "";
  } catch {
    return "no answer from the computer. Is hembook bench running there?";
  }
}

// leave ends the session.
export async function leave() {
  try { await ask("/leave", { method: "POST" }); } catch { /* it ends by itself */ }
  set("door");
}

// post sends one slip. It returns "kept", "refused", "later", "away" or "door".
async function post(one) {
  const form = new FormData();
  form.append("now", String(Date.now()));
  form.append("slip", JSON.stringify(one.slip));
  if (one.photo) form.append("photo", new Blob([one.photo.data], { type: one.photo.type }));
  let answer;
  try {
    answer = await ask("/slips", { method: "POST", body: form });
  } catch {
    return "away";
  }
  const { state, said, ask: question } = answer.said;
  switch (state) {
    case "door":
      return "door";
    case "kept":
      await keep.change(one.n, { state, said, at: Date.now() });
      return state;
    case "refused":
      await keep.change(one.n, { state, said, ask: question });
      return state;
    case "later":
      if (one.said !== said) await keep.change(one.n, { said });
      return state;
  }
  return "away";
}

let sending = false, again = false, wait = soonest, timer = 0;
let onSent = () => {};
export function onSentSome(call) { onSent = call; }

// wake sends what waits, now.
export function wake() {
  clearTimeout(timer);
  if (sending) {
    again = true;
    return;
  }
  sending = true;
  const alone = navigator.locks ? (work) => navigator.locks.request("bench-sending", work) : (work) => work();
  alone(round).catch(() => "away").then((how) => {
    sending = false;
    if (again) {
      again = false;
      wait = soonest;
    }
    next(how);
  });
}

// round sends each slip once, in order. One that must wait holds back what
// else there is for its build, as clocks go on before they go off.
async function round() {
  const stuck = new Set();
  let how = "idle", some = false;
  for (const one of await keep.all()) {
    if (one.state !== "waiting" || stuck.has(one.slip.build)) continue;
    if (one.held > Date.now()) {
      stuck.add(one.slip.build);
      how = "held";
      continue;
    }
    const became = await post(one);
    if (became === "kept" || became === "refused") some = true;
    else stuck.add(one.slip.build);
    if (became === "away" || became === "door") {
      set(became);
      how = became;
      break;
    }
    set("here");
    wait = soonest;
    if (became === "later") how = "later";
  }
  if (some) {
    await keep.tidy();
    onSent();
  }
  return how;
}

function next(how) {
  if (how === "idle" || how === "door") {
    wait = soonest;
    return;
  }
  wait = how === "held" ? soonest : Math.min(2 * wait, latest);
  timer = setTimeout(wake, how === "held" ? 500 : wait);
}

addEventListener("online", () => { wait = soonest; wake(); });
addEventListener("pageshow", () => wake());
document.addEventListener("visibilitychange", () => { if (!document.hidden) { wait = soonest; wake(); } });
