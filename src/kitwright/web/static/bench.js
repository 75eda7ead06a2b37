// Bench mode: one step on the screen at a time; where it was and what is ticked off are remembered on this device, and the screen
// stays awake. Steps ticked off belong to one revision of the kit and one number of kits: other cuts are other steps.
const cards = document.getElementById("cards");
const all = [...cards.children];
const ticks = all.map((card) => card.querySelector(".tick input"));
const where = document.getElementById("where");
const done = document.getElementById("done");
const key = `bench:${cards.dataset.key}`;
const ticked = new Set((localStorage.getItem(`${key}:done`) ?? "").split(" ").filter(Boolean).map(Number));
let at = Math.min(Number(localStorage.getItem(key)) || 0, all.length - 1);

function show() {
  all.forEach((card, i) => card.classList.toggle("shown", i === at));
  const count = ticks.filter((tick) => tick.checked).length;
  where.textContent = `${at + 1} of ${all.length}, ${count} done`;
  document.getElementById("back").disabled = at === 0;
  done.textContent = count === all.length ? "All done, begin again" : "Done, next";
  localStorage.setItem(key, String(at));
  localStorage.setItem(`${key}:done`, ticks.flatMap((tick, i) => (tick.checked ? [i] : [])).join(" "));
}

function move(by) {
  at += by;
  show();
}

// The next step that is not ticked off, if need be from the beginning; where all are, this one.
function next() {
  const later = ticks.findIndex((tick, i) => i > at && !tick.checked);
  const first = ticks.findIndex((tick) => !tick.checked);
  at = later >= 0 ? later : first >= 0 ? first : at;
}

if (all.length) {
  cards.classList.add("walking");
  document.getElementById("walk").hidden = false;
  ticks.forEach((tick, i) => {
    tick.checked = ticked.has(i);
    tick.addEventListener("change", show);
  });
  done.addEventListener("click", () => {
    if (ticks.every((tick) => tick.checked)) {
      ticks.forEach((tick) => { tick.checked = false; });
      at = 0;
    } else {
      ticks[at].checked = true;
      next();
    }
    show();
  });
  document.getElementById("back").addEventListener("click", () => move(-1));
  addEventListener("keydown", (event) => {
    if (event.target.closest("input, select, button, a")) return;
    if (event.key === "ArrowRight" || event.key === " ") { event.preventDefault(); if (at < all.length - 1) move(1); }
    if (event.key === "ArrowLeft" && at > 0) move(-1);
  });
  show();
}

async function stayAwake() {
  const told = document.getElementById("awake");
  try {
    await navigator.wakeLock.request("screen");
    told.textContent = "The screen stays awake while this page is open.";
  } catch {
    told.textContent = "";
  }
}
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") stayAwake(); });
stayAwake();
