// Answers the search page from the index that stands beside it. The index is
// read in small scripts, only those that a query needs, because a page opened
// from a folder may read nothing else. What the files hold is written down in
// the program's internal/search/shards.go, the rules of words in words.go and
// the ranking in score.go; whoever changes one changes both.
(() => {
"use strict";
const page = document.getElementById("search");
if (!page) return;

/* ---- Files ---- */

const kept = new Map();    // name → contents, the longest unused first
const asked = new Map();   // name → promise and what settles it
const mostKept = 6e6;      // characters of files kept
let keptSize = 0;

// Every file of the index calls this with its name and contents.
window.hembook = (name, data) => {
  const wish = asked.get(name);
  if (!wish) return;
  asked.delete(name);
  kept.set(name, data);
  keptSize += sizeOf(data);
  for (const [old, was] of kept) {
    if (keptSize <= mostKept || old === name) break;
    if (lasting.has(old)) continue;
    kept.delete(old);
    chapters.delete(old);
    keptSize -= sizeOf(was);
  }
  wish.done(data);
};
const lasting = new Set(["first", "pieces", "facets"]);
const sizeOf = data => typeof data === "string" ? data.length : 2000;

// file reads one file of the index: "first", or a kind and a number.
function file(kind, number) {
  const name = number === undefined ? kind : kind + number;
  if (kept.has(name)) {
    const data = kept.get(name);
    kept.delete(name);
    kept.set(name, data);
    return data;
  }
  if (asked.has(name)) return asked.get(name).promise;
  const wish = {};
  wish.promise = new Promise((done, failed) => Object.assign(wish, { done, failed }));
  asked.set(name, wish);
  const script = document.createElement("script");
  script.async = true;
  script.src = page.dataset.index + (number === undefined ? kind : kind + "/" + (number >> 8) + "/" + number) +
    ".js?" + page.dataset.stamp;
  script.onload = () => script.remove();
  script.onerror = () => {
    script.remove();
    asked.delete(name);
    wish.failed(new Error("the index has no " + name));
  };
  document.head.append(script);
  return wish.promise;
}

/* ---- Numbers: 13 bits in two characters ---- */

const alphabet = "!#$%&'()*+,-./0123456789:;=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|}~";
const digit = new Uint8Array(128);
for (let i = 0; i < alphabet.length; i++) digit[alphabet.charCodeAt(i)] = i;

class Bits {
  constructor(text) {
    this.text = text;
    this.at = 0;
    this.held = 0;
    this.n = 0;
  }
  // peek shows the next n bits, at most 16; after the end come noughts.
  peek(n) {
    while (this.n < n) {
      const high = digit[this.text.charCodeAt(this.at)];
      if (this.at + 1 < this.text.length) {
        this.held = this.held << 13 | high * 91 + digit[this.text.charCodeAt(this.at + 1)];
        this.n += 13;
      } else {
        this.held = this.held << 6 | (this.at < this.text.length ? high : 0);
        this.n += 6;
      }
      this.at += 2;
    }
    return this.held >>> this.n - n;
  }
  read(n) {
    const value = this.peek(n);
    this.n -= n;
    this.held &= (1 << this.n) - 1;
    return value;
  }
  gamma() {
    let n = 0;
    while (!this.read(1)) n++;
    let v = 1;
    for (; n > 0; n--) v = v << 1 | this.read(1);
    return v;
  }
  rice(k) {
    let q = 0;
    while (this.read(1)) q++;
    return k > 16 ? q << k | this.read(k - 16) << 16 | this.read(16) : q << k | this.read(k);
  }
}

// list reads postings, best first: their documents and levels.
function list(bits, n) {
  let left = bits.gamma() - 1;
  const docs = new Uint32Array(left), levels = new Uint8Array(left);
  if (!left) return { docs, levels };
  const top = bits.read(4);
  for (let level = top, i = 0; left > 0; level--) {
    const count = level === top ? bits.gamma() : level > 0 ? bits.gamma() - 1 : left;
    if (!count) continue;
    left -= count;
    let k = 0;
    while (count * 3 * 2 ** (k + 1) <= 2 * n) k++;
    for (let last = -1, end = i + count; i < end; i++) {
      last += bits.rice(k) + 1;
      docs[i] = last;
      levels[i] = level;
    }
  }
  return { docs, levels };
}

// lists reads the list at a place of a file.
async function lists(kind, place) {
  const bits = new Bits(await file(kind, place[0]));
  for (let i = 0; i < place[1]; i++) list(bits, index.n);
  return list(bits, index.n);
}

// A Code reads what was written in pieces. Short codes are looked up by their
// first bits.
const quick = 10;

class Code {
  constructor([perLength, pieces]) {
    this.perLength = perLength;
    this.pieces = pieces.split("|");
    this.place = new Uint16Array(1 << quick);
    this.length = new Uint8Array(1 << quick);
    let at = 0, code = 0;
    for (let n = 1; n <= Math.min(quick, perLength.length); n++) {
      code <<= 1;
      for (let i = 0; i < perLength[n - 1]; i++, code++, at++) {
        const from = code << quick - n, to = code + 1 << quick - n;
        this.place.fill(at, from, to);
        this.length.fill(n, from, to);
      }
    }
  }
  piece(bits) {
    const ahead = bits.peek(quick), n = this.length[ahead];
    if (n) {
      bits.read(n);
      return this.pieces[this.place[ahead]] || literal(bits);
    }
    let code = 0, from = 0, first = 0;
    for (const count of this.perLength) {
      code = code << 1 | bits.read(1);
      first <<= 1;
      if (code - first < count) return this.pieces[from + code - first] || literal(bits);
      first += count;
      from += count;
    }
    throw new Error("the index is damaged");
  }
}

const literal = bits => String.fromCodePoint(bits.read(10) << 11 | bits.read(11));

/* ---- Words ---- */

const inRun = /^[\p{L}\p{M}\p{N}'’.,\/⁄\-‐‑\u00ad]$/u, joiner = /^['’.,\/⁄\-‐‑\u00ad]$/;
const kinds = Uint8Array.from({ length: 128 }, (_, i) => kindOf(String.fromCharCode(i)));

// kindOf is 0 for what stands between runs, 1 for what begins and goes on with
// one, 2 for what only goes on with one.
function kindOf(c) {
  return joiner.test(c) ? 2 : inRun.test(c) ? 1 : 0;
}

// runs calls f with the beginning and end of every run of a text.
function runs(text, f) {
  let from = -1;
  for (let i = 0, size; i < text.length; i += size) {
    const unit = text.charCodeAt(i);
    let kind;
    if (unit < 128) {
      size = 1;
      kind = kinds[unit];
    } else {
      const c = String.fromCodePoint(text.codePointAt(i));
      size = c.length;
      kind = kindOf(c);
    }
    if (from < 0 && kind === 1) {
      from = i;
    } else if (from >= 0 && !kind) {
      f(from, i);
      from = -1;
    }
  }
  if (from >= 0) f(from, text.length);
}
const swaps = { "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ł": "l", "þ": "th", "ı": "i",
  "ς": "σ", "’": "'", "⁄": "/", "‐": "-", "‑": "-", "\u00ad": "" };
const parts = /([0-9]+(?:[.,\/][0-9]+)*)|((?:(?![0-9])[\p{L}\p{N}])(?:(?![0-9])[\p{L}\p{N}']|')*)|(-)|[^]/gu;
const units = new Set("mm cm m in inch yd yard ft g kg gsm oz min h".split(" "));
const irregular = { halves: "half", scarves: "scarf", knives: "knife", calves: "calf", selves: "self", feet: "foot",
  teeth: "tooth", men: "man", women: "woman", children: "child", canvases: "canva", biases: "bia" };

function plainLetters(run) {
  if (/^[\0-\x7f]*$/.test(run)) return run.toLowerCase();
  return run.replace(/([0-9])([¼-¾⅐-⅞])/g, "$1-$2").normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase()
    .replace(/[ßæœøđðłþıς’⁄‐‑\u00ad]/g, c => swaps[c]);
}

const shorten = s => s.length <= 40 ? s : [...s].slice(0, 40).join("");

function singular(w) {
  if (Object.hasOwn(irregular, w)) return irregular[w];
  const n = [...w].length;
  if (n <= 3 || /[0-9]/.test(w)) return w;
  if (n > 4 && w.endsWith("ies")) return w.slice(0, -3) + "y";
  if (n > 4 && w.endsWith("ie")) return w.slice(0, -2) + "y";
  if (!w.endsWith("s") || /(ss|us|is)$/.test(w)) return w;
  return w.slice(0, /(sses|xes|zzes|ches|shes)$/.test(w) ? -2 : -1);
}

function forms(term) {
  const all = [term + "s", term + "es"];
  if (term.endsWith("y")) all.push(term.slice(0, -1) + "ies", term.slice(0, -1) + "ie");
  return all.filter(f => singular(f) === term);
}

function number(n) {
  return shorten(n.replace(/,([0-9]*)/g, (_, rest) => (rest.length === 3 ? "" : ".") + rest));
}

const letters = s => shorten(s.replace(/'+$/, "").replace(/'s$/, "").replaceAll("'", ""));

const split = new Map();   // the parts of runs met before

// partsOf cuts a run into parts, glued where they touch the one before.
function partsOf(run) {
  let out = split.get(run);
  if (out) return out;
  out = [];
  let glued = false;
  for (const [all, digits, word] of plainLetters(run).matchAll(parts)) {
    const raw = digits ? number(digits) : word ? letters(word) : "";
    if (raw) {
      out.push({ raw, term: digits ? raw : singular(raw), number: !!digits, glued });
      glued = true;
    } else if (word === undefined) {
      glued = glued && all === "-";
    }
  }
  if (split.size > 12000) split.clear();
  split.set(run, out);
  return out;
}

// words splits a text. Each word is { raw, term, from, to, joins }, from and to
// being the place of its run in the text; joins are the terms that it makes with
// its neighbours.
function words(text) {
  const out = [];
  let wasNumber = false;
  runs(text, (from, to) => {
    const list = partsOf(text.slice(from, to));
    let group = [];
    for (const p of list) {
      if (!p.glued) {
        joinUp(group);
        group = [];
      }
      const w = { raw: p.raw, term: p.term, number: p.number, joins: none, from, to };
      if (!p.glued && wasNumber && !p.number && units.has(p.term)) joinUp([out[out.length - 1], w], true);
      group.push(w);
      out.push(w);
      wasNumber = p.number;
    }
    joinUp(group);
    wasNumber = wasNumber && list.length > 0;
  });
  return out;
}

const none = [];

function joinUp(group, unit) {
  if (group.length < 2 || group.every(w => w.number)) return;
  const join = unit ? group[0].term + group[1].term : singular(shorten(group.map(w => w.raw).join("")));
  for (const w of group) w.joins = [...w.joins, join];
}

// near says whether two words differ by one slip: a letter dropped, added or
// replaced, or two neighbours swapped.
function near(a, b) {
  if (a === b) return false;
  if (a.length > b.length) [a, b] = [b, a];
  if (b.length - a.length > 1) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  if (a.length < b.length) return a.slice(i) === b.slice(i + 1);
  return a.slice(i + 1) === b.slice(i + 1) ||
    a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2);
}

const slips = w => /^\p{L}{3,}$/u.test(w);

/* ---- The dictionary ---- */

let index;           // first.js, made ready
let opening;

async function openIndex() {
  const data = await file("first");
  const split = (s, c) => s === "" ? [] : s.split(c);
  const ready = { n: data.n, levels: data.levels, words: data.words.split(","), backwards: data.backwards.split(","),
    letters: new Code(data.letters), groups: new Map(), longest: 1, pieces: null };
  for (const group of split(data.synonyms, ",")) {
    const members = group.split("|");
    for (const m of members) {
      ready.groups.set(m, [...(ready.groups.get(m) || []), ...members.filter(o => o !== m)]);
      ready.longest = Math.max(ready.longest, m.split(" ").length);
    }
  }
  index = ready;
}

// shardOf is the last shard that begins at or before a word.
function shardOf(bounds, w) {
  let low = 0, high = bounds.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if (bounds[mid] <= w) low = mid; else high = mid - 1;
  }
  return low;
}

// fronts reads sorted words that each take letters from the one before.
function fronts(text) {
  const bits = new Bits(text), out = [];
  let packed = "";
  while (!packed.endsWith("\n")) packed += index.letters.piece(bits);
  let last = [];
  for (const [, taken, rest] of packed.matchAll(/([A-Z])([^A-Z\n]*)/g)) {
    last = last.slice(0, taken.charCodeAt(0) - 65).concat([...rest]);
    out.push(last.join(""));
  }
  return out;
}

const chapters = new Map();   // name → a shard of the dictionary made ready

async function chapter(i) {
  const data = await file("d", i);
  let c = chapters.get("d" + i);
  if (c) return c;
  const [text, weights, head, headAt, newHeads, tail, tailAt, withTail, newTails, cut, keys] = data;
  c = { terms: fronts(text), entries: [], keys };
  const begins = new Set(newHeads), tails = new Set(withTail), tailBegins = new Set(newTails), cuts = new Set(cut);
  let p = head, slot = headAt, x = tail, tailSlot = tailAt, w = 0;
  c.terms.forEach((term, i) => {
    if (begins.has(i)) { p++; slot = 0; }
    const e = { term, head: [p, slot++], tail: null, cut: cuts.has(i), weight: 0 };
    if (tails.has(i)) {
      if (tailBegins.has(i)) { x++; tailSlot = 0; }
      e.tail = [x, tailSlot++];
    }
    if (e.tail || e.cut || term.endsWith("*")) e.weight = digit[weights.charCodeAt(w++)];
    c.entries.push(e);
  });
  chapters.set("d" + i, c);
  return c;
}

async function backwards(i) {
  const data = await file("r", i);
  if (!chapters.has("r" + i)) chapters.set("r" + i, fronts(data));
  return chapters.get("r" + i);
}

// place is where a sorted list has the first word not before w.
function place(sorted, w) {
  let low = 0, high = sorted.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (sorted[mid] < w) low = mid + 1; else high = mid;
  }
  return low;
}

