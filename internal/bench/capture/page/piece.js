// A paper piece: its photograph, and the names of its edges once it was traced.

import * as keep from "/keep.js";
import { page, build, take, tell } from "/bench.js";
import { make, drawn, number } from "/words.js";
import { cornerMover } from "/corner.js";
import { sheet, form, field, lengthField, photograph, picker } from "/sheets.js";

const usual = ["hem", "side", "waist", "centre", "armhole", "shoulder", "neck", "underarm", "cap", "wrist", "top", "bottom"];

// pieceSheet takes the photograph of a paper piece with cards round it: a new piece, or one
// whose paper was altered at a fitting.
export function pieceSheet() {
  sheet("piece", "A paper piece", (body, dialog) => {
    const shot = photograph();
    const shaped = build()?.shaped || [];
    const which = make("select", {}, ...[["", "a new piece"], ...shaped.map((name) => [name, name + ", paper I altered"])].map(([value, words]) => make("option", { value }, words)));
    const name = make("input", { type: "text", maxLength: 60, autocapitalize: "none" });
    const saw = make("input", { type: "text", maxLength: 400 });
    const allowance = lengthField(""), far = make("input", { type: "text", maxLength: 60, placeholder: "3 to 8: 842 mm" });
    const fold = make("select", {}, ...[["", "none"], ["left", "at the left"], ["right", "at the right"], ["top", "at the top"], ["bottom", "at the foot"]]
      .map(([value, words]) => make("option", { value }, words)));
    const ofNew = [field("what it is called", name), field("the edge on the fold, as it lies in the photograph", fold)];
    const ofOld = [field("what you saw at the fitting", saw)];
    const show = () => {
      for (const node of ofNew) node.hidden = !!which.value;
      for (const node of ofOld) node.hidden = !which.value;
    };
    which.onchange = show;
    show();
    const use = (file) => shot.use(node, file);
    const node = form(async () => {
      const picture = shot.picture();
      const said = { allowance: number(allowance.value), far: far.value.trim(), photo: true };
      if (which.value) {
        await take("altered", { piece: which.value, note: saw.value.trim(), ...said }, { photo: picture });
      } else {
        if (!name.value.trim()) throw new Error("Write what the piece is called, as front.");
        await take("trace", { piece: name.value.trim(), fold: fold.value, ...said }, { photo: picture });
      }
      shot.done();
      tell(which.value ? "altered paper saved" : "paper piece saved");
      dialog.close();
    }, make("p", { className: "hint" }, "Flat on a table of another tone, six or more cards round it, from above."), shot.seen,
    make("div", { className: "pair" }, picker("Camera", "image/*", use, true), picker("Pictures", "image/jpeg,image/png", use, false)),
    shaped.length ? field("this is", which) : null, ...ofNew, ...ofOld, field("allowance on the paper, if it has one", allowance, make("i", {}, "mm")),
    field("a distance between two cards, if you measured one", far), make("button", { className: "big" }, "Save"));
    body.append(node);
  });
}

// unnamed are the traced pieces whose edges want names, but for those named on this phone.
export function unnamed() {
  const named = page.slips.filter((one) => one.slip.kind === "edges" && one.slip.build === page.slug && one.state === "waiting").map((one) => one.slip.piece);
  return (build()?.traced || []).filter((p) => !named.includes(p.piece));
}

// nameSheet lets the edges of a piece be named by tapping them.
export async function nameSheet(piece) {
  const key = `draft:edges:${page.slug}:${piece.piece}`;
  const draft = (await keep.recall(key)) || { names: piece.edges.map(() => ""), folds: piece.edges.map((e) => !!e.fold) };
  draft.moved ??= piece.edges.map(() => [0, 0]); // right and up, mm
  sheet("edges", "Edges of " + piece.piece, (body, dialog) => {
    let at = Math.max(draft.names.indexOf(""), 0);
    const rim = Math.max(piece.wide, piece.high) / 14;
    const picture = drawn("svg", { viewBox: `${-rim} ${-rim} ${piece.wide + 2 * rim} ${piece.high + 2 * rim}`, class: "outline", "aria-hidden": "true" });
    const lines = piece.edges.map((e, i) => {
      const line = drawn("path", { d: e.path, class: "edge" }), reach = drawn("path", { d: e.path, class: "reach" });
      reach.onclick = () => choose(i);
      picture.append(line, reach);
      return line;
    });
    const list = make("ol", { className: "edges" });
    const buttons = piece.edges.map((e, i) => {
      const button = make("button", { type: "button", onclick: () => choose(i) });
      list.append(make("li", {}, button));
      return button;
    });
    const name = make("input", { type: "text", maxLength: 40, autocapitalize: "none" });
    const fold = make("input", { type: "checkbox" });
    const remember = () => keep.remember(key, draft);
    const corners = cornerMover(piece, draft.moved, (paths) => {
      paths.forEach((d, i) => { for (const line of [lines[i], lines[i].nextSibling]) line.setAttribute("d", d); });
      remember();
    });
    const show = () => {
      piece.edges.forEach((e, i) => {
        buttons[i].textContent = `${draft.names[i] || i + 1}${draft.folds[i] ? ", fold" : ""} · ${e.mm} mm`;
        buttons[i].setAttribute("aria-pressed", String(i === at));
        lines[i].setAttribute("class", "edge" + (i === at ? " chosen" : "") + (draft.names[i] ? " named" : "") + (draft.folds[i] ? " fold" : ""));
      });
      for (const chip of chips.children) chip.disabled = draft.names.some((n, i) => i !== at && n === chip.textContent);
    };
    const choose = (i) => {
      at = i;
      name.value = draft.names[i];
      fold.checked = draft.folds[i];
      show();
    };
    const call = (words) => {
      draft.names[at] = words;
      remember();
      const next = draft.names.indexOf("");
      choose(next < 0 ? at : next);
    };
    const words = [...new Set([...(build()?.edgeNames || []), ...usual])];
    const chips = make("div", { className: "chips" }, ...words.map((w) => make("button", { type: "button", onclick: () => call(w) }, w)));
    name.oninput = () => { draft.names[at] = name.value.trim(); remember(); show(); };
    fold.onchange = () => { draft.folds[at] = fold.checked; remember(); show(); };
    const node = form(async () => {
      const open = draft.names.indexOf("");
      if (open >= 0) {
        choose(open);
        throw new Error("One edge has no name yet.");
      }
      await take("edges", { piece: piece.piece, of: draft.names.map((n, i) => n + (draft.folds[i] ? ": fold" : "")), moved: corners.said() });
      await keep.remember(key, undefined);
      tell("edges named");
      dialog.close();
    }, picture, list, chips, field("or another name", name), make("label", { className: "choice" }, fold, make("span", {}, "on the fold")), corners.node, make("button", { className: "big" }, "Save"));
    body.append(node);
    choose(at);
    corners.show();
  });
}
