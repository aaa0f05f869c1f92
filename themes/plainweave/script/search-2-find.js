// Answers queries from the index that stands beside the search page. The index is
// read in small scripts, only those that a query needs, because a page opened
// from a folder may read nothing else. What the files hold is written down in the
// program's internal/search/shards.go and the ranking in score.go; whoever changes
// one changes both.
(() => {
"use strict";
const page = document.getElementById("search");
if (!page) return;
const { Bits, Code, Lists, digit, words, forms, near, slips, content, question, kin } = hembook.parts;

/* ---- Files ---- */

const asked = new Map();   // name → promise and what settles it

// A Store keeps things by name, the longest unused of them going first once they
// take more than so many bytes, about.
class Store {
  constructor(most, sizeOf) {
    Object.assign(this, { most, sizeOf, size: 0, held: new Map() });
  }
  get(name) {
    const thing = this.held.get(name);
    if (thing !== undefined) {
      this.held.delete(name);
      this.held.set(name, thing);
    }
    return thing;
  }
  set(name, thing) {
    this.held.set(name, thing);
    this.size += this.sizeOf(thing);
    for (const [old, was] of this.held) {
      if (this.size <= this.most || old === name) break;
      if (lasting.has(old)) continue;
      this.held.delete(old);
      this.size -= this.sizeOf(was);
    }
  }
}

// Lists take several times more room ready than packed, and a millisecond or so
// brings those of a query back: two hundred slips among 100 000 pages read more
// than 32 MB of them.
const kept = new Store(14e6, data => typeof data === "string" ? data.length : data.docs ? 400 + data.docs.length * 5 :
  data.terms ? 400 + data.terms.length * 40 : 2000);
const packed = new Store(14e6, text => text.length);

// Every file of the index calls this with its name and contents.
hembook.take = (name, data) => {
  const wish = asked.get(name);
  if (!wish) return;
  asked.delete(name);
  let made;
  try {
    made = readyMade(name, data);
  } catch (err) {
    wish.failed(err);
    return;
  }
  if (isLists(name)) packed.set(name, data);
  kept.set(name, made);
  wish.done(made);
};
const lasting = new Set(["first", "pieces", "facets"]);

const isLists = name => !lasting.has(name) && !"drkt".includes(name[0]);

// readyMade is what a file holds, as it is used.
function readyMade(name, data) {
  if (lasting.has(name)) return data;
  switch (name[0]) {
    case "d": return chapterOf(data);
    case "r": return { terms: fronts(data) };
    case "k": case "t": return data;
    default: return new Lists(data, index.n);
  }
}

// file reads one file of the index: "first", or a kind and a number.
function file(kind, number) {
  const name = number === undefined ? kind : kind + number;
  const made = kept.get(name);
  if (made !== undefined) return made;
  const text = packed.get(name);
  if (text !== undefined) {
    const again = readyMade(name, text);
    kept.set(name, again);
    return again;
  }
  if (asked.has(name)) return asked.get(name).promise;
  const wish = {};
  wish.promise = new Promise((done, failed) => Object.assign(wish, { done, failed }));
  asked.set(name, wish);
  const script = document.createElement("script");
  script.async = true;
  script.fetchPriority = "high";   // the reader waits for it
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

// list reads the list at a place of a file.
async function list(kind, place) {
  return (await file(kind, place[0])).list(place[1]);
}

// warm asks for a file that is needed soon.
function warm(kind, number) {
  Promise.resolve(file(kind, number)).catch(() => {});
}

/* ---- The dictionary ---- */

let index;     // first.js, made ready
let opening;

// ready waits for the index; after a failure the next question tries again.
function ready() {
  opening ||= openIndex().catch(err => {
    opening = null;
    throw err;
  });
  return opening;
}

async function openIndex() {
  const data = await file("first");
  const split = (s, c) => s === "" ? [] : s.split(c);
  const ready = { n: data.n, titles: data.titles, levels: data.levels, words: data.words.split(","), backwards: data.backwards.split(","),
    letters: new Code(data.letters[0], data.letters[1].split("|")), groups: new Map(), longest: 1, pieces: null };
  for (const group of split(data.synonyms, ",")) {
    const members = group.split("|"), known = members.filter(m => m[0] !== "~");   // the others stand nowhere
    for (const m of members.map(m => m.replace("~", ""))) {
      ready.groups.set(m, [...(ready.groups.get(m) || []), ...known.filter(o => o !== m)]);
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

// fronts reads words that each take letters from the one before.
function fronts(text) {
  const packed = index.letters.text(new Bits(text), 1).slice(0, -1), wide = /[\ud800-\udfff]/.test(packed), out = [];
  let last = "";
  for (let at = 0, next; at < packed.length; at = next) {
    const taken = packed.charCodeAt(at) - 65;
    for (next = at + 1; next < packed.length && !capital(packed.charCodeAt(next));) next++;
    last = (wide ? [...last].slice(0, taken).join("") : last.slice(0, taken)) + packed.slice(at + 1, next);
    out.push(last);
  }
  return out;
}

const capital = unit => unit > 64 && unit < 91;

// chapterOf makes a shard of the dictionary ready.
function chapterOf([text, weights, head, headAt, newHeads, tail, tailAt, withTail, newTails, cut]) {
  const c = { terms: fronts(text), weights: new Map(), head, headAt, newHeads, tail, tailAt, withTail, newTails, cut };
  const own = new Set([...withTail, ...cut]);
  let w = 0;
  c.terms.forEach((term, i) => {
    if (own.has(i) || term.endsWith("*")) c.weights.set(i, digit[weights.charCodeAt(w++)]);
  });
  return c;
}

// entryAt is what a shard says of the term at a place.
function entryAt(c, i) {
  const heads = upTo(c.newHeads, i), tail = upTo(c.withTail, i) - 1, tails = upTo(c.newTails, i);
  return { term: c.terms[i], cut: c.cut[upTo(c.cut, i) - 1] === i, weight: c.weights.get(i) || 0,
    head: [c.head + heads, heads ? i - c.newHeads[heads - 1] : c.headAt + i],
    tail: c.withTail[tail] !== i ? null : [c.tail + tails, tails ? tail - upTo(c.withTail, c.newTails[tails - 1]) + 1 : c.tailAt + tail] };
}

// upTo counts the sorted numbers that are at most i.
function upTo(numbers, i) {
  let low = 0, high = numbers.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (numbers[mid] <= i) low = mid + 1; else high = mid;
  }
  return low;
}

const chapter = i => file("d", i);

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
  return c.terms[i] === term ? entryAt(c, i) : null;
}

const last = "\uffff";

// range finds the entries of all words with a beginning, or of those among them
// that may be meant.
async function range(beginning, may) {
  const from = shardOf(index.words, beginning), to = shardOf(index.words, beginning + last);
  const out = [];
  const read = await Promise.all(Array.from({ length: to - from + 1 }, (_, i) => chapter(from + i)));
  for (const c of read) {
    for (let i = place(c.terms, beginning); i < c.terms.length && c.terms[i].startsWith(beginning); i++) {
      if (!/[ *]/.test(c.terms[i]) && (!may || may(c.terms[i]))) out.push(entryAt(c, i));
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
  const meant = term => {
    const longer = w.raw.length - term.length;
    const plural = longer >= 0 && longer <= 3 && forms(term).some(f => f.startsWith(start) && near(f, w.raw));
    return (plural || near(term, w.term)) && slips(term);
  };
  const [same, middle] = await Promise.all([range(start, meant), entry(swapped.join("")), backRange(end, w.term, out)]);
  if (middle && slips(middle.term) && near(middle.term, w.term)) out.set(middle.term, middle);
  for (const e of same) out.set(e.term, e);
  return [...out.values()];
}

async function backRange(end, term, out) {
  const from = shardOf(index.backwards, end), to = shardOf(index.backwards, end + last), found = [];
  const read = await Promise.all(Array.from({ length: to - from + 1 }, (_, i) => file("r", from + i)));
  for (const { terms: list } of read) {
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
const share = { joined: 130, phrase: 120, exact: 100, synonym: 95, beginning: 80, kin: 70, slip: 60, start: 40 };
const mostFiles = 64;  // of postings that a beginning may reach over
const mostWords = 12;

// ask finds what the words of a query stand for. With loose, slips are looked for
// even where a word is known; a short word that is known is never taken for another.
async function ask(text, loose) {
  const all = words(text).slice(0, mostWords), asks = question(all), typed = asks ? asks.rest : content(all);
  const open = /[\p{L}\p{M}\p{N}]$/u.test(text);
  all.forEach((w, i) => {
    w.unfinished = open && i === all.length - 1;
    w.sources = new Map();
    w.exact = null;
  });
  const kept = typed.filter((w, i) => typed.findIndex(v => v.term === w.term && v.raw === w.raw) === i || w.unfinished);
  await Promise.all([...typed.map(w => findPlain(w, typed)), findSynonyms(all)]);   // of some phrases a little word is a part
  await Promise.all(kept.map(async w => {
    await Promise.all(kin(w.term, !!w.exact).map(async k => add(w, await entry(k), share.kin)));
    const short = w.exact && [...w.raw].length <= 4;
    if ((loose || !w.sources.size && !w.star) && !short && slips(w.raw) && slips(w.term)) {
      for (const e of await slipped(w)) add(w, e, share.slip);
    }
    if (!w.sources.size && !w.star && w.unfinished && slips(w.raw) && w.raw.length >= 4) await findStarts(w);
  }));
  return kept.filter(w => !(w.unfinished && kept.length > 1 && w.raw.length === 1 && !w.exact));
}

function add(w, e, worth) {
  if (!e) return;
  warm("p", e.head[0]);
  const old = w.sources.get(e.term);
  if (!old || old.worth < worth) w.sources.set(e.term, { entry: e, worth, list: null, done: false });
}

async function findPlain(w, typed) {
  const wait = w.joins.map(async j => add(w, await entry(j), share.joined));
  w.exact = await entry(w.term);
  add(w, w.exact, share.exact);
  if (w.unfinished && (w.raw.length > 1 || typed.length === 1)) await findBeginning(w);
  await Promise.all(wait);
}

// findBeginning finds what an unfinished word may become.
async function findBeginning(w) {
  warm("d", shardOf(index.words, w.raw + "*"));
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
    w.starList = await list("p", w.star.head);
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

// readMany reads the next list of each source.
async function readMany(kind, sources, where) {
  await Promise.all(sources.map(async s => { s.list = await list(kind, where(s)); }));
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
  Object.assign(w, { high, low, from: left.length > 1 ? 0 : from, open: left.length > 0 });
}

const pool = [];   // arrays used again

// rank finds the first documents of all that have every word, or with some, any
// word. It answers { docs, total, more }: more where the total is not known. The
// first of them are handed to soon before lists are read on for the others.
async function rank(asked, need, allowed, bonus, some, soon) {
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
    if (!found.unsure.size) return { docs: found.docs.map(t => t.d), total: found.sure, more: found.open || asked.some(w => w.more) };
    if (soon && !found.docs[0].doubt) {
      await soon(found.docs.slice(0, found.docs.findIndex(t => t.doubt)).map(t => t.d));
      soon = null;
    }
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
  const few = needed ? asked.filter(w => w.needed && !w.open).sort((a, b) => a.docs.length - b.docs.length)[0] : null;
  if (few) {
    few.docs.forEach(consider);
  } else if (!k) {
    for (let d = 0; d < n; d++) consider(d);
  } else {
    asked.forEach((w, i) => {
      for (const d of w.docs) if (firstWith(asked, d) === i) consider(d);
    });
    if (asked.some(w => w.open)) unread(asked, need, allowed).forEach(consider);
  }
  const unsure = new Set();
  for (const { d, doubt } of top) {
    if (doubt) for (const w of asked) if ((d >= w.from ? w.high : w.low) > w.best[d]) unsure.add(w);
  }
  return { docs: top, sure, open, unsure };
}

// firstWith is the place of the first word that a document has been read for.
function firstWith(asked, d) {
  let i = 0;
  while (i < asked.length && !asked[i].best[d]) i++;
  return i;
}

// unread are documents that no word has been read of, as many as can come first:
// they are worth the same from one place where a list was left to the next.
function unread(asked, need, allowed) {
  const out = new Set();
  for (const from of [0, ...asked.map(w => w.from)]) {
    for (let d = from, found = 0; d < index.n && found < need; d++) {
      if (firstWith(asked, d) < asked.length || allowed && !allowed[d]) continue;
      out.add(d);
      found++;
    }
  }
  return out;
}

// What puts a document first, in scores: that its whole title was typed, and above
// that, that it knows the figure that was asked for.
const titleWorth = 1e12, answerWorth = 2e12;

// first are the documents that come before others whatever their words are worth.
async function first(text) {
  const all = words(text), asks = question(all);
  const [found, answers] = await Promise.all([titled(asks ? asks.rest : content(all)), asks ? answering(asks.to) : []]);
  for (const d of answers) found.set(d, (found.get(d) || 0) + answerWorth);
  return found;
}

// answering are the documents that know a figure.
async function answering(to) {
  const e = await entry("?" + to);
  if (!e) return [];
  const lists = await Promise.all([list("p", e.head), ...(e.tail ? [list("x", e.tail)] : [])]);
  return lists.flatMap(l => [...l.docs]);
}

// titled are the documents whose whole title or name was typed.
async function titled(typed) {
  const found = new Map();
  if (!typed.length) return found;
  const name = typed.map(w => w.term).join(" ");
  let h = 2166136261;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 16777619);
  h >>>= 1;
  const keys = await file("k", h % index.titles);
  const wide = index.n <= 91 * 91 ? 2 : 3;
  const value = (at, n) => { let v = 0; for (let i = 0; i < n; i++) v = v * 91 + digit[keys.charCodeAt(at + i)]; return v; };
  for (let at = 0; at < keys.length; at += 5 + wide) if (value(at, 5) === h) found.set(value(at + 5, wide), titleWorth);
  return found;
}

// answer finds the first documents for a query: those that have all words as
// they are written, then, if they are few, those that have them but for a slip,
// and where there are none, those that have any of them.
// What is found before slips are looked for is handed to early, and shown before
// more is read.
async function answer(text, need, allowed, early) {
  await ready();
  warm("pieces");   // needed in the end, so asked for now
  let [asked, bonus] = await Promise.all([ask(text, false), first(text)]);
  const plain = asked, soon = early && (docs => early(docs, plain));
  const known = asked.every(w => w.sources.size || w.star);
  if (!asked.length && !allowed) return { docs: [], total: 0, asked };
  const all = [asked];
  const result = known ? await rank(asked, need, allowed, bonus, false, soon) : { docs: [], total: 0 };
  result.how = "all";
  if (soon) await soon(result.docs);
  const asTitled = bonus.get(result.docs[0]) % answerWorth > 0;   // nobody types a whole title by a slip
  if (asked.length && result.docs.length < Math.min(need, 10) && !result.more && !asTitled) {
    asked = await ask(text, true);
    all.push(asked);
    if (asked.every(w => w.sources.size || w.star)) {
      const more = await rank(asked, need + result.docs.length, allowed, bonus, false);
      const fresh = more.docs.filter(d => !result.docs.includes(d));
      result.near = new Set(fresh.filter(d => bySlip(asked, d)));
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
  result.asks = question(words(text).slice(0, mostWords));
  return result;
}

// bySlip says whether a document has one of the words in no way but by a slip.
function bySlip(asked, d) {
  return asked.some(w => ![...w.sources.values()].some(s => s.worth > share.slip && s.list && s.list.docs.includes(d)) &&
    !(w.starList && w.starList.docs.includes(d)));
}

// allow reads which documents have all of some values of facets, given by their
// places; null for none.
async function allow(places) {
  if (!places.length) return null;
  await ready();
  let allowed = null;
  for (const place of places) {
    const { docs } = await list("f", place);
    const next = new Uint8Array(index.n);
    for (const d of docs) if (!allowed || allowed[d]) next[d] = 1;
    allowed = next;
  }
  return allowed;
}

/* ---- Pages found ---- */

const leaves = new Map();   // documents read before

const TEXTS_IN_FILE = 8;

// leaf reads address, kind, title and text of a document, the page that it is a
// part of, and what figures it knows.
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
    index.pieces || Promise.resolve(file("pieces")).then(([perLength, pieces]) => {
      index.pieces ||= new Code(perLength, fronts(pieces).map(p => p.replaceAll("\x02", "\n")));
    }),
    file("t", Math.floor(d / TEXTS_IN_FILE)),
  ]);
  const bits = new Bits(text.split(" ")[d % TEXTS_IN_FILE]);
  const all = index.pieces.text(bits, 7);
  const [address, kind, title, page, under, answers, words] =
    all.replace(/\x01( ?)([a-z])/g, (_, space, c) => space + c.toUpperCase()).split("\n");
  const known = new Map(answers ? answers.split(" | ").map(a => a.split(/: (.*)/s)) : []);
  return { address, kind, title, page: page || (under ? address.split("#")[0] : address), under, answers: known, text: words };
}

Object.assign(hembook.parts, { file, ready, answer, allow, leaf });
})();
