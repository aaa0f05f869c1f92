// The sheets that open over the page: notes, photographs, sizes, hems, what
// was taken down, the code.

import * as keep from "/keep.js";
import * as send from "/send.js";
import { page, build, stepNamed, take, tell, look } from "/bench.js";
import { make, number } from "/words.js";
import { hangSheet } from "/hem.js";
import { pieceSheet } from "/piece.js";
import { drawEntries } from "/entries.js";
import { develop } from "/photo.js";

const place = document.getElementById("sheets");
let open = null; // the sheet that is open: {name, dialog}

// sheet puts a dialog with a heading and a form on the page.
export function sheet(name, title, fill) {
  if (open) open.dialog.close();
  const close = make("button", { type: "button", className: "close" }, "Close");
  const body = make("div", { className: "body" });
  const heading = make("h2", { id: "sheet-title" }, title);
  const dialog = make("dialog", { className: "sheet on-" + name, "aria-labelledby": "sheet-title" }, make("div", { className: "head" }, heading, close), body);
  close.onclick = () => dialog.close();
  dialog.onclose = () => { dialog.remove(); if (open?.dialog === dialog) open = null; };
  dialog.onclick = (event) => { if (event.target === dialog) dialog.close(); };
  place.append(dialog);
  open = { name, dialog };
  fill(body, dialog);
  dialog.showModal();
  return dialog;
}

// form is a form that is never sent by the browser itself.
export function form(onSubmit, ...children) {
  const node = make("form", { autocomplete: "off", noValidate: true }, ...children);
  node.onsubmit = async (event) => {
    event.preventDefault();
    const button = node.querySelector("button:not([type])");
    if (button) button.disabled = true;
    try {
      await onSubmit();
    } catch (error) {
      complain(node, error.message);
    } finally {
      if (button) button.disabled = false;
    }
  };
  return node;
}

// complain says in a form what is missing.
export function complain(node, words) {
  let line = node.querySelector(".said");
  if (!line) {
    line = make("p", { className: "said", role: "alert" });
    node.append(line);
  }
  line.textContent = words;
}

// field is a labelled field.
export function field(label, input, ...after) {
  return make("label", { className: "field" }, make("span", {}, label), make("span", { className: "line" }, input, ...after));
}

// stepChoice lets a note belong to the step in hand, or to the build alone.
function stepChoice() {
  const words = stepNamed(page.step)?.words;
  const box = make("input", { type: "checkbox", checked: !!words, id: "of-step" });
  if (!words) return { node: null, step: () => "" };
  return { node: make("label", { className: "choice" }, box, make("span", {}, "for: " + words)), step: () => (box.checked ? page.step : "") };
}

export function openSheet(name) {
  switch (name) {
    case "note": return noteSheet();
    case "photo": return photoSheet();
    case "measure": return measureSheet();
    case "hang": return hangSheet();
    case "entries": return sheet("entries", "Entries", (body) => drawEntries(body));
  }
}

// refreshEntries draws the list of what was taken down anew, where it is open.
export function refreshEntries() {
  if (open?.name === "entries") drawEntries(open.dialog.querySelector(".body"));
}

async function noteSheet() {
  const draft = (await keep.recall("draft:note:" + page.slug)) || "";
  const key = "draft:note:" + page.slug;
  sheet("note", "A note", (body, dialog) => {
    const words = make("textarea", { rows: 5, value: draft, maxLength: 20000 });
    words.oninput = () => keep.remember(key, words.value);
    const choice = stepChoice();
    body.append(form(async () => {
      if (!words.value.trim()) throw new Error("Write something first.");
      await take("note", { step: choice.step(), note: words.value.trim() });
      await keep.remember(key, undefined);
      tell("note saved");
      dialog.close();
    }, field("Your note", words), choice.node, make("button", { className: "big" }, "Save")));
  });
}

function photoSheet() {
  sheet("photo", "A photograph", (body, dialog) => {
    const shot = photograph();
    const words = make("textarea", { rows: 2, maxLength: 20000 });
    const alt = make("input", { type: "text", maxLength: 400 });
    const choice = stepChoice();
    const use = async (file) => { if (await shot.use(node, file)) dialog.classList.add("has-picture"); };
    const node = form(async () => {
      await take("note", { step: choice.step(), note: words.value.trim(), alt: alt.value.trim(), photo: true }, { photo: shot.picture() });
      shot.done();
      tell("photograph saved");
      dialog.close();
    }, shot.seen, make("div", { className: "pair" }, picker("Camera", "image/*", use, true), picker("Pictures", "image/jpeg,image/png", use, false)),
    make("button", { type: "button", className: "next", onclick: () => pieceSheet() }, "A paper piece, to trace"),
    field("What it shows (for readers who cannot see it)", alt), field("a note with it", words), choice.node, make("button", { className: "big" }, "Save"));
    body.append(node);
  });
}

