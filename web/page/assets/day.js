// The sheet while it is written: line numbers, what there is to say beneath the words it is
// about, and the day worked out from what is typed. All that changes the text goes in as if
// it were typed, so that undo takes it back.

const editor = document.getElementById("editor");
const text = document.getElementById("text");
const write = text.parentElement;
const revision = editor.elements.revision;
const kept = `kept ${document.body.dataset.who ?? ""} ${location.pathname} sheet`; // where keep.js has the text
const base = `${kept} base`; // the revision that a kept text was written from
const worked = ["glance", "who", "room"];

// Behind the text stands the same text unseen: it carries the numbers of the lines and what
// is underlined, and breaks its lines where the text does.
const behind = write.insertBefore(document.createElement("div"), text);
behind.className = "behind";
behind.ariaHidden = "true";
write.classList.add("numbered");

const dirty = () => text.value !== text.defaultValue;

// offset is where a line and a column lie; columns count letters, not units.
function offset(lines, line, column) {
  let at = 0;
  for (let i = 0; i < line - 1 && i < lines.length; i++) at += lines[i].length + 1;
  return at + [...(lines[line - 1] ?? "")].slice(0, column - 1).join("").length;
}

function spanOf(remark) {
  const d = remark.dataset;
  const lines = text.value.split("\n");
  return [offset(lines, +d.line, +d.column), offset(lines, +d.endLine, +d.endColumn)];
}

// draw shows the numbers of the lines and what is underlined.
function draw(remarks) {
  const lines = text.value.split("\n").map((words, i) => {
    const line = document.createElement("div");
    line.dataset.n = i + 1;
    line.textContent = words || "\u200b";
    return line;
  });
  for (const r of remarks) {
    const { line, column, endLine, endColumn } = r.dataset;
    const at = lines[line - 1];
    if (!at || r.className === "soft" || at.className) continue;
    at.className = r.className;
    const letters = [...at.textContent];
    const mark = document.createElement("mark");
    mark.textContent = letters.slice(column - 1, endLine === line ? endColumn - 1 : undefined).join("");
    at.replaceChildren(letters.slice(0, column - 1).join(""), mark, endLine === line ? letters.slice(endColumn - 1).join("") : "");
  }
  behind.replaceChildren(...lines);
  if (!CSS.supports("field-sizing", "content")) {
    text.style.height = "auto";
    text.style.height = `${text.scrollHeight}px`;
  }
}

const remarks = () => [...document.querySelectorAll("#said [data-line]")];

// put types words in the place of others, so that undo takes them back.
function put(from, to, words) {
  text.focus();
  text.setSelectionRange(from, to);
  if (!document.execCommand("insertText", false, words)) text.setRangeText(words, from, to, "end");
  text.dispatchEvent(new Event("input", { bubbles: true }));
}

// ask posts what is written, and gives the answer unless a later question was asked.
const asking = {};
async function ask(path, more = {}) {
  asking[path]?.abort();
  const { signal } = (asking[path] = new AbortController());
  const body = new URLSearchParams({ text: text.value, revision: revision.value, ...more });
  const got = await fetch(path, { method: "POST", body, signal, headers: { "HX-Request": "true" } }).catch(() => null);
  if (!got?.ok || signal.aborted) return null;
  const answer = new DOMParser().parseFromString(await got.text(), "text/html");
  return signal.aborted ? null : answer;
}

async function check() {
  const answer = await ask(editor.dataset.check);
  if (!answer) return;
  document.getElementById("said").replaceChildren(...answer.getElementById("said").childNodes);
  draw(remarks());
}

// tell says above the verdicts what stands there.
function tell(words) {
  const told = document.querySelector("#glance .typed");
  if (!told || told.textContent === words) return;
  told.classList.add("is-draft");
  told.textContent = words;
}

// page fetches the day as it is saved.
async function page(more) {
  const here = new URL(location);
  for (const [name, value] of Object.entries(more)) here.searchParams.set(name, value);
  const got = await fetch(here, { headers: { Accept: "text/html" } }).catch(() => null);
  return got?.ok ? new DOMParser().parseFromString(await got.text(), "text/html") : null;
}

// rework shows the day as it would be: first who does what, then the hour, which takes
// longer. Where that cannot be worked out, what was there stays, and it is said why.
async function rework(more = {}) {
  const asked = text.value;
  const answer = dirty() ? await ask(editor.dataset.draft, more) : await page(more);
  if (asked !== text.value) return; // a later question is under way
  if (!answer) return tell("What you typed could not be worked out just now. It is tried again as you type.");
  const why = answer.querySelector("#who > .look");
  if (dirty() && why) return tell(`${why.textContent.replace(/\s+/g, " ").trim()} What stands here is from before.`);
  let waits = false;
  for (const id of worked) {
    const fresh = answer.getElementById(id);
    const old = document.getElementById(id);
    if (!fresh || fresh.innerHTML === old.innerHTML) continue;
    if (window.written(old) || (more.wait && old.contains(document.activeElement))) {
      waits ||= id === "who" && window.written(old);
      continue; // somebody is at it
    }
    window.keepFolds(old, fresh);
    if (dirty()) fresh.dataset.dirty = ""; // nothing that was saved takes its place
    old.replaceWith(fresh);
    window.htmx?.process(fresh);
  }
  if (waits) tell("Who does what is from before, and waits for what you write there: set it, or take it out.");
  if (!more.wait && answer.querySelector("[data-later]")) await rework({ wait: "yes" });
}