async function entry(term) {
  const c = await chapter(shardOf(index.words, term));
  const i = place(c.terms, term);
  return c.terms[i] === term ? c.entries[i] : null;
}

const last = "\uffff";

// range finds the entries of all words with a beginning.
async function range(beginning) {
  const from = shardOf(index.words, beginning), to = shardOf(index.words, beginning + last);
  const out = [];
  const read = await Promise.all(Array.from({ length: to - from + 1 }, (_, i) => chapter(from + i)));
  for (const c of read) {
    for (let i = place(c.terms, beginning); i < c.terms.length && c.terms[i].startsWith(beginning); i++) {
      if (!/[ *]/.test(c.terms[i])) out.push(c.entries[i]);
    }
  }
  return out;
}

// slipped finds the entries of words that differ from w by one slip. One half of
// the word is whole, so only words with the same first or last half are looked at.
async function slipped(w) {
  const half = [...w.term].length >> 1, out = new Map();
  const start = [...w.term].slice(0, half).join(""), end = [...w.term].slice(half).reverse().join("");
  const swapped = [...w.term];
  if (swapped.length > half) [swapped[half - 1], swapped[half]] = [swapped[half], swapped[half - 1]];
  const [same, middle] = await Promise.all([range(start), entry(swapped.join("")), backRange(end, w.term, out)]);
  if (middle && slips(middle.term) && near(middle.term, w.term)) out.set(middle.term, middle);
  for (const e of same) {
    const longer = w.raw.length - e.term.length;
    const plural = longer >= 0 && longer <= 3 && forms(e.term).some(f => f.startsWith(start) && near(f, w.raw));
    if ((plural || near(e.term, w.term)) && slips(e.term)) out.set(e.term, e);
  }
  return [...out.values()];
}

