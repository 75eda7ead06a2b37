// What is typed for a part, a paper or a thing to buy: a part is drawn anew, what is wrong is told beside its field; nothing is kept
// before the maker says so.
const pause = 15;
const rest = 350; // after which the verdict is asked for: whoever types on does not wait for it

for (const form of document.querySelectorAll("form[data-try]")) {
  const part = form.closest(".part");
  const wrong = form.querySelector("[data-wrong]");
  const state = form.querySelector("[data-state]");
  // The number of kits that a form carries along is not typed into it.
  const typed = () => {
    const said = new URLSearchParams(new FormData(form));
    said.delete("kits");
    return said.toString();
  };
  const first = typed();
  let timer = 0;
  let asked = 0;

  const isChanged = () => typed() !== first;

  const fault = (key, words) => {
    const place = form.querySelector(`[data-fault="${CSS.escape(key)}"]`);
    if (!place) return false;
    place.textContent = words;
    const field = form.elements.namedItem(key);
    if (words) field?.setAttribute?.("aria-invalid", "true");
    for (let at = place.parentElement; at !== form; at = at.parentElement) if (words && at.tagName === "DETAILS") at.open = true;
    return true;
  };

  const show = (answer) => {
    for (const field of form.elements) field.removeAttribute?.("aria-invalid");
    for (const place of form.querySelectorAll("[data-fault]")) place.textContent = "";
    if (!answer.ok) {
      const besides = [];
      for (const each of answer.mistakes) {
        const key = ["size", "inside", "outside"].includes(each.key) && form.elements.namedItem("lengths") ? "lengths" : each.key;
        const words = each.key && each.words.startsWith(`${each.key}: `) ? each.words.slice(each.key.length + 2) : each.words;
        if (!key || !fault(key, words)) besides.push(each.words);
      }
      wrong.textContent = besides.join(" ");
      state.textContent = "";
      return;
    }
    wrong.textContent = "";
    if (answer.size) {
      form.querySelector("[data-size]").textContent = answer.size;
      form.querySelector("[data-how]").textContent = answer.how.join("; ");
      part.querySelector("[data-folded]").innerHTML = answer.folded;
      const flat = part.querySelector("[data-flat]");
      flat.innerHTML = answer.flat.join("");
      flat.hidden = false;
      for (const [key, usual] of Object.entries(answer.usual)) {
        const field = form.elements.namedItem(key);
        if (field && "placeholder" in field) field.placeholder = usual;
      }
    }
    state.textContent = isChanged() ? "Not kept yet: press Keep or Enter." : "";
  };

  const judge = (answer) => {
    const verdict = document.getElementById("verdict");
    verdict.className = `verdict ${answer.proved ? "good" : "bad"}`;
    verdict.querySelector(".says").textContent = answer.verdict;
    verdict.firstElementChild.textContent = answer.proved ? "✓" : "!";
  };

  const trial = async (more) => {
    const body = new URLSearchParams(new FormData(form));
    for (const [key, value] of Object.entries(more)) body.set(key, value);
    const answer = await fetch(form.dataset.try, { method: "POST", body, headers: { accept: "application/json" } });
    return answer.json();
  };

  // First the pictures, which are there at once, then the verdict, which takes longer.
  const ask = async () => {
    const mine = ++asked;
    try {
      const told = await trial({});
      if (mine !== asked || !("ok" in told)) return;
      show(told);
      if (!told.ok) return;
      await new Promise((done) => { setTimeout(done, rest); });
      if (mine !== asked) return;
      const proof = await trial({ prove: "yes" });
      if (mine === asked && proof.ok) judge(proof);
    } catch {
      if (mine === asked) state.textContent = "The workbench does not answer. Is it still running?";
    }
  };

  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(ask, pause);
  });
  // What cannot be kept is not sent: it stays in its field, with the reason beside it.
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    asked += 1;
    clearTimeout(timer);
    const told = await trial({}).catch(() => ({ ok: true }));
    if (told.ok === false) {
      show(told);
      (form.querySelector('[aria-invalid="true"]') ?? form.querySelector("input:not([type=hidden])"))?.focus();
      return;
    }
    form.dataset.sent = "yes";
    form.submit();
    setTimeout(() => { delete form.dataset.sent; }, 2000); // still here: the maker chose to stay
  });
  addEventListener("beforeunload", (event) => {
    if (isChanged() && !form.dataset.sent) event.preventDefault();
  });
}
