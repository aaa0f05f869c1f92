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