async function backRange(end, term, out) {
  const from = shardOf(index.backwards, end), to = shardOf(index.backwards, end + last), found = [];
  const read = await Promise.all(Array.from({ length: to - from + 1 }, (_, i) => backwards(from + i)));
  for (const list of read) {
    for (let j = place(list, end); j < list.length && list[j].startsWith(end); j++) {
      if (Math.abs(list[j].length - term.length) > 1) continue;
      const w = [...list[j]].reverse().join("");
      if (near(w, term)) found.push(w);
    }
  }
  await Promise.all(found.map(async w => out.set(w, await entry(w))));
}

/* ---- The query ---- */

// What a source of a word is worth, in hundredths.
const share = { joined: 130, phrase: 120, exact: 100, synonym: 95, beginning: 80, slip: 60, start: 40 };
const mostFiles = 64;  // of postings that a beginning may reach over
const mostWords = 12;

// ask finds what the words of a query stand for. With loose, slips are looked
// for even where a word is known.
async function ask(text, loose) {
  const typed = words(text).slice(0, mostWords);
  const open = /[\p{L}\p{M}\p{N}]$/u.test(text);
  typed.forEach((w, i) => {
    w.open = open && i === typed.length - 1;
    w.sources = new Map();
    w.exact = null;
  });
  const kept = typed.filter((w, i) => typed.findIndex(v => v.term === w.term && v.raw === w.raw) === i || w.open);
  await Promise.all([...typed.map(w => findPlain(w, typed)), findSynonyms(typed)]);
  await Promise.all(kept.map(async w => {
    if ((loose || !w.sources.size && !w.star) && slips(w.raw) && slips(w.term)) {
      for (const e of await slipped(w)) add(w, e, share.slip);
    }
    if (!w.sources.size && !w.star && w.open && slips(w.raw) && w.raw.length >= 4) await findStarts(w);
  }));
  return kept.filter(w => !(w.open && kept.length > 1 && w.raw.length === 1 && !w.exact));
}