// photograph is one that is being chosen for a form: seen shows it, use takes a file and
// reports whether it can be read, done lets it go.
export function photograph() {
  let picture = null;
  const seen = make("img", { alt: "", hidden: true });
  return {
    seen,
    picture() {
      if (!picture) throw new Error("Take the photograph first.");
      return picture;
    },
    async use(node, file) {
      if (!file) return false;
      complain(node, "");
      try {
        picture = await develop(file);
      } catch (error) {
        picture = null;
        complain(node, error.message);
        return false;
      }
      URL.revokeObjectURL(seen.src);
      seen.src = URL.createObjectURL(picture);
      seen.hidden = false;
      return true;
    },
    done() { URL.revokeObjectURL(seen.src); },
  };
}

// picker is a button that opens the camera, or the phone's pictures.
export function picker(words, accept, use, camera) {
  const input = make("input", { type: "file", accept, className: "unseen" });
  if (camera) input.setAttribute("capture", "environment");
  input.onchange = () => use(input.files[0]);
  return make("label", { className: "pick" }, input, make("span", {}, words));
}

function measureSheet(name = "", value = "") {
  sheet("measure", "Finished measurements", (body, dialog) => {
    const b = build(), unit = b?.unit || "mm";
    const rows = (b?.levels || []).map((l) => ({ name: l.name, was: l.was, input: lengthField(l.name === name ? value : "") }));
    const other = make("input", { type: "text", maxLength: 60 }), otherValue = lengthField("");
    if (name && !rows.some((r) => r.name === name)) {
      other.value = name;
      otherValue.value = value;
    }
    body.append(form(async () => {
      const all = rows.map((r) => [r.name, number(r.input.value)]).concat([[other.value.trim(), number(otherValue.value)]]).filter(([, v]) => v);
      if (all.some(([n]) => !n)) throw new Error("Write what it is that you measured.");
      if (!all.length) throw new Error("Write something first.");
      for (const [n, v] of all) await take("measured", { name: n, value: v });
      tell(all.length === 1 ? "measurement saved" : all.length + " measurements saved");
      dialog.close();
    }, make("p", { className: "hint" }, `In ${unit}. 71.2 cm or 28 1/8 in work too.`),
    ...rows.map((r) => field(r.was ? `${r.name}, ${r.was} before` : r.name, r.input, make("i", {}, unit))),
    make("fieldset", {}, make("legend", {}, "anything else"), field("what", other), field("how much", otherValue, make("i", {}, unit))),
    make("button", { className: "big" }, "Save")));
  });
}

export function lengthField(value) {
  return make("input", { type: "text", inputMode: "decimal", value, maxLength: 40, autocomplete: "off" });
}

// changeSlip opens the sheet a slip was made on, with what it said.
export async function changeSlip(one) {
  if (one.slip.kind === "measured") measureSheet(one.slip.name, one.slip.value);
  else {
    await keep.remember("draft:note:" + one.slip.build, one.slip.note);
    await noteSheet();
  }
  await keep.remove(one.n);
}

// mayChange reports whether changeSlip knows how.
export function mayChange(one) {
  return one.slip.build === page.slug && !one.slip.photo && (one.slip.kind === "note" || one.slip.kind === "measured");
}

// openDoor asks for the code; what was taken down stays where it is.
export function openDoor() {
  if (open) return; // the word at the top leads here too
  sheet("door", "The code", (body, dialog) => {
    const code = make("input", { type: "text", autocapitalize: "characters", autocomplete: "one-time-code", spellcheck: false, maxLength: 20, className: "code" });
    const waiting = page.slips.filter((one) => one.state === "waiting").length;
    const node = form(async () => {
      const wrong = await send.enter(code.value);
      if (wrong) throw new Error(wrong);
      dialog.close();
      look();
    }, make("p", {}, "Type the code shown on the computer." + (waiting ? ` What is on this phone (${waiting}) is sent after that; you can work on without.` : "")),
    field("the code", code), make("button", { className: "big" }, "Connect"));
    body.append(node);
  });
}
