// The proof by kinds of findings. Everything is shown until the maker asks for less.
const row = document.querySelector("[data-filters]");
row.hidden = false;
row.addEventListener("click", (event) => {
  const button = event.target.closest("button[data-show]");
  if (!button) return;
  for (const each of row.querySelectorAll("button")) each.setAttribute("aria-pressed", String(each === button));
  for (const section of document.querySelectorAll("[data-severity]")) {
    section.hidden = button.dataset.show !== "all" && section.dataset.severity !== button.dataset.show;
  }
});
