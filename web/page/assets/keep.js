// Keeps what is being written in a field with data-keep="a name of its own" until it was
// sent: a lost connection, a closed page and an ended sign-in lose nothing. It is kept for
// this tab alone, and for the account that wrote it: a page of another account forgets it,
// so that who uses the device after finds none of it, and so does a form with data-forgets,
// by which somebody signs out. A page that shows what was sent says
// so with data-kept="the names of those fields". The id that the form sends is kept with it:
// what was sent and comes again, because no answer came, is the same thing.

const theirs = `kept ${document.body.dataset.who ?? ""} `;
const place = (name) => `${theirs}${location.pathname} ${name}`;
const idOf = (field) => field.form?.querySelector("input[type=hidden][name=id], input[type=hidden][name=batch]");

function forget(name) {
  sessionStorage.removeItem(place(name));
  sessionStorage.removeItem(`${place(name)} id`);
}

// offerToThrowAway says of a field that what stands in it is from before, with a way out.
function offerToThrowAway(field, name) {
  const told = document.createElement("p");
  told.className = "from-before soft";
  told.textContent = "You had begun this before, and not sent it. ";
  const away = told.appendChild(document.createElement("button"));
  away.type = "button";
  away.textContent = "Throw it away";
  away.addEventListener("click", () => {
    forget(name);
    sessionStorage.removeItem(`${place(name)} base`); // of a sheet, by day.js
    field.value = field.defaultValue; // else a browser may put it back
    location.reload();
  });
  (field.closest("label") ?? field).after(told);
}

if (document.body.dataset.who) {
  for (const key of Object.keys(sessionStorage)) {
    if (key.startsWith("kept ") && !key.startsWith(theirs)) sessionStorage.removeItem(key);
  }
}

document.addEventListener("submit", (event) => {
  if (!event.target.matches("[data-forgets]")) return;
  setTimeout(() => {
    if (event.defaultPrevented) return; // there is no connection, and they stay
    for (const key of Object.keys(sessionStorage)) if (key.startsWith("kept ")) sessionStorage.removeItem(key);
  });
});

for (const done of document.querySelectorAll("[data-kept]")) done.dataset.kept.split(" ").forEach(forget);

for (const field of document.querySelectorAll("[data-keep]")) {
  const name = field.dataset.keep;
  const kept = sessionStorage.getItem(place(name));
  if (kept === null || kept === field.value) continue;
  const id = idOf(field);
  if (id) id.value = sessionStorage.getItem(`${place(name)} id`) ?? id.value;
  field.value = kept;
  field.dataset.dirty = "";
  offerToThrowAway(field, name);
  field.closest("details:not([open])")?.setAttribute("open", "");
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

document.addEventListener("input", ({ target }) => {
  const name = target.dataset?.keep;
  if (!name) return;
  if (target.value === target.defaultValue) {
    delete target.dataset.dirty;
    forget(name);
    return;
  }
  target.dataset.dirty = "";
  sessionStorage.setItem(place(name), target.value);
  const id = idOf(target);
  if (id) sessionStorage.setItem(`${place(name)} id`, id.value);
});
