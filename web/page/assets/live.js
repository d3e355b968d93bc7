// Follows the gym. A part of a page with data-live="sheet override" is fetched again after
// such a change, and put in the place of the old one, unless somebody is writing in it:
// then it is told that there is news, and waits.

const seq = document.body.dataset.seq;
const parts = () => [...document.querySelectorAll("[data-live]")];
const busy = (part) => part.matches("[data-dirty]") || part.querySelector("[data-dirty]") || (part.contains(document.activeElement) && document.activeElement !== part);

let wanted = new Set();
let due;

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
      part.dispatchEvent(new CustomEvent("news", { bubbles: true, detail: fresh }));
      continue;
    }
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

if (seq && parts().length) {
  const changes = new EventSource("/changes");
  changes.addEventListener("change", (event) => heard(JSON.parse(event.data).kind));
  changes.addEventListener("again", () => location.reload());
}
