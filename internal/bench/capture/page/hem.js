// The drops of a hem that hung, station by station.

import * as keep from "/keep.js";
import { page, build, take, tell } from "/bench.js";
import { make, number } from "/words.js";
import { sheet, form, field, lengthField, complain } from "/sheets.js";

// hangSheet asks for one station after the other; what is entered so far is
// kept, should the phone be laid aside.
export async function hangSheet() {
  const b = build(), key = "draft:hang:" + page.slug;
  const draft = (await keep.recall(key)) || { of: "", after: "", drops: [] };
  sheet("hang", "Hem drop", (body, dialog) => {
    if (!b?.hems.length) {
      body.append(make("p", {}, "No hem in this record yet."));
      return;
    }
    const which = make("select", {}, ...b.hems.map((of) => make("option", { value: of.join("\n"), selected: of.join("\n") === draft.of }, of.join(", "))));
    const after = make("input", { type: "text", value: draft.after, placeholder: "24 h", maxLength: 40 });
    const drop = lengthField(""), rose = make("button", { type: "button", className: "rose", "aria-pressed": "false" }, "rose");
    const next = make("button", { type: "button", className: "next" }, "Next place");
    const done = make("ol", { className: "stations" });
    const label = make("span", {});
    const finish = make("button", { className: "big" });
    let at = draft.drops.length;
    const remember = () => keep.remember(key, { of: which.value, after: after.value, drops: draft.drops });
    which.onchange = after.oninput = remember;

    const show = () => {
      label.textContent = `Place ${at + 1}: how far it dropped, ${b.unit}`;
      drop.value = draft.drops[at] ? draft.drops[at].replace("-", "") : "";
      rose.setAttribute("aria-pressed", String(!!draft.drops[at]?.startsWith("-")));
      finish.textContent = draft.drops.length === 1 ? "Save 1 place" : `Save ${draft.drops.length} places`;
      done.replaceChildren(...draft.drops.map((d, i) => {
        const button = make("button", { type: "button" }, d);
        button.setAttribute("aria-label", `place ${i + 1}: ${d}, change it`);
        if (i === at) button.setAttribute("aria-current", "true");
        button.onclick = () => { at = i; show(); drop.focus(); };
        return make("li", {}, button);
      }));
    };
    const enter = () => {
      const text = number(drop.value);
      if (!text) return false;
      draft.drops[at] = (rose.getAttribute("aria-pressed") === "true" && !text.startsWith("-") ? "-" : "") + text;
      at = draft.drops.length;
      remember();
      complain(node, "");
      show();
      return true;
    };
    rose.onclick = () => rose.setAttribute("aria-pressed", String(rose.getAttribute("aria-pressed") !== "true"));
    next.onclick = () => { if (!enter()) complain(node, "0 where it did not drop."); drop.focus(); };
    drop.onkeydown = (event) => { if (event.key === "Enter") { event.preventDefault(); next.onclick(); } };

    const node = form(async () => {
      enter();
      if (draft.drops.length < 2) throw new Error("Measure at two places or more.");
      await take("hang", { of: which.value.split("\n"), after: after.value.trim(), drops: draft.drops });
      await keep.remember(key, undefined);
      tell("hem drop saved");
      dialog.close();
    }, field("which hem", which), field("how long it hung", after), done,
    make("label", { className: "field" }, label, make("span", { className: "line" }, drop)),
    make("div", { className: "pair" }, rose, next), finish);
    body.append(node);
    show();
  });
}
