// Reloads the page when the notebook was pressed again, and shows what is
// wrong in the records meanwhile. Words from records are only ever set as text.
(() => {
  "use strict";
  const version = document.currentScript.dataset.version;
  const key = "hembook open " + location.pathname;
  let stream = null;
  let panel = null;

  const workings = () => Array.from(document.querySelectorAll("details"));

  // What was open stays open, as long as the page has as much to open.
  const keepOpen = () => {
    const all = workings();
    sessionStorage.setItem(key, JSON.stringify([all.length, all.flatMap((d, i) => (d.open ? [i] : []))]));
  };
  const openAgain = () => {
    const [count, open] = JSON.parse(sessionStorage.getItem(key) || "[-1, []]");
    sessionStorage.removeItem(key);
    const all = workings();
    if (count === all.length) for (const i of open) all[i].open = true;
  };

  const add = (to, name, text) => {
    const e = document.createElement(name);
    e.textContent = text;
    return to.appendChild(e);
  };

  const hide = () => {
    if (panel) panel.remove();
    panel = null;
  };

  const show = (state) => {
    hide();
    if (!state.heading) return;
    panel = document.createElement("section");
    panel.id = "hembook-faults";
    panel.setAttribute("role", "alert");
    panel.setAttribute("aria-label", "what is wrong in the records");
    const root = panel.attachShadow({ mode: "open" });
    const look = new CSSStyleSheet();
    look.replaceSync(
      ":host{all:initial;position:fixed;inset:auto 0 0 0;z-index:2147483647;max-height:45vh;overflow:auto;" +
        "background:#fff8e6;color:#1d1a14;border-top:4px solid #8a2d12;padding:.75rem 1rem;" +
        "font:15px/1.45 system-ui,sans-serif;box-shadow:0 -2px 12px #0004}" +
        "h2{font-size:1rem;margin:0 0 .4rem}ol{margin:0;padding:0;list-style:none}li{margin:.35rem 0}" +
        "b{font:600 .93em ui-monospace,monospace}p{margin:.1rem 0 0 1.5rem;white-space:pre-line}" +
        "@media(prefers-color-scheme:dark){:host{background:#2b2118;color:#f6eee0;border-color:#e08a5f}}" +
        "@media print{:host{display:none}}",
    );
    root.adoptedStyleSheets = [look];
    add(root, "h2", state.heading);
    const list = root.appendChild(document.createElement("ol"));
    for (const f of state.faults) {
      const item = list.appendChild(document.createElement("li"));
      if (f.file) add(item, "b", f.file + ":" + f.line + ":" + f.column + "  ");
      add(item, "span", f.message);
      if (f.hint) add(item, "p", f.hint);
    }
    if (state.more) add(root, "p", state.more);
    document.body.appendChild(panel);
  };

  // A page in the background lets go of its stream: a browser opens only a few
  // to one address. It is told what it missed when it comes to the front.
  const listen = () => {
    if (document.hidden) {
      if (stream) stream.close();
      stream = null;
    } else if (!stream) {
      stream = new EventSource("/.preview/events");
      stream.onmessage = (event) => {
        const state = JSON.parse(event.data);
        if (state.version === version) return show(state);
        keepOpen();
        stream.close();
        location.reload();
      };
    }
  };

  openAgain();
  document.addEventListener("visibilitychange", listen);
  listen();
})();
