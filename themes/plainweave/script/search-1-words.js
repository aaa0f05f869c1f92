// What the search page's scripts share: how the index is packed and how text
// becomes words. The program's internal/search/bits.go, coder.go and words.go
// write what is read here; whoever changes one changes both.
(() => {
"use strict";
if (!document.getElementById("search")) return;

// Every file of the index calls this with its name and contents.
window.hembook = (name, data) => hembook.take(name, data);

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
  // more says whether anything but the noughts of the end is left.
  more() {
    return this.at < this.text.length || this.held > 0;
  }
  skip(n) {
    this.n -= n;
    this.held &= (1 << this.n) - 1;
  }
  read(n) {
    const value = this.peek(n);
    this.skip(n);
    return value;
  }
  // noughts counts them up to the next one, and passes over it.
  noughts() {
    for (let count = 0; count < 64; count += 13) {
      const n = Math.clz32(this.peek(13) << 19);
      if (n < 13) {
        this.skip(n + 1);
        return count + n;
      }
      this.skip(13);
    }
    throw new Error("the index is damaged");
  }
  gamma() {
    const n = this.noughts();
    return n > 16 ? 1 << n | this.read(n - 16) << 16 | this.read(16) : 1 << n | this.read(n);
  }
  rice(k) {
    let q = 0;
    for (;;) {
      const n = Math.clz32(~(this.peek(13) << 19));
      if (n < 13) {
        this.skip(n + 1);
        q += n;
        break;
      }
      this.skip(13);
      q += 13;
    }
    return k > 16 ? q << k | this.read(k - 16) << 16 | this.read(16) : q << k | this.read(k);
  }
}

// Lists are all lists of postings of one file, one after the other: for each
// posting, best first, its document and its level.
class Lists {
  constructor(text, n) {
    this.docs = new Uint32Array(1024);
    this.levels = new Uint8Array(1024);
    this.ends = [];
    const bits = new Bits(text);
    let at = 0;
    while (bits.more()) {
      at = this.add(bits, n, at);
      this.ends.push(at);
    }
    this.docs = this.docs.slice(0, at);
    this.levels = this.levels.slice(0, at);
  }
  add(bits, n, at) {
    let left = bits.gamma() - 1;
    if (at + left > this.docs.length) this.grow(at + left);
    if (!left) return at;
    const { docs, levels } = this, top = bits.read(4);
    for (let level = top; left > 0; level--) {
      const count = level === top ? bits.gamma() : level > 0 ? bits.gamma() - 1 : left;
      if (!count) continue;
      left -= count;
      let k = 0;
      while (count * 3 * 2 ** (k + 1) <= 2 * n) k++;
      for (let last = -1, end = at + count; at < end; at++) {
        last += bits.rice(k) + 1;
        docs[at] = last;
        levels[at] = level;
      }
    }
    return at;
  }
  grow(size) {
    const { docs, levels } = this;
    this.docs = new Uint32Array(size * 2);
    this.levels = new Uint8Array(size * 2);
    this.docs.set(docs);
    this.levels.set(levels);
  }
  list(i) {
    const from = i ? this.ends[i - 1] : 0, to = this.ends[i];
    return { docs: this.docs.subarray(from, to), levels: this.levels.subarray(from, to) };
  }
}

// A Code reads what was written in pieces. Short codes are looked up by their
// first bits.
const quick = 10;

class Code {
  constructor(perLength, pieces) {
    this.perLength = perLength;
    this.pieces = pieces;
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
  // text reads so many lines.
  text(bits, lines) {
    let all = "";
    while (lines > 0) {
      const piece = this.piece(bits);
      all += piece;
      if (piece.includes("\n")) lines--;
    }
    return all;
  }
  piece(bits) {
    const ahead = bits.peek(quick), n = this.length[ahead];
    if (n) {
      bits.skip(n);
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
  if (!w.endsWith("s") && !w.endsWith("ie")) return w;
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
  if (split.size > 12000) split.clear();
  out = plainWord.test(run) ? onePart(run) : cut(run);
  split.set(run, out);
  return out;
}

const plainWord = /^[A-Za-z]{1,40}[.,]?$/;   // nearly every run, so it has a way of its own

function onePart(run) {
  const raw = run.toLowerCase().replace(/[.,]$/, "");
  return [{ raw, term: singular(raw), number: false, glued: false }];
}

function cut(run) {
  const out = [];
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

/* ---- Questions: as internal/search/question.go ---- */

const little = new Set(("a about after an and are as at be been before but by can could did do doe done for from had " +
  "has have how i in is it its made make much many must my need needed not of on or " +
  "should than that the then there these they this to use used was we were what when where " +
  "which who why will with you your " +
  "das der die ein eine ist und wie zu").split(" "));

// content are the words of a text that are looked for: all of them where there are
// none but little ones.
function content(list) {
  const out = list.filter(w => !little.has(w.term));
  return out.length ? out : list;
}

// What asks for what: any of the words of each group, one group after the other,
// whatever stands between.
const asking = [
  ["time", "how", "long", "take took taken"], ["time", "how", "many much", "hour minute time"], ["time", "wie", "lange"],
  ["length", "how", "long"], ["size", "how", "wide big large"], ["size", "what which", "size"],
  ["cloth", "how", "much many", "cloth fabric material metre meter yard yardage"], ["cloth", "wie", "viel", "stoff"],
  ["weight", "how", "heavy"], ["weight", "how what", "much", "weigh weight"], ["cost", "how what", "much", "cost"],
  ["needle", "what which", "needle"], ["stitch", "stitch", "length"],
  ["ease", "how", "much", "room"], ["ease", "ease"],
  ["care", "can how may", "be to", "washed wash ironed iron bleached cleaned laundered"],
].map(([to, ...groups]) => ({ to, groups: groups.map(g => new Set(g.split(" "))) }));

// kept are words that ask and are looked for too.
const kept = new Set("needle stitch ease washed wash ironed iron bleached cleaned laundered".split(" "));

// question is what is asked for, with the other words; null for a query that asks
// for no figure, or for a figure of nothing.
function question(list) {
  for (const { to, groups } of asking) {
    let next = 0;
    const asks = new Set();
    for (const w of list) {
      if (next < groups.length && (groups[next].has(w.raw) || groups[next].has(w.term))) {
        next++;
        if (!kept.has(w.raw)) asks.add(w);
      }
    }
    if (next < groups.length) continue;
    const rest = list.filter(w => !asks.has(w) && !little.has(w.term));
    if (rest.length) return { to, rest };
  }
  return null;
}

// kin are the words that are made of the same stem: hemming, hemmed and hem. A known
// word in -er is taken for a thing, and not for who does it: a shoulder, a corner.
function kin(term, known) {
  if (!/^[a-z]{3,}$/.test(term)) return [];
  const stems = new Set([term]);
  for (const end of ["ing", "ed", "er"]) {
    const stem = term.slice(0, -end.length);
    if (!term.endsWith(end) || stem.length < 3 || known && end === "er") continue;
    stems.add(stem).add(stem + "e");
    if (/([^aeiou])\1$/.test(stem)) stems.add(stem.slice(0, -1));
  }
  const out = new Set(stems);
  for (const s of stems) {
    const ends = ["ing", "ed", "er"];
    if (s.endsWith("e")) ends.forEach(e => out.add(s.slice(0, -1) + e));
    else ends.forEach(e => out.add(s + e).add(s + s[s.length - 1] + e));
  }
  out.delete(term);
  return [...out].filter(w => !little.has(w));
}

hembook.parts = { Bits, Code, Lists, digit, words, forms, near, slips, content, question, kin };
})();