function add(w, e, worth) {
  if (!e) return;
  const old = w.sources.get(e.term);
  if (!old || old.worth < worth) w.sources.set(e.term, { entry: e, worth, list: null, done: false });
}

async function findPlain(w, typed) {
  const wait = w.joins.map(async j => add(w, await entry(j), share.joined));
  w.exact = await entry(w.term);
  add(w, w.exact, share.exact);
  if (w.open && (w.raw.length > 1 || typed.length === 1)) await findBeginning(w);
  await Promise.all(wait);
}

// findBeginning finds what an unfinished word may become.
async function findBeginning(w) {
  w.star = await entry(w.raw + "*");
  if (!w.star) for (const e of await range(w.raw)) add(w, e, share.beginning);
  const unfinished = [];
  if (w.raw.endsWith("e")) unfinished.push(w.raw.slice(0, -1));
  if (w.raw.endsWith("i")) unfinished.push(w.raw.slice(0, -1) + "y");
  for (const t of unfinished) {
    if (t && forms(t).some(f => f.startsWith(w.raw))) add(w, await entry(t), share.beginning);
  }
}

async function findSynonyms(typed) {
  const wait = [];
  for (let i = 0; i < typed.length; i++) {
    for (let n = 1; n <= index.longest && i + n <= typed.length; n++) {
      const run = typed.slice(i, i + n), name = run.map(w => w.term).join(" ");
      const others = index.groups.get(name);
      if (!others) continue;
      const find = async (term, worth) => {
        const e = await entry(term);
        for (const w of run) add(w, e, worth);
      };
      if (n > 1) wait.push(find(name, share.phrase));
      for (const o of others) wait.push(find(o, share.synonym));
    }
  }
  await Promise.all(wait);
}

