"use strict";
// Everything here adds comfort; each page reads and works without it.

const later = (act, ms) => {
  let timer;
  return (...given) => { clearTimeout(timer); timer = setTimeout(() => act(...given), ms); };
};

function suggest(field) {
  const list = document.getElementById(field.getAttribute("aria-controls"));
  const note = document.createElement("span");
  note.className = "aside-only";
  note.setAttribute("role", "status");
  list.after(note);
  let at = -1;

  const close = () => {
    at = -1;
    list.hidden = true;
    field.setAttribute("aria-expanded", "false");
    field.removeAttribute("aria-activedescendant");
  };
  const pick = (entry) => { field.value = entry.textContent; close(); field.focus(); };
  const move = (by) => {
    const entries = [...list.children];
    if (list.hidden || !entries.length) return;
    if (at >= 0) entries[at].setAttribute("aria-selected", "false");
    at = (at + by + entries.length) % entries.length;
    entries[at].setAttribute("aria-selected", "true");
    entries[at].scrollIntoView({ block: "nearest" });
    field.setAttribute("aria-activedescendant", entries[at].id);
  };

  field.addEventListener("input", later(async () => {
    const text = field.value;
    if (text.trim().length < 2) { close(); return; }
    const reply = await fetch(`/suggestions?q=${encodeURIComponent(text)}`);
    if (!reply.ok || field.value !== text || document.activeElement !== field) return;
    const names = (await reply.json()).filter((name) => name !== text);
    close();
    list.replaceChildren(...names.map((name, place) => {
      const entry = document.createElement("li");
      entry.id = `${list.id}-${place}`;
      entry.setAttribute("role", "option");
      entry.setAttribute("aria-selected", "false");
      entry.textContent = name;
      return entry;
    }));
    list.hidden = !names.length;
    field.setAttribute("aria-expanded", String(names.length > 0));
    note.textContent = names.length ? `${names.length} suggestions` : "";
  }, 150));
  field.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      if (list.hidden) return;
      event.preventDefault();
      move(event.key === "ArrowDown" ? 1 : (at < 0 ? 0 : -1));
    } else if (event.key === "Enter" && at >= 0) {
      event.preventDefault();
      pick(list.children[at]);
    } else if (event.key === "Escape") {
      close();
    }
  });
  // Pressing, not clicking: the field would lose its focus first.
  list.addEventListener("mousedown", (event) => {
    const entry = event.target.closest("[role=option]");
    if (entry) { event.preventDefault(); pick(entry); }
  });
  field.addEventListener("blur", close);
}

// A blank field says nothing; without it addresses stay short enough to pass on.
function tidy(form) {
  form.addEventListener("submit", () => {
    for (const field of form.querySelectorAll("input, select")) field.disabled = !field.value;
    setTimeout(() => { for (const field of form.elements) field.disabled = false; });
  });
}

const figureOf = (text) => {
  const found = text.replace(/[\u202f\u00a0]/g, "").replace("\u2212", "-").match(/-?\d+(\.\d+)?/);
  return found ? Number(found[0]) : null;
};

function sortable(table) {
  const body = table.tBodies[0];
  [...table.tHead.rows[0].cells].forEach((head, place) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "sort";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      const isUp = head.getAttribute("aria-sort") !== "ascending";
      for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", isUp ? "ascending" : "descending");
      const shown = (cell) => cell.dataset.value ?? cell.textContent.trim();
      const rows = [...body.rows].map((row) => [shown(row.cells[place]), row]);
      const first = body.rows[0] && body.rows[0].cells[place];
      const areFigures = first && (first.classList.contains("number") || first.dataset.value !== undefined);
      rows.sort(([one], [other]) => {
        if (!areFigures) return one.localeCompare(other);
        return (figureOf(one) ?? Infinity) - (figureOf(other) ?? Infinity);
      });
      if (!isUp) rows.reverse();
      body.append(...rows.map(([, row]) => row));
    });
  });
}

async function fill(place) {
  place.setAttribute("aria-busy", "true");
  const note = document.createElement("p");
  note.setAttribute("role", "status");
  note.textContent = "Judging …";
  place.append(note);
  const reply = await fetch(place.dataset.fragment);
  note.remove();
  place.removeAttribute("aria-busy");
  if (!reply.ok || reply.redirected) return;
  const read = new DOMParser().parseFromString(await reply.text(), "text/html");
  place.replaceChildren(...read.body.childNodes);
  place.querySelectorAll("table.sortable").forEach(sortable);
}

function fragment(place) {
  const link = place.querySelector("a");
  if (place.dataset.onDemand !== undefined) {
    link.addEventListener("click", (event) => { event.preventDefault(); fill(place); });
  } else {
    fill(place);
  }
}

function copying(button) {
  button.hidden = !navigator.clipboard;
  button.addEventListener("click", async () => {
    const from = button.dataset.copyFrom;
    const text = from ? await (await fetch(from)).text() : document.getElementById(button.dataset.copy).textContent;
    await navigator.clipboard.writeText(text);
    document.getElementById("copied").textContent = `${button.textContent.replace("Copy ", "")} copied.`;
  });
}

function dropping(zone) {
  const field = zone.querySelector("input[type=file]");
  zone.addEventListener("dragover", (event) => { event.preventDefault(); zone.classList.add("over"); });
  zone.addEventListener("dragleave", () => zone.classList.remove("over"));
  zone.addEventListener("drop", (event) => {
    event.preventDefault();
    zone.classList.remove("over");
    if (event.dataTransfer.files.length) field.files = event.dataTransfer.files;
  });
}

async function watch(bar) {
  for (;;) {
    await new Promise((go) => setTimeout(go, 400));
    const reply = await fetch(bar.dataset.progress);
    if (!reply.ok) return;
    const state = await reply.json();
    bar.max = Math.max(state.joints, 1);
    bar.value = state.done;
    document.getElementById("progress-text").textContent = `${state.done} of ${state.joints} joints`;
    if (state.is_over) { location.reload(); return; }
  }
}

document.querySelectorAll("[data-suggest]").forEach(suggest);
document.querySelectorAll("table.sortable").forEach(sortable);
document.querySelectorAll("[data-fragment]").forEach(fragment);
document.querySelectorAll("form[method=get]").forEach(tidy);
document.querySelectorAll("[data-copy], [data-copy-from]").forEach(copying);
document.querySelectorAll(".drop").forEach(dropping);
document.querySelectorAll("[data-progress]").forEach(watch);
