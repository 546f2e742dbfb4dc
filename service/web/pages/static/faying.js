"use strict";
// Everything here adds comfort; each page reads and works without it.

const later = (act, ms) => {
  let timer;
  return (...given) => { clearTimeout(timer); timer = setTimeout(() => act(...given), ms); };
};

function suggest(field) {
  const list = document.getElementById(field.getAttribute("list"));
  field.addEventListener("input", later(async () => {
    if (field.value.trim().length < 2) return;
    const reply = await fetch(`/suggestions?q=${encodeURIComponent(field.value)}`);
    if (!reply.ok) return;
    list.replaceChildren(...(await reply.json()).map((text) => {
      const option = document.createElement("option");
      option.value = text;
      return option;
    }));
  }, 150));
}

const figureOf = (text) => {
  const found = text.replace(/[\u202f\u00a0]/g, "").match(/-?\d+(\.\d+)?/);
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
      const rows = [...body.rows].map((row) => [row.cells[place].textContent.trim(), row]);
      const areFigures = body.rows[0] && body.rows[0].cells[place].classList.contains("number");
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
    await navigator.clipboard.writeText(document.getElementById(button.dataset.copy).textContent);
    document.getElementById("copied").textContent = "Copied.";
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
document.querySelectorAll("[data-copy]").forEach(copying);
document.querySelectorAll(".drop").forEach(dropping);
document.querySelectorAll("[data-progress]").forEach(watch);
