// Blanks on the mats of a cutting machine: laid when wished, shown paper by paper, stopped when wished. Another number of kits is
// another wish.
const by = (id) => document.getElementById(id);
const frame = by("nesting");
const kits = by("kits");
const waits = by("nesting-waits");
const fields = [...document.querySelectorAll("#machine-0 form input:not([type=hidden])")];
let asked = 0;
let running = "";

const sleep = (time) => new Promise((resolve) => { setTimeout(resolve, time); });
const stop = (number) => fetch(frame.dataset.stop, { method: "POST", body: new URLSearchParams({ kits: number, mats: "yes" }) });

async function lay() {
  if (!kits.checkValidity() || !kits.value) return;
  if (fields.some((field) => field.value !== field.defaultValue)) {
    by("nesting-no").textContent = "What you typed for your machine is not kept yet. Keep it first.";
    return;
  }
  const mine = ++asked;
  const number = running = kits.value;
  by("nesting-no").textContent = "";
  by("nesting-bar").removeAttribute("value");
  by("nesting-far").textContent = "";
  by("nest").disabled = true;
  by("nesting-stop").disabled = false;
  waits.hidden = false;
  let query = { kits: number, again: "yes" };
  try {
    while (mine === asked) {
      const answer = await fetch(`${frame.dataset.from}?${new URLSearchParams(query)}`, { headers: { accept: "application/json" } });
      const told = await answer.json();
      if (mine !== asked) return;
      if (told.html) by("mats").innerHTML = told.html;
      if (told.mistake) by("nesting-no").textContent = told.mistake;
      if (told.done || told.mistake) { if (told.html) by("mats").dataset.kits = number; break; }
      if (told.share) by("nesting-bar").value = told.share;
      if (by("nesting-far").textContent !== told.words) by("nesting-far").textContent = told.words;
      query = told.begun ? { kits: number, seen: told.shown } : query;
      await sleep(300);
    }
  } catch {
    by("nesting-no").textContent = "The workbench does not answer. Is it still running?";
  }
  if (mine === asked) end();
}

function end() {
  waits.hidden = true;
  by("nest").disabled = false;
  running = "";
}

by("nest").addEventListener("click", lay);
by("nesting-stop").addEventListener("click", () => { by("nesting-stop").disabled = true; stop(running).catch(() => {}); });
kits.addEventListener("input", () => {
  if (running && running !== kits.value) { asked += 1; stop(running).catch(() => {}); end(); }
  by("mats").replaceChildren();
  delete by("mats").dataset.kits;
});
