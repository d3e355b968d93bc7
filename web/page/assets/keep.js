// Keeps what is being written in a field with data-keep="a name of its own" until it was
// sent: a lost connection, a closed page and an ended sign-in lose nothing. It is kept for
// this tab alone, and for the account that wrote it: a page of another account forgets it,
// so that who uses the device after finds none of it. A page that shows what was sent says
// so with data-kept="the names of those fields".

const theirs = `kept ${document.body.dataset.who ?? ""} `;
const place = (name) => `${theirs}${location.pathname} ${name}`;

if (document.body.dataset.who) {
  for (const key of Object.keys(sessionStorage)) {
    if (key.startsWith("kept ") && !key.startsWith(theirs)) sessionStorage.removeItem(key);
  }
}

for (const done of document.querySelectorAll("[data-kept]")) {
  for (const name of done.dataset.kept.split(" ")) sessionStorage.removeItem(place(name));
}

for (const field of document.querySelectorAll("[data-keep]")) {
  const kept = sessionStorage.getItem(place(field.dataset.keep));
  if (kept === null || kept === field.value) continue;
  field.value = kept;
  field.dataset.dirty = "";
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

document.addEventListener("input", ({ target }) => {
  const name = target.dataset?.keep;
  if (!name) return;
  if (target.value === target.defaultValue) {
    delete target.dataset.dirty;
    sessionStorage.removeItem(place(name));
  } else {
    target.dataset.dirty = "";
    sessionStorage.setItem(place(name), target.value);
  }
});