// findStarts finds words that begin as the unfinished word does, but for a slip
// in its second half.
async function findStarts(w) {
  const half = [...w.raw].length >> 1, n = w.raw.length;
  for (const e of await range(w.raw.slice(0, half))) {
    if ([n - 1, n, n + 1].some(k => near(e.term.slice(0, k), w.raw))) add(w, e, share.start);
  }
}

// expand puts the words that a beginning stands for in its place.
async function expand(w) {
  const found = await range(w.raw);
  if (found.length && found[found.length - 1].head[0] - found[0].head[0] >= mostFiles) {
    w.starDone = true;
    w.more = true;
    return;
  }
  for (const e of found) add(w, e, share.beginning);
  w.starDone = true;
  await readHeads(w);
}

/* ---- The ranking ---- */

const steps = [1];
while (steps.length < 91) steps.push(steps[steps.length - 1] * 1.1331484530668263);

function weight(found) {
  const rarity = 1 + (index.n - found + 0.5) / (found + 0.5);
  let at = 0;
  while (at + 1 < 91 && rarity >= steps[at + 1]) at++;
  return Math.max(at, 1);
}

async function readHeads(w) {
  const waiting = [...w.sources.values()].filter(s => !s.list);
  if (w.star && !w.starList) {
    w.starList = await lists("p", w.star.head);
    take(w, w.starList, share.beginning);
    if (!w.star.cut) w.starDone = true;
  }
  await readMany("p", waiting, s => s.entry.head);
  for (const s of waiting) {
    s.done = !s.entry.tail;
    if (!s.entry.weight) s.entry.weight = weight(s.list.docs.length);
    take(w, s.list, s.worth);
  }
}

