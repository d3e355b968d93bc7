// Copies what an element's data-copy says. Its button is hidden until this runs, and
// stays so where nothing can be copied.

for (const place of document.querySelectorAll("[data-copy]")) {
  const button = place.querySelector("button");
  if (!navigator.clipboard) continue;
  button.hidden = false;
  button.addEventListener("click", async () => {
    const said = await navigator.clipboard.writeText(place.dataset.copy).then(() => "Copied.", () => "Not copied. Mark the link and copy it by hand.");
    place.querySelector("output").textContent = said;
  });
}
