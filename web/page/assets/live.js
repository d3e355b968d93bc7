// Follows the gym. A part of a page with data-live="sheet override" is fetched again after
// such a change, and put in the place of the old one, unless somebody is writing in it:
// then it is told that there is news, and waits.

const seq = document.body.dataset.seq;
const parts = () => [...document.querySelectorAll("[data-live]")];

// changed reports whether a field holds something else than it was drawn with.
function changed(field) {
  if (field.type === "checkbox" || field.type === "radio") return field.checked !== field.defaultChecked;
  if (field.type !== "select-one") return field.value !== field.defaultValue;
  const drawn = [...field.options].find((choice) => choice.defaultSelected) ?? field.options[0];
  return Boolean(drawn && !drawn.selected);
}

// written reports whether something was written in a part that is not sent yet; day.js asks too.
const written = (window.written = (part) => [...part.querySelectorAll("input, textarea, select")].some(changed));

const busy = (part) => part.matches("[data-dirty]") || part.querySelector("[data-dirty]") || written(part) || (part.contains(document.activeElement) && document.activeElement !== part);

// keepFolds opens in a fresh part what stood open in the old one; day.js asks too.
const keepFolds = (window.keepFolds = (old, fresh) => {
  for (const fold of old.querySelectorAll("details[id]")) {
    const same = fresh.querySelector(`#${CSS.escape(fold.id)}`);
    if (same) same.open = fold.open;
  }
});

let wanted = new Set();
let due;
const waiting = new Map(); // parts that were written in when something changed, with what

async function renew() {
  const kinds = wanted;
  wanted = new Set();
  const got = await fetch(location.href, { headers: { Accept: "text/html" } }).catch(() => null);
  if (!got?.ok) return;
  const news = new DOMParser().parseFromString(await got.text(), "text/html");
  for (const part of parts()) {
    if (!part.dataset.live.split(" ").some((kind) => kinds.has(kind))) continue;
    const fresh = news.getElementById(part.id);
    if (!fresh || fresh.innerHTML === part.innerHTML) continue;
    if (busy(part)) {
      waiting.set(part, kinds);
      part.dispatchEvent(new CustomEvent("news", { bubbles: true, detail: fresh }));
      continue;
    }
    waiting.delete(part);
    keepFolds(part, fresh);
    part.replaceWith(fresh);
    window.htmx?.process(fresh);
    fresh.dispatchEvent(new CustomEvent("renewed", { bubbles: true }));
  }
}

function heard(kind) {
  wanted.add(kind);
  clearTimeout(due);
  due = setTimeout(renew, 150); // many changes at once are one
}

// Who leaves a field lets what has waited come.
document.addEventListener("focusout", () => setTimeout(() => {
  for (const [part, kinds] of waiting) {
    if (busy(part)) continue;
    waiting.delete(part);
    if (part.isConnected) kinds.forEach(heard);
  }
}));

// follow listens from now on. Where too much has happened to be told one by one, all of the
// page is fetched again, or, while somebody writes in it, each part that nobody writes in.
function follow() {
  const changes = new EventSource("/changes");
  changes.addEventListener("change", (event) => heard(JSON.parse(event.data).kind));
  changes.addEventListener("again", () => {
    changes.close();
    if (!busy(document.body)) return location.reload();
    parts().flatMap((part) => part.dataset.live.split(" ")).forEach(heard);
    follow();
  });
}

if (seq && parts().length) follow();
