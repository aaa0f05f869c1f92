// The search page: what is typed and chosen, and the list of what is found.
(() => {
"use strict";
const page = document.getElementById("search");
if (!page) return;
const { words, file, ready, answer, allow, leaf } = hembook.parts;

// marker makes the test of which words of a text were found.
function marker(asked) {
  const terms = new Set(), phrases = [], beginnings = [];
  for (const w of asked) {
    for (const s of w.sources.values()) {
      if (s.entry.term.includes(" ")) phrases.push(s.entry.term.split(" ")); else terms.add(s.entry.term);
    }
    if (w.unfinished && (w.star || w.sources.size)) beginnings.push(w.raw);
  }
  return list => {
    list.forEach(w => {
      w.found = terms.has(w.term) || w.joins.some(j => terms.has(j)) || beginnings.some(b => w.raw.startsWith(b)) ? w.term : "";
    });
    for (const p of phrases) {
      for (let i = 0; i + p.length <= list.length; i++) {
        if (p.every((t, k) => list[i + k].term === t)) p.forEach((t, k) => { list[i + k].found = p.join(" "); });
      }
    }
    return list;
  };
}

const excerptLength = 230;

// excerpt is the stretch of a text that has the most of the words found.
function excerpt(text, list) {
  const found = list.filter(w => w.found);
  let from = 0, most = -1;
  for (let i = 0, j = 0; i < found.length; i++) {
    while (j < found.length && found[j].to - found[i].from < excerptLength - 40) j++;
    const many = new Set(found.slice(i, j).map(w => w.found)).size * 8 + Math.min(j - i, 7);
    if (many > most) { most = many; from = found[i].from; }
  }
  from = Math.max(0, Math.min(from - 50, text.length - excerptLength));
  if (from > 0) from = text.indexOf(" ", from) + 1;
  let to = Math.min(text.length, from + excerptLength);
  if (to < text.length) to = Math.max(text.lastIndexOf(" ", to), from + excerptLength / 2);
  return { from, to, found };
}

// marked appends a stretch of text with the found words marked. It is text
// whatever it holds, never markup.
function marked(into, text, found, from, to) {
  let at = from;
  for (const w of found) {
    if (w.from < at || w.to > to) continue;
    into.append(text.slice(at, w.from));
    const mark = document.createElement("mark");
    mark.textContent = text.slice(w.from, w.to).replace(/[.,\/'’\-]+$/, "");
    into.append(mark);
    at = w.from + mark.textContent.length;
  }
  into.append(text.slice(at, to));
}

function entryFor(found, mark) {
  const item = document.createElement("li"), link = document.createElement("a");
  link.href = (page.dataset.root || "./") + found.address;
  marked(link, found.title, mark(words(found.title)).filter(w => w.found), 0, found.title.length);
  const kind = document.createElement("small"), text = document.createElement("p");
  kind.textContent = found.kind;
  const part = excerpt(found.text, mark(words(found.text)));
  if (part.from > 0) text.append("… ");
  marked(text, found.text, part.found, part.from, part.to);
  if (part.to < found.text.length) text.append(" …");
  item.append(link, " ", kind, text);
  return item;
}

/* ---- The page ---- */

const input = page.querySelector("input"), results = page.querySelector("ol"), more = page.querySelector("button.more");
const status = page.querySelector("[role=status]"), selects = [...page.querySelectorAll("select")];
const inTen = 10;
let turn = 0, busy = false, again = false, need = inTen;

// allowance is which documents the filters let through; null for all.
const allowance = () => allow(selects.filter(s => s.value).map(s => s.value.split(" ").map(Number)));

async function show() {
  const mine = ++turn, text = input.value;
  const allowed = await allowance();
  const early = (docs, asked) => fillIn(docs, marker(asked), text);
  const result = await answer(text, need, allowed, early);
  await fillIn(result.docs, marker(result.asked), text);
  while (results.children.length > result.docs.length) results.lastChild.remove();
  more.hidden = !(result.docs.length === need && (result.more || result.total > need));
  status.textContent = sentence(text, result, allowed);
  page.dispatchEvent(new CustomEvent("found", { detail: { text, turn: mine, result } }));
}

// fillIn puts documents into the list, each as soon as it and those before it
// are read. What stands there for the same document and query stays. The first
// is asked for alone, so that no other holds it up.
async function fillIn(docs, mark, text) {
  if (docs.length) await leaf(docs[0]);
  const waiting = docs.map(leaf);
  waiting.forEach(l => l.catch(() => {}));
  for (let i = 0; i < waiting.length; i++) {
    const read = await waiting[i], old = results.children[i], key = docs[i] + " " + text;
    if (old && old.found === key) continue;
    const item = entryFor(read, mark);
    item.found = key;
    if (old) old.replaceWith(item); else results.append(item);
    if (!i) page.dispatchEvent(new CustomEvent("first", { detail: text }));
  }
}

function sentence(text, { docs, total, more, how, near }, allowed) {
  const pages = n => n === 1 ? "1 page" : n + " pages";
  if (!text.trim() && !allowed) return "";
  if (!docs.length) return "Nothing found" + (allowed ? " with these filters" : "") + ". Try fewer words or another word.";
  if (how === "any") return "No page has all of these words. These have some.";
  const spelled = near ? ", " + (near === docs.length ? "spelled nearly so" : "some spelled nearly so") : "";
  return (more ? "The first " + pages(docs.length) : pages(total) + " found") + spelled + ".";
}

// run shows the answer to what is typed now; while one answer is being made,
// only the newest question waits.
async function run() {
  if (busy) {
    again = true;
    return;
  }
  busy = true;
  do {
    again = false;
    try {
      await show();
    } catch (err) {
      status.textContent = "Search is not working here. Everything is listed below.";
      page.dispatchEvent(new CustomEvent("failed", { detail: String(err) }));
    }
  } while (again);
  busy = false;
}

let resting;

function changed() {
  need = inTen;
  run();
  clearTimeout(resting);
  resting = setTimeout(keepPlace, 300);   // browsers count how often an address changes
}

// keepPlace writes the query into the address, so that it can be kept and sent.
function keepPlace() {
  const place = new URLSearchParams();
  if (input.value) place.set("q", input.value);
  for (const s of selects) if (s.value) place.set(s.name, s.selectedOptions[0].dataset.value);
  try {
    if (location.hash !== "#" + place) history.replaceState(null, "", "#" + place);
  } catch { /* a browser may refuse it for files: then the address stays */ }
}

let filled;

// fill offers the values of the filters.
function fill() {
  filled ||= Promise.resolve(file("facets")).then(([facets, begin]) => {
    const begins = new Set(begin);
    let number = 0, at = 0, value = 0;
    for (const [name, values] of facets) {
      const select = selects.find(s => s.name === name);
      for (let i = 0; i < values.length; i += 2, value++) {
        if (begins.has(value)) { number++; at = 0; }
        const option = document.createElement("option");
        option.value = number + " " + at++;
        option.dataset.value = values[i];
        option.textContent = values[i] + " (" + values[i + 1] + ")";
        if (select) select.append(option);
      }
      if (select) select.closest("label").hidden = !values.length;
    }
  });
  return filled;
}

// takePlace takes a query from the address.
async function takePlace() {
  const place = new URLSearchParams(location.hash.slice(1));
  input.value = place.get("q") || "";
  if (selects.some(s => place.has(s.name))) {
    await fill();
    for (const s of selects) {
      const option = [...s.options].find(o => o.dataset.value === place.get(s.name));
      if (option && place.has(s.name)) s.value = option.value; else s.selectedIndex = 0;
    }
  }
  if (input.value || selects.some(s => s.value)) run();
}

// step moves between the results with the arrow keys; before the first is the
// field itself.
function step(event) {
  const links = [...results.querySelectorAll("a")];
  const at = links.indexOf(document.activeElement);
  if (event.key === "Escape" && (event.target === input || at >= 0)) {
    if (at < 0) {
      input.value = "";
      changed();
    }
    input.focus();
    event.preventDefault();
  } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && (event.target === input || at >= 0)) {
    const next = at + (event.key === "ArrowDown" ? 1 : -1);
    if (next < -1 || next >= links.length) return;
    (next < 0 ? input : links[next]).focus();
    event.preventDefault();
  }
}

page.hidden = false;
document.querySelectorAll(".without-search").forEach(e => { e.hidden = true; });
page.querySelector("form").addEventListener("submit", event => {
  event.preventDefault();
  run();
});
input.addEventListener("input", changed);
selects.forEach(s => {
  s.addEventListener("change", changed);
  s.addEventListener("focus", fill);
});
page.addEventListener("keydown", step);
page.addEventListener("found", () => { if (input.value) fill().catch(() => {}); });
more.addEventListener("click", async () => {
  const from = results.children.length;
  need += inTen;
  await run();
  const next = results.children[from];
  if (next) next.querySelector("a").focus();
});
window.addEventListener("hashchange", takePlace);
ready().catch(() => {});
takePlace();
})();
