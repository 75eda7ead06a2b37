// The chosen pages as small pictures, made anew when the choice, the number of kits or the paper changes; and the layouts.
import { carry } from "./carry.js";

const form = document.getElementById("take");
const layouts = document.getElementById("layouts");
const list = document.getElementById("leaves");
const told = document.getElementById("leaves-told");
const kits = document.getElementById("kits");
const from = list.dataset.from;
const pause = 500;
let asked = 0;
let timer = 0;

function picture(number, count, size, query) {
  const item = document.createElement("li");
  const link = document.createElement("a");
  const image = document.createElement("img");
  link.href = `${from}/${number}.png?${query}`;
  link.target = "_blank";
  image.src = `${link.href}&small=yes`;
  image.alt = `Page ${number} of ${count}`;
  image.loading = "lazy";
  [image.width, image.height] = size;
  link.append(image);
  item.append(link);
  return item;
}

async function look() {
  const mine = ++asked;
  if (!kits.checkValidity() || !kits.value) return;
  carry(kits.value);
  told.textContent = "Laying out the pages…";
  list.setAttribute("aria-busy", "true");
  const query = new URLSearchParams(new FormData(form));
  try {
    const answer = await fetch(`${from}?${query}`, { headers: { accept: "application/json" } });
    const pages = await answer.json();
    if (mine !== asked) return;
    list.removeAttribute("aria-busy");
    if (pages.mistake) {
      list.replaceChildren();
      told.textContent = pages.mistake;
      return;
    }
    query.set("of", pages.stamp);
    list.replaceChildren(...Array.from({ length: pages.count }, (_, i) => picture(i + 1, pages.count, pages.size, query)));
    told.textContent = pages.count === 0 ? "None: tick what you want to print." : pages.count === 1 ? "One page." : `${pages.count} pages. Choose one to see it larger.`;
  } catch {
    if (mine === asked) told.textContent = "The pages cannot be shown; the program does not answer.";
  }
}

/** The layouts, once their search is done. */
async function lay() {
  const wanted = kits.value;
  if (!kits.checkValidity() || !wanted || layouts.dataset.kits === wanted) return;
  layouts.dataset.kits = wanted;
  const query = new URLSearchParams({ kits: wanted, view: "print", seen: "-" });
  while (layouts.dataset.kits === wanted) {
    const answer = await fetch(`${layouts.dataset.from}?${query}`, { headers: { accept: "application/json" } }).catch(() => null);
    const found = await answer?.json();
    if (!found || layouts.dataset.kits !== wanted) return;
    if (found.html) layouts.innerHTML = found.html;
    if (found.done) return;
    query.set("seen", found.shown);
    await new Promise((resolve) => { setTimeout(resolve, pause); });
  }
}

form.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(() => { look(); lay(); }, pause); });
look();
lay();
