"use strict";
// Makes of what was typed one short text, which is sent home as a file or in a message.
// Nothing leaves the page by itself.
for (const form of document.querySelectorAll(".asks")) {
  const say = form.dataset;
  const number = (field) => {
    const v = parseFloat(field.value.replace(",", "."));
    return Number.isFinite(v) ? v : null;
  };
  const readings = (set) => [...set.querySelectorAll("input")].map(number).filter((v) => v !== null);
  const shown = (v) => String(Math.round(v * 100) / 100);
  const look = (set) => {
    const list = readings(set), told = set.querySelector(".say"), third = set.querySelector(".third");
    const apart = list.length > 1 ? Math.abs(list[0] - list[1]) : 0;
    const far = apart > Number(say.apart);
    third.hidden = !far && list.length < 3;
    let text = list.length > 1 ? say.agree : "";
    const odd = list.some((v) => (set.dataset.least && v < Number(set.dataset.least)) || (set.dataset.most && v > Number(set.dataset.most)));
    if (far && list.length < 3) text = say.differ.replace("{much}", shown(apart) + " " + say.unit);
    if (odd) text = say.unusual;
    told.textContent = text;
    told.classList.toggle("again", odd || (far && list.length < 3));
  };
  const two = (n) => String(n).padStart(2, "0");
  const answer = () => {
    const now = new Date();
    const lines = [...form.querySelectorAll("[data-begin]")].map((f) => f.value);
    lines.push("day: " + now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate()));
    for (const asked of form.querySelectorAll("[data-word], [data-choice]")) {
      const { word, choice } = asked.dataset;
      const taken = choice && asked.querySelector(":checked");
      const words = word && asked.value.trim().replace(/\s+/g, " ");
      if (taken) lines.push(choice + ": " + taken.value);
      if (words) lines.push(word + ": " + JSON.stringify(words));
    }
    if (say.unit) lines.push("units: " + say.unit, "body:");
    for (const set of form.querySelectorAll("[data-name]")) {
      const list = readings(set);
      if (list.length) lines.push("  " + set.dataset.name + ": [" + list.map(shown).join(", ") + "]");
    }
    return lines.join("\n") + "\n";
  };
  // Photographs are drawn small and anew, which leaves place and camera out, and go into
  // the file; a message has only the words.
  const longest = 1600;
  const photos = [];
  const small = async (file) => {
    const picture = await createImageBitmap(file);
    const share = Math.min(1, longest / Math.max(picture.width, picture.height));
    const sheet = document.createElement("canvas");
    sheet.width = Math.round(picture.width * share);
    sheet.height = Math.round(picture.height * share);
    sheet.getContext("2d").drawImage(picture, 0, 0, sheet.width, sheet.height);
    return sheet.toDataURL("image/jpeg", 0.82);
  };
  const asked = form.querySelector(".photos");
  if (asked) {
    asked.hidden = false;
    asked.querySelector("input").addEventListener("change", async (e) => {
      photos.length = 0;
      const shown = asked.querySelector(".shown");
      shown.replaceChildren();
      for (const file of e.target.files) {
        try {
          const url = await small(file);
          photos.push(url.slice(url.indexOf(",") + 1));
          const picture = new Image();
          picture.src = url;
          picture.alt = file.name;
          shown.append(picture);
        } catch {
          shown.append("✗ " + file.name + " ");
        }
      }
    });
  }
  const withPhotos = () => answer() + (photos.length ? "photographs:\n" + photos.map((p) => "  - " + p + "\n").join("") : "");
  const made = form.querySelector(".answer"), text = made.querySelector("pre");
  form.addEventListener("input", (e) => {
    const set = e.target.closest("[data-name]");
    if (set) look(set);
    if (!made.hidden) text.textContent = answer();
  });
  form.querySelector(".plain").hidden = true;
  const make = form.querySelector(".make");
  make.hidden = false;
  make.addEventListener("click", () => {
    text.textContent = answer();
    made.hidden = false;
    made.scrollIntoView();
  });
  form.querySelector(".save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([withPhotos()], { type: "text/plain" }));
    link.download = say.file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });
  form.querySelector(".copy").addEventListener("click", async (e) => {
    try {
      await navigator.clipboard.writeText(answer());
      e.target.textContent = say.copied;
    } catch {
      getSelection().selectAllChildren(text);
    }
  });
}
