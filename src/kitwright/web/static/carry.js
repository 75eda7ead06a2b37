/** The pages that go by a number of kits open with this one. */
export function carry(kits) {
  for (const field of document.querySelectorAll("input[data-kits]")) field.value = kits;
  for (const link of document.querySelectorAll("a[data-kits]")) {
    const there = new URL(link.href);
    there.searchParams.set("kits", kits);
    link.href = there.pathname + there.search;
  }
}
