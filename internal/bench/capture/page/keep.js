// What was taken down, kept on this phone until it is in the workroom's
// records. Nothing leaves this store but by the workroom's word that it is
// kept, or by the maker's.

const kept = 40; // slips shown after they are in the records

const open = new Promise((resolve, reject) => {
  const asked = indexedDB.open("bench", 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("slips", { keyPath: "n", autoIncrement: true });
    asked.result.createObjectStore("seen");
  };
  asked.onsuccess = () => resolve(asked.result);
  asked.onerror = () => reject(asked.error);
  asked.onblocked = () => reject(new Error("the bench is open twice on this phone: close the other one"));
});

// within runs requests in one transaction and waits until it is on the disk.
async function within(stores, mode, work) {
  const store = await open;
  return new Promise((resolve, reject) => {
    const all = store.transaction(stores, mode, { durability: "strict" });
    let out;
    all.oncomplete = () => resolve(out && "result" in out ? out.result : out);
    all.onabort = all.onerror = () => reject(all.error || new Error("this phone could not save it"));
    out = work(...stores.map((name) => all.objectStore(name)));
  });
}

const changed = new Set();
const elsewhere = "BroadcastChannel" in self ? new BroadcastChannel("bench") : null;

// onChange calls back whenever the store changes, from any page of the bench.
export function onChange(call) {
  changed.add(call);
  if (elsewhere) elsewhere.onmessage = () => changed.forEach((c) => c());
}

function tell() {
  changed.forEach((call) => call());
  if (elsewhere) elsewhere.postMessage("changed");
}

// newID is 128 bits at random, in hex.
export function newID() {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
}

// add keeps a slip. It is held back for so many milliseconds, in which it may
// be taken back; instead names a slip that it takes the place of.
export async function add(slip, { photo = null, hold = 0, instead = null } = {}) {
  const one = { id: slip.id || newID(), state: "waiting", made: Date.now(), held: Date.now() + hold };
  one.slip = { ...slip, id: one.id };
  if (photo) one.photo = { data: await photo.arrayBuffer(), type: photo.type };
  const n = await within(["slips"], "readwrite", (slips) => {
    if (instead !== null) slips.delete(instead);
    return slips.add(one);
  });
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
  tell();
  return n;
}

// all are the slips in the order they were made.
export function all() {
  return within(["slips"], "readonly", (slips) => slips.getAll());
}

// change sets what is known of a slip, if it is there still.
export async function change(n, what) {
  await within(["slips"], "readwrite", (slips) => {
    const got = slips.get(n);
    got.onsuccess = () => {
      if (!got.result) return;
      const one = { ...got.result, ...what };
      if (one.state === "kept") delete one.photo;
      slips.put(one);
    };
  });
  tell();
}

// remove takes a slip away.
export async function remove(n) {
  await within(["slips"], "readwrite", (slips) => slips.delete(n));
  tell();
}

// tidy lets the oldest of the slips go that are in the records.
export async function tidy() {
  const done = (await all()).filter((one) => one.state === "kept");
  if (done.length <= kept) return;
  await within(["slips"], "readwrite", (slips) => done.slice(0, done.length - kept).forEach((one) => slips.delete(one.n)));
}

// remember and recall hold what was last seen of the workroom, and drafts.
export function remember(key, value) {
  return within(["seen"], "readwrite", (seen) => (value === undefined ? seen.delete(key) : seen.put(value, key)));
}

export function recall(key) {
  return within(["seen"], "readonly", (seen) => seen.get(key));
}

// forget empties the store.
export async function forget() {
  await within(["slips", "seen"], "readwrite", (slips, seen) => {
    slips.clear();
    seen.clear();
  });
  tell();
}
