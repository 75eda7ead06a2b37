// Layouts for a number of kits: asked for anew while the number changes, with a way to stop a long search.
const ask = document.getElementById("ask");
const kits = document.getElementById("kits");
const found = document.getElementById("found");
const waiting = document.getElementById("waiting");
const far = document.getElementById("far");
const no = document.getElementById("no");
const pause = 200;
let asked = 0;
let timer = 0;

const sleep = (time) => new Promise((resolve) => { setTimeout(resolve, time); });

async function look() {
  const mine = ++asked;
  if (!kits.checkValidity() || !kits.value) { no.textContent = "Write a whole number from 1 to 100000."; return; }
  no.textContent = "";
  const wanted = kits.value;
  found.setAttribute("aria-busy", "true");
  try {
    for (let times = 0; mine === asked; times += 1) {
      const answer = await fetch(`${ask.dataset.from}?kits=${encodeURIComponent(wanted)}`, { headers: { accept: "application/json" } });
      const told = await answer.json();
      if (mine !== asked) return;
      if (told.done || told.mistake) {
        if (told.mistake) no.textContent = told.mistake;
        else { found.innerHTML = told.html; found.dataset.kits = wanted; history.replaceState(null, "", `?kits=${encodeURIComponent(wanted)}`); }
        break;
      }
      far.textContent = told.words;
      if (times > 1) waiting.hidden = false;
      await sleep(Math.min(60 + times * 40, 300));
    }
  } catch {
    no.textContent = "The workbench does not answer. Is it still running?";
  }
  if (mine === asked) { waiting.hidden = true; found.removeAttribute("aria-busy"); }
}

kits.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(look, pause); });
ask.addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(timer); look(); });
document.getElementById("stop").addEventListener("click", () => {
  fetch(ask.dataset.from.replace(/search$/, "stop"), { method: "POST", body: new URLSearchParams({ kits: kits.value }) });
});
look();