// readMany reads the next list of each source, passing through each file once.
async function readMany(kind, sources, where) {
  const byFile = new Map();
  for (const s of sources) {
    const [file] = where(s);
    byFile.set(file, [...(byFile.get(file) || []), s]);
  }
  await Promise.all([...byFile].map(async ([number, group]) => {
    const bits = new Bits(await file(kind, number));
    let at = 0;
    group.sort((a, b) => where(a)[1] - where(b)[1]);
    for (const s of group) {
      while (at < where(s)[1]) { list(bits, index.n); at++; }
      s.list = list(bits, index.n);
      at++;
    }
  }));
}

// take notes what documents are worth for a word.
function take(w, { docs, levels }, worth) {
  for (let i = 0; i < docs.length; i++) {
    const d = docs[i], value = worth * index.levels[levels[i]];
    if (!w.best[d]) w.docs.push(d);
    if (value > w.best[d]) w.best[d] = value;
  }
}

// rest says what documents not yet read of can still be worth for a word: high
// from the document from on, low before it.
function rest(w) {
  let high = 0, low = 0, from = Infinity;
  const left = [...w.sources.values()].filter(s => !s.done).map(s => [s.list, s.worth]);
  if (w.star && !w.starDone) left.push([w.starList, share.beginning]);
  for (const [list, worth] of left) {
    const n = list.docs.length - 1, level = list.levels[n];
    high = Math.max(high, worth * index.levels[level]);
    low = Math.max(low, level ? worth * index.levels[level - 1] : 0);
    from = Math.min(from, list.docs[n] + 1);
  }
  Object.assign(w, { high, low, from: left.length > 1 ? 0 : from, open_: left.length > 0 });
}

const pool = [];   // arrays used again

