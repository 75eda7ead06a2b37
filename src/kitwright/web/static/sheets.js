// Layouts for a number of kits: asked for anew while the number changes. The best that was found so far is shown while better ones
// are looked for; a long search can be stopped.
import { carry } from "./carry.js";

const ask = document.getElementById("ask");
const kits = document.getElementById("kits");
const found = document.getElementById("found");
const waiting = document.getElementById("waiting");
const far = document.getElementById("far");
const bar = document.getElementById("bar");
const no = document.getElementById("no");
const pause = 200;
let asked = 0;
let timer = 0;
let running = "";

const sleep = (time) => new Promise((resolve) => { setTimeout(resolve, time); });
const choice = document.getElementById("choice");
const wish = () => ({ kits: kits.value });
const stop = (what) => fetch(ask.dataset.from.replace(/search$/, "stop"), { method: "POST", body: new URLSearchParams(what) });

async function look() {
  const mine = ++asked;
  if (!kits.checkValidity() || !kits.value) { no.textContent = "Write a whole number from 1 to 100000."; return; }
  no.textContent = "";
  const asking = wish();
  const wanted = JSON.stringify(asking);
  if (running && running !== wanted) stop(JSON.parse(running)).catch(() => {});
  running = wanted;
  found.setAttribute("aria-busy", "true");
  let seen = "";
  try {
    for (let times = 0; mine === asked; times += 1) {
      const query = new URLSearchParams({ ...asking, view: ask.dataset.view, seen });
      const answer = await fetch(`${ask.dataset.from}?${query}`, { headers: { accept: "application/json" } });
      const told = await answer.json();
      if (mine !== asked) return;
      if (told.mistake) no.textContent = told.mistake;
      if (told.html) {
        found.innerHTML = told.html;
        found.removeAttribute("aria-busy");
        seen = String(told.shown);
        found.dataset.soFar = asking.kits;
      }
      if (told.done || told.mistake) {
        if (told.done && !told.mistake) { found.dataset.kits = asking.kits; history.replaceState(null, "", `?${new URLSearchParams(asking)}`); carry(asking.kits); }
        running = "";
        break;
      }
      far.textContent = told.words;
      bar.value = told.share;
      if (times > 1) waiting.hidden = false;
      await sleep(Math.min(60 + times * 40, 300));
    }
  } catch {
    no.textContent = "The workbench does not answer. Is it still running?";
  }
  if (mine === asked) { waiting.hidden = true; found.removeAttribute("aria-busy"); }
}

choice.addEventListener("change", () => { if (kits.checkValidity() && kits.value) carry(kits.value); choice.submit(); });
kits.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(look, pause); });
ask.addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(timer); look(); });
document.getElementById("stop").addEventListener("click", () => { if (running) stop(JSON.parse(running)); });
for (const box of document.querySelectorAll("[data-prints]")) box.addEventListener("change", () => document.body.classList.toggle("no-prints", !box.checked));
look();
