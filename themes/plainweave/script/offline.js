// Where the notebook is served from its own address, a browser may keep it and show
// pages that were read without a line. From a folder, or in a preview, nothing is kept.
{
  const own = document.querySelector("link[rel=canonical]"), front = document.querySelector(".house a");
  if (own && front && "serviceWorker" in navigator && new URL(own.href).origin === location.origin) {
    const note = document.createElement("link");
    note.rel = "manifest";
    note.href = new URL("notebook.webmanifest", front.href).href;
    document.head.append(note);
    navigator.serviceWorker.register(new URL("offline.js", front.href)).catch(() => { /* it is read with a line then */ });
  }
}
