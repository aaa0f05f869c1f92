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

// hrefOf is the way to an address of the notebook.
const hrefOf = address => (page.dataset.root || "./") + address;

function linkTo(address, title, mark) {
  const link = document.createElement("a");
  link.href = hrefOf(address);
  marked(link, title, mark(words(title)).filter(w => w.found), 0, title.length);
  return link;
}

function small(words) {
  const s = document.createElement("small");
  s.textContent = words;
  return s;
}

// excerptOf is a paragraph of what was found in a text; null where there is none.
function excerptOf(text, mark) {
  if (!text) return null;
  const p = document.createElement("p"), part = excerpt(text, mark(words(text)));
  if (part.from > 0) p.append("… ");
  marked(p, text, part.found, part.from, part.to);
  if (part.to < text.length) p.append(" …");
  return p;
}

const placesShown = 3;   // of one page, before the others are asked for

// A Group is a page with what was found of it: itself, places on it, or both.
class Group {
  constructor(leaf) {
    this.address = leaf.page;
    this.title = leaf.under || leaf.title;
    this.whole = null;
    this.places = [];
    this.docs = [];
  }
  add(d, leaf) {
    this.docs.push(d);
    if (leaf.under) this.places.push(leaf); else this.whole = leaf;
  }
  // item is the group as it stands in the list. A place that has none of the words
  // itself is left out where its page has them.
  item(mark) {
    const has = text => mark(words(text)).some(w => w.found);
    if (this.whole) this.places = this.places.filter(l => has(l.title) || has(l.text));
    const item = document.createElement("li");
    item.append(linkTo(this.address, this.title, mark));
    if (this.whole) {
      const text = excerptOf(this.whole.text, mark);
      item.append(" ", small(this.whole.kind), ...(text ? [text] : []));
    }
    if (this.places.length) item.append(this.list(mark));
    return item;
  }
  list(mark) {
    const list = document.createElement("ul"), open = opened.has(this.address);
    list.className = "places";
    for (const leaf of open ? this.places : this.places.slice(0, placesShown)) {
      const place = document.createElement("li"), text = excerptOf(leaf.text, mark);
      place.append(small(leaf.kind), " ", linkTo(leaf.address, leaf.title, mark), ...(text ? [text] : []));
      list.append(place);
    }
    const left = this.places.length - placesShown;
    if (left > 0 && !open) list.append(this.rest(left, mark));
    return list;
  }
  rest(left, mark) {
    const item = document.createElement("li"), button = document.createElement("button");
    button.type = "button";
    button.textContent = left === 1 ? "1 more place" : left + " more places";
    button.addEventListener("click", () => {
      opened.add(this.address);
      const list = this.list(mark);
      item.parentNode.replaceWith(list);
      list.children[placesShown].querySelector("a").focus();
    });
    item.append(button);
    return item;
  }
}

const opened = new Set();   // pages of which every place is shown

// answerFor is the figure that was asked for, from the first that was found; null
// where it knows none.
function answerFor(asks, leaf) {
  const says = asks && leaf && leaf.answers.get(asks.to);
  if (!says) return null;
  const p = document.createElement("p"), figure = document.createElement("strong"), of = document.createElement("a");
  figure.textContent = says;
  of.href = hrefOf(leaf.address);
  of.textContent = leaf.title;
  p.append(figure, " ", of);
  if (leaf.under) {
    const under = document.createElement("a");
    under.href = hrefOf(leaf.page);
    under.textContent = leaf.under;
    p.append(", ", under);
  }
  return p;
}

/* ---- The page ---- */

const input = page.querySelector("input"), results = page.querySelector("ol"), more = page.querySelector("button.more");
const slab = page.querySelector(".answer");
const status = page.querySelector("[role=status]"), selects = [...page.querySelectorAll("select")];
const inTen = 10;       // pages shown at first, and then at a time
const ofEach = 3;       // places asked for, for each of them
let turn = 0, busy = false, again = false, need = inTen;

// allowance is which documents the filters let through; null for all.
const allowance = () => allow(selects.filter(s => s.value).map(s => s.value.split(" ").map(Number)));

async function show() {
  const mine = ++turn, text = input.value;
  const allowed = await allowance();
  const early = (docs, asked) => fillIn(docs, marker(asked), text);
  const result = await answer(text, need * ofEach, allowed, early);
  const groups = await fillIn(result.docs, marker(result.asked), text);
  while (results.children.length > groups.length) results.lastChild.remove();
  result.shown = groups.flatMap(g => g.docs);
  const left = result.more || result.total > result.shown.length;
  more.hidden = !(left && groups.length === need);
  const answered = result.docs.length && result.how !== "any" ? answerFor(result.asks, await leaf(result.docs[0])) : null;
  slab.replaceChildren(...(answered ? [answered] : []));
  slab.hidden = !answered;
  status.textContent = sentence(text, result, groups, allowed);
  page.dispatchEvent(new CustomEvent("found", { detail: { text, turn: mine, result } }));
}

// fillIn puts what was found into the list, gathered by pages, each as soon as it and
// those before it are read, and says what was put there. What stands there for the same
// documents and query stays. The first is asked for alone, so that no other holds it up.
async function fillIn(docs, mark, text) {
  if (docs.length) await leaf(docs[0]);
  const waiting = docs.slice(0, need).map(leaf), groups = [];
  waiting.forEach(l => l.catch(() => {}));
  const put = (group, at) => {
    const old = results.children[at], key = group.docs.join() + " " + text;
    if (old && old.found === key) return;
    const item = group.item(mark);
    item.found = key;
    if (old) old.replaceWith(item); else results.append(item);
    if (!at) page.dispatchEvent(new CustomEvent("first", { detail: text }));
  };
  for (let i = 0; i < docs.length; i++) {
    const read = await (waiting[i] || leaf(docs[i]));
    let at = groups.findIndex(g => g.address === read.page);
    if (at < 0) {
      if (groups.length === need) break;
      at = groups.push(new Group(read)) - 1;
    }
    groups[at].add(docs[i], read);
    put(groups[at], at);
  }
  return groups;
}

function sentence(text, { docs, total, more, how, near, shown }, groups, allowed) {
  const count = (n, one, many) => n === 1 ? "1 " + one : n + " " + many;
  if (!text.trim() && !allowed) return "";
  if (!docs.length) return "Nothing found" + (allowed ? " with these filters" : "") + ". Try fewer words or another word.";
  if (how === "any") return "No page has all of these words. These have some.";
  const slipped = near ? shown.filter(d => near.has(d)).length : 0;
  const spelled = slipped ? ", " + (slipped === shown.length ? "spelled nearly so" : "some spelled nearly so") : "";
  const all = !more && total <= shown.length, places = groups.some(g => g.places.length);
  const found = places ? count(shown.length, "place", "places") + " on " + count(groups.length, "page", "pages") : count(all ? total : shown.length, "page", "pages");
  return (all ? found : "The first " + found) + (all ? " found" : "") + spelled + ".";
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
    if (location.hash !== "#" + place) history.replaceState(null, "", location.pathname + "#" + place);
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
  const place = new URLSearchParams(location.hash.slice(1) || location.search);   // asked here, or from another page
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
