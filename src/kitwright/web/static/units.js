// A new kit in other units: sizes that nobody has touched, the sheets and the hints become those of these units.
const form = document.querySelector("form[data-usual]");
const { fields, hints } = JSON.parse(form.dataset.usual);
const units = form.elements.units;

units.addEventListener("change", () => {
  const before = units.value === "mm" ? "in" : "mm";
  for (const [name, value] of Object.entries(fields[units.value])) {
    const field = form.elements[name];
    if (field.value === fields[before][name]) field.value = value;
  }
  for (const [name, words] of Object.entries(hints[units.value])) {
    const hint = document.getElementById(`${name}-hint`);
    if (hint) hint.textContent = words;
  }
});