// rank finds the first documents of all that have every word, or with some, any
// word. It answers { docs, total, more }: more where the total is not known.
async function rank(asked, need, allowed, bonus, some) {
  asked.forEach((w, i) => {
    pool[i] ||= new Uint16Array(index.n);
    w.best = pool[i].fill(0);
    w.docs = [];
    w.starList = null;
    w.starDone = w.more = false;
    for (const s of w.sources.values()) {
      s.list = null;
      s.done = false;
    }
  });
  await Promise.all(asked.map(readHeads));
  for (const w of asked) {
    const weights = [...w.sources.values()].map(s => s.entry.weight);
    if (w.star) weights.push(w.star.weight);
    w.weight = w.exact ? w.exact.weight : Math.min(90, ...weights);
    w.needed = !some && !(w.exact && w.exact.cut);
  }
  const needed = !some && asked.some(w => w.needed);
  for (;;) {
    asked.forEach(rest);
    const found = best(asked, need, allowed, bonus, needed);
    if (!found.unsure.size) return { docs: found.docs, total: found.sure, more: found.open || asked.some(w => w.more) };
    // of the words that leave a doubt, the rarest has the least to read
    const next = [...found.unsure].sort((a, b) => b.weight - a.weight)[0];
    await readOn(next);
  }
}

async function readOn(w) {
  const tails = [...w.sources.values()].filter(s => !s.done);
  if (w.star && !w.starDone) return expand(w);
  await readMany("x", tails, s => s.entry.tail);
  for (const s of tails) {
    s.done = true;
    take(w, s.list, s.worth);
  }
}

// best are the documents that come first if every doubt goes their way, and the
// words that leave a doubt about one of them.
function best(asked, need, allowed, bonus, needed) {
  const top = [], n = index.n, k = asked.length;
  let sure = 0, open = false;
  const consider = d => {
    if (allowed && !allowed[d]) return;
    let score = bonus.get(d) || 0, doubt = false, any = !k;
    for (let i = 0; i < k; i++) {
      const w = asked[i], has = w.best[d], may = d >= w.from ? w.high : w.low;
      if (has >= may && has) any = true;
      if (may > has) {
        doubt = true;
        any = true;
        score += w.weight * may;
      } else if (has) {
        score += w.weight * has;
      } else if (needed && w.needed) {
        return;
      }
    }
    if (!any) return;
    if (doubt) open = true; else sure++;
    if (top.length === need) {
      const low = top[need - 1];
      if (score < low.score || score === low.score && d > low.d) return;
      top.pop();
    }
    let at = top.length;
    while (at && (top[at - 1].score < score || top[at - 1].score === score && top[at - 1].d > d)) at--;
    top.splice(at, 0, { d, score, doubt });
  };
  const few = needed ? asked.filter(w => w.needed && !w.open_).sort((a, b) => a.docs.length - b.docs.length)[0] : null;
  if (few) few.docs.forEach(consider); else for (let d = 0; d < n; d++) consider(d);
  const unsure = new Set();
  for (const { d, doubt } of top) {
    if (doubt) for (const w of asked) if ((d >= w.from ? w.high : w.low) > w.best[d]) unsure.add(w);
  }
  return { docs: top.map(t => t.d), sure, open, unsure };
}

// titled are the documents whose whole title or name was typed.
async function titled(text) {
  const typed = words(text);
  const found = new Map();
  if (!typed.length) return found;
  const name = typed.map(w => w.term).join(" ");
  let h = 2166136261;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 16777619);
  h = (h >>> 0) % (91 * 91 * 91);
  const { keys } = await chapter(shardOf(index.words, typed[0].term));
  const wide = index.n <= 91 * 91 ? 2 : 3;
  const value = (at, n) => { let v = 0; for (let i = 0; i < n; i++) v = v * 91 + digit[keys.charCodeAt(at + i)]; return v; };
  for (let at = 0; at < keys.length; at += 3 + wide) if (value(at, 3) === h) found.set(value(at + 3, wide), 1e12);
  return found;
}

