// Bench mode: one step on the screen at a time; what is done is remembered on this device, and the screen stays awake.
const cards = document.getElementById("cards");
const all = [...cards.children];
const where = document.getElementById("where");
const key = `bench:${cards.dataset.key}`;
let at = Math.min(Number(localStorage.getItem(key)) || 0, all.length - 1);

function show() {
  all.forEach((card, i) => card.classList.toggle("shown", i === at));
  where.textContent = `${at + 1} of ${all.length}`;
  document.getElementById("back").disabled = at === 0;
  document.getElementById("done").textContent = at === all.length - 1 ? "All done, begin again" : "Done, next";
  localStorage.setItem(key, String(at));
}

function move(by) {
  at = (at + by + all.length) % all.length;
  show();
}

if (all.length) {
  cards.classList.add("walking");
  document.getElementById("walk").hidden = false;
  document.getElementById("done").addEventListener("click", () => move(1));
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
