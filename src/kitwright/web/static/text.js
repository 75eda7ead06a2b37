// The kit's text: line numbers, and mistakes told while it is typed.
const form = document.querySelector("form[data-check]");
const text = document.getElementById("document");
const lines = document.querySelector("[data-lines]");
const said = document.querySelector("[data-said]");
const first = text.value;
let timer = 0;
let asked = 0;

function drawLines(hits) {
  const count = text.value.split("\n").length;
  lines.replaceChildren(...Array.from({ length: count }, (_, i) => {
    const each = document.createElement("span");
    each.textContent = `${hits.has(i + 1) ? "▸ " : ""}${i + 1}\n`;
    if (hits.has(i + 1)) each.className = "hit";
    return each;
  }));
  lines.scrollTop = text.scrollTop;
}

function goTo(line) {
  const before = text.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  text.focus();
  text.setSelectionRange(before, before + text.value.split("\n")[line - 1].length);
  text.scrollTop = (line - 4) * parseFloat(getComputedStyle(text).lineHeight);
}

function tell(mistakes) {
  drawLines(new Set(mistakes.map((each) => each.line)));
  if (!mistakes.length) {
    said.textContent = text.value === first ? "" : "No mistakes. Not kept yet.";
    return;
  }
  const list = document.createElement("ul");
  list.className = "mistakes";
  for (const each of mistakes) {
    const item = document.createElement("li");
    if (each.line) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = `Line ${each.line}`;
      button.addEventListener("click", () => goTo(each.line));
      item.append(button, " ");
    }
    item.append(each.words);
    list.append(item);
  }
  said.replaceChildren(list);
}

async function check() {
  const mine = ++asked;
  try {
    const answer = await fetch(form.dataset.check, { method: "POST", body: new URLSearchParams({ document: text.value }), headers: { accept: "application/json" } });
    const told = await answer.json();
    if (mine === asked && told.mistakes) tell(told.mistakes);
  } catch {
    said.textContent = "The workbench does not answer. Is it still running?";
  }
}

text.addEventListener("input", () => { drawLines(new Set()); clearTimeout(timer); timer = setTimeout(check, 250); });
text.addEventListener("scroll", () => { lines.scrollTop = text.scrollTop; });
form.addEventListener("submit", () => { form.dataset.sent = "yes"; });
addEventListener("beforeunload", (event) => { if (text.value !== first && !form.dataset.sent) event.preventDefault(); });
drawLines(new Set());