// answer finds the first documents for a query: those that have all words as
// they are written, then, if they are few, those that have them but for a slip,
// and where there are none, those that have any of them.
// What is found before slips are looked for is handed to early, and shown before
// more is read.
async function answer(text, need, allowed, early) {
  opening ||= openIndex();
  await opening;
  Promise.resolve(file("pieces")).catch(() => {});   // needed in the end, so asked for now
  let asked = await ask(text, false);
  const bonus = await titled(text);
  const known = asked.every(w => w.sources.size || w.star);
  if (!asked.length && !allowed) return { docs: [], total: 0, asked };
  const all = [asked];
  const result = known ? await rank(asked, need, allowed, bonus, false) : { docs: [], total: 0 };
  result.how = "all";
  if (early) await early(result.docs, asked);
  if (asked.length && result.docs.length < Math.min(need, 10) && !result.more) {
    asked = await ask(text, true);
    all.push(asked);
    if (asked.every(w => w.sources.size || w.star)) {
      const more = await rank(asked, need + result.docs.length, allowed, bonus, false);
      const fresh = more.docs.filter(d => !result.docs.includes(d));
      result.near = fresh.length;
      result.docs = [...result.docs, ...fresh].slice(0, need);
      result.total = Math.max(more.total, result.docs.length);
      result.more = more.more;
    }
    if (!result.docs.length) {
      const some = asked.filter(w => w.sources.size || w.star);
      Object.assign(result, some.length ? await rank(some, need, allowed, bonus, true) : {}, { how: "any" });
    }
  }
  result.asked = all.flat();
  return result;
}

/* ---- Pages found ---- */

const leaves = new Map();   // documents read before

// leaf reads address, kind, title and text of a document.
async function leaf(d) {
  if (!leaves.has(d)) {
    const read = await readLeaf(d);
    if (leaves.size >= 500) leaves.delete(leaves.keys().next().value);
    leaves.set(d, read);
  }
  return leaves.get(d);
}

async function readLeaf(d) {
  const [, text] = await Promise.all([
    index.pieces || Promise.resolve(file("pieces")).then(p => { index.pieces ||= new Code(p); }),
    file("t", Math.floor(d / 4)),
  ]);
  const bits = new Bits(text.split(" ")[d % 4]);
  let all = "", fields = 0;
  while (fields < 4) {
    const piece = index.pieces.piece(bits);
    all += piece;
    if (piece.includes("\n")) fields++;
  }
  const [address, kind, title, words] = all.replace(/\x01( ?)([a-z])/g, (_, space, c) => space + c.toUpperCase()).split("\n");
  return { address, kind, title, text: words };
}

// marker makes the test of which words of a text were found.
function marker(asked) {
  const terms = new Set(), phrases = [], beginnings = [];
  for (const w of asked) {
    for (const s of w.sources.values()) {
      if (s.entry.term.includes(" ")) phrases.push(s.entry.term.split(" ")); else terms.add(s.entry.term);
    }
    if (w.open && (w.star || w.sources.size)) beginnings.push(w.raw);
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
async function allowance() {
  let allowed = null;
  for (const s of selects) {
    if (!s.value) continue;
    opening ||= openIndex();
    await opening;
    const { docs } = await lists("f", s.value.split(" ").map(Number));
    const next = new Uint8Array(index.n);
    for (const d of docs) if (!allowed || allowed[d]) next[d] = 1;
    allowed = next;
  }
  return allowed;
}

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
// are read. What stands there for the same document and query stays.
async function fillIn(docs, mark, text) {
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
      opening = index ? opening : null;
      status.textContent = "The search cannot read its index. The lists below have every page.";
      page.dispatchEvent(new CustomEvent("failed", { detail: String(err) }));
    }
  } while (again);
  busy = false;
}

function changed() {
  need = inTen;
  keepPlace();
  run();
}

// keepPlace writes the query into the address, so that it can be kept and sent.
function keepPlace() {
  const place = new URLSearchParams();
  if (input.value) place.set("q", input.value);
  for (const s of selects) if (s.value) place.set(s.name, s.selectedOptions[0].dataset.value);
  try {
    history.replaceState(null, "", "#" + place);
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
opening = openIndex();
opening.catch(() => { opening = null; });
takePlace();
// for trying the parts out
window.hembook.parts = { words, forms, near, answer, allowance, leaf };
})();
