// The units that a reader chose stay chosen.
// Without this script the choice holds for the page it is made on.
const own = "hembook:units";
const chosen = document.querySelectorAll(".units input");
const other = document.querySelectorAll(".o");
const keep = (id) => { try { localStorage.setItem(own, id); } catch { /* private windows keep nothing */ } };
const kept = () => { try { return localStorage.getItem(own); } catch { return null; } };
const bare = (only) => {
  for (const o of other) {
    const words = o.textContent.replace(/^\(|\)$/g, "");
    o.textContent = only ? words : "(" + words + ")";
  }
};
for (const c of chosen) {
  if (c.id === kept()) c.checked = true;
  c.addEventListener("change", () => { keep(c.id); bare(c.id === "u-in"); });
  if (c.checked && c.id === "u-in") bare(true);
}

// A page prints as a sheet.
const ways = document.querySelector(".leaves");
if (ways) {
  const print = document.createElement("button");
  print.type = "button";
  print.className = "print";
  print.textContent = "Print this sheet";
  print.addEventListener("click", () => window.print());
  document.querySelector(".units").before(print);
}

// What has an address says it: a tap on a name, a heading or a figure puts it into the
// line of addresses, and a mark beside it copies it.
const mark = document.createElement("button");
mark.type = "button";
mark.className = "address";
mark.addEventListener("click", async () => {
  const to = location.href.replace(/#.*/, "") + "#" + mark.value;
  try { await navigator.clipboard.writeText(to); } catch { location.hash = mark.value; }
  mark.textContent = "copied";
});
const say = (at) => {
  const here = at && (at.matches(".here, p") ? at : at.querySelector(".here"));
  if (!here) return;
  mark.value = at.id;
  mark.textContent = "copy this link";
  if (at.matches("p")) at.append(mark); else here.after(mark);
};
const asked = () => {
  const at = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const around = at && at.closest("details");
  if (around && !around.open) {
    around.open = true;
    at.scrollIntoView({ block: "center" });
  }
  say(at);
};
addEventListener("hashchange", asked);
document.addEventListener("toggle", (e) => {
  const at = e.target.open && e.target.querySelector("p[id]");
  if (!at) return;
  try { history.replaceState(null, "", "#" + at.id); } catch { /* some folders keep their address */ }
  say(at);
}, true);
if (location.hash) asked();

// A box that scrolls is reached by the keyboard; one in which nothing does is no stop.
const boxes = document.querySelectorAll("[tabindex='0']");
const reach = () => {
  for (const box of boxes) {
    if (box.scrollWidth > box.clientWidth + 1 || box.scrollHeight > box.clientHeight + 1) box.tabIndex = 0;
    else box.removeAttribute("tabindex");
  }
};
addEventListener("resize", reach);
reach();