editor.closest("details")?.addEventListener("toggle", () => draw(remarks()));

// How long nothing is typed before it is looked at, in ms: most who write leave 150 between
// two letters. A later text breaks the work on an earlier one off.
const soon = { check: 80, rework: 140 };

let checking, reworking;
text.addEventListener("input", () => {
  draw([]);
  if (dirty() && editor.dataset.draft) tell("Working it out from what you type.");
  clearTimeout(checking);
  clearTimeout(reworking);
  checking = setTimeout(check, soon.check);
  reworking = setTimeout(() => rework(), soon.rework);
  if (dirty()) sessionStorage.setItem(base, sessionStorage.getItem(base) ?? revision.value);
  else sessionStorage.removeItem(base);
});

// A new line begins where the one before it began.
text.addEventListener("keydown", (event) => {
  if (event.key === "s" && (event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    editor.requestSubmit(editor.querySelector("[value=save]"));
  }
  if (event.key !== "Enter" || event.ctrlKey || event.metaKey || event.isComposing) return;
  const at = text.selectionStart;
  const indent = /^ */.exec(text.value.slice(text.value.lastIndexOf("\n", at - 1) + 1, at))[0];
  if (!indent) return;
  event.preventDefault();
  put(at, text.selectionEnd, `\n${indent}`);
});

editor.addEventListener("click", async (event) => {
  const mend = event.target.closest("[data-put]");
  if (mend) {
    event.preventDefault();
    put(...spanOf(mend.closest("[data-line]")), mend.dataset.put);
    return;
  }
  const jump = event.target.closest(".remarks a");
  if (jump) {
    event.preventDefault();
    text.focus();
    text.setSelectionRange(...spanOf(jump.closest("[data-line]")));
    return;
  }
  if (event.target.closest("[value=tidy]")) {
    event.preventDefault();
    const tidied = (await ask(editor.action, { do: "tidy" }))?.getElementById("text").value;
    if (tidied !== undefined && tidied !== text.value) put(0, text.value.length, tidied);
  }
});

// What is published is what is saved.
document.querySelector("form[action*='/editions']")?.addEventListener("submit", (event) => {
  if (!dirty()) return;
  event.preventDefault();
  tell("What you typed is not saved yet. Save it first, then publish.");
  editor.querySelector("[value=save]").focus();
});

// Somebody else has saved this sheet. Who has typed nothing gets the new text; who has is
// told, and saving shows both.
editor.closest("[data-live]")?.addEventListener("news", ({ detail: fresh }) => {
  if (!dirty()) {
    const at = text.selectionStart;
    text.value = text.defaultValue = fresh.querySelector("textarea").value;
    text.setSelectionRange(at, at);
    revision.value = fresh.querySelector("[name=revision]").value;
    check();
    return;
  }
  let told = editor.querySelector(".news");
  if (!told) {
    told = document.createElement("p");
    told.className = "news look";
    told.setAttribute("role", "alert");
    editor.prepend(told);
  }
  told.textContent = `This sheet was saved meanwhile. ${fresh.querySelector(".who").textContent} What you typed is kept: save it, and you will see both side by side.`;
});

// Something else has changed that the day rests on.
document.addEventListener("news", ({ target }) => {
  if (worked.includes(target.id) && dirty()) rework();
});

document.addEventListener("renewed", ({ target }) => {
  if (target.matches("[data-later]")) rework({ wait: "yes" });
});

// What was kept from before was written from the revision of then. A refused text stands on
// its page as if it had come from there, and is kept all the same, with its revision.
if (dirty()) {
  revision.value = sessionStorage.getItem(base) ?? revision.value;
  editor.closest("details")?.setAttribute("open", ""); // where it is folded up
  check();
  rework();
} else if (sessionStorage.getItem(kept) === null) {
  sessionStorage.removeItem(base);
}
if (document.querySelector("[data-later]") && !dirty()) rework({ wait: "yes" });
if (new URLSearchParams(location.search).has("said")) {
  const here = new URL(location);
  here.searchParams.delete("said");
  history.replaceState(null, "", here);
}
draw(remarks());

// Somebody's version opens and closes in its place. Where htmx has fetched one already, a
// second press puts it away; a link with data-shows opens the one that it names.

const home = (link) => document.getElementById(link.dataset.opens);

function shut(link) {
  home(link).replaceChildren();
  link.setAttribute("aria-expanded", "false");
}

document.addEventListener("click", (event) => {
  const shows = event.target.closest("[data-shows]");
  if (shows) {
    const row = document.getElementById(shows.dataset.shows);
    const link = row?.querySelector("[data-opens]");
    if (!link) return;
    event.preventDefault();
    if (!home(link).childElementCount) link.click();
    row.scrollIntoView({ block: "start" });
    link.focus({ preventScroll: true });
    return;
  }
  const link = event.target.closest("[data-opens]");
  if (link && home(link)?.childElementCount) {
    event.preventDefault();
    event.stopImmediatePropagation();
    shut(link);
  }
}, true);

document.addEventListener("htmx:afterSwap", ({ target }) => {
  const link = document.querySelector(`[data-opens="${CSS.escape(target.id)}"]`);
  link?.setAttribute("aria-expanded", "true");
  link?.closest("li").scrollIntoView({ block: "nearest" }); // its option has moved to where there is room
});

for (const link of document.querySelectorAll("[data-opens]")) {
  link.setAttribute("aria-expanded", String(home(link).childElementCount > 0));
}
