// Walks the page by the Tab key: which things stop it, where it is, and whether that can
// be seen. The list is made once for a walk; the walk itself presses real keys.

// visible says whether something can be seen, or stands in for something that can: boxes
// to tick are often drawn by their labels.
function visible(e) { return e.checkVisibility({ visibilityProperty: true }) && !e.closest("[inert]"); }

// listStops lists what Tab has to reach, in the order of the document. Of buttons of which
// one is chosen it stops at that one, or at any while none is.
function listStops() {
  const asked = "a[href], button, input:not([type=hidden]), select, textarea, summary, [contenteditable=true], [tabindex]";
  const all = [...document.querySelectorAll(asked)].filter((e) => !e.disabled && !e.closest("fieldset[disabled]") && e.getAttribute("tabindex") !== "-1" && visible(e));
  const groups = new Map();
  return all.filter((e) => {
    if (e.tagName === "SUMMARY" && e.parentElement?.tagName !== "DETAILS") return false;
    if (e.type !== "radio" || !e.name) return true;
    const group = (e.form?.id ?? "") + [...document.forms].indexOf(e.form) + e.name;
    if (groups.has(group)) return false;
    groups.set(group, e);
    return true;
  }).map((e) => e.type === "radio" && e.name ? [...document.querySelectorAll(`input[type=radio][name="${CSS.escape(e.name)}"]`)].find((r) => r.form === e.form && r.checked) ?? e : e);
}

// looks is how something and what stands for it is drawn, as far as focus may change it.
function looks(e) {
  const of = (x, pseudo) => {
    const s = getComputedStyle(x, pseudo);
    const outline = s.outlineStyle === "none" || parseFloat(s.outlineWidth) === 0 ? "" : s.outline;
    return [outline, s.boxShadow, s.border, s.background, s.textDecoration, s.color, s.transform].join();
  };
  return [e, e.parentElement, e.nextElementSibling, ...(e.labels ?? [])].filter(Boolean).map((x) => of(x) + of(x, "::before") + of(x, "::after")).join(" / ");
}

// called is a short name for a message.
function called(e) {
  const words = (e.getAttribute("aria-label") || e.labels?.[0]?.innerText || e.innerText || e.name || e.id || "").replace(/\s+/g, " ").trim();
  return `<${e.tagName.toLowerCase()}> "${words.slice(0, 40)}"`;
}

// beginWalk goes to the beginning of the page and says what has to be reached.
function beginWalk() {
  const root = document.documentElement;
  document.activeElement?.blur();
  root.tabIndex = -1; root.focus(); root.blur(); root.removeAttribute("tabindex");
  scrollTo(0, 0);
  globalThis.stops = listStops();
  globalThis.before = stops.map(looks);
  return stops.map((e) => ({
    Name: called(e),
    Early: e.tabIndex > 0,
    Parts: ["date", "time", "datetime-local", "month", "week", "file", "color"].includes(e.type) || e.tagName === "AUDIO" || e.tagName === "VIDEO",
  }));
}

// covered says whether nothing of the thing can be seen beneath what lies over it.
function covered(e) {
  const b = e.getBoundingClientRect(), mine = [e, ...(e.labels ?? [])];
  const points = [[0.5, 0.5], [0.1, 0.2], [0.9, 0.2], [0.1, 0.8], [0.9, 0.8]];
  const hits = points.map(([x, y]) => document.elementFromPoint(b.left + b.width * x, b.top + b.height * y)).filter(Boolean);
  return hits.length > 0 && !hits.some((h) => mine.some((m) => m.contains(h) || h.contains(m)));
}

// here tells where the walk is: Index -1 is nowhere that it has to be.
function here() {
  const e = document.activeElement, i = e && e.type === "radio" && e.name ? stops.findIndex((s) => s.type === "radio" && s.name === e.name && s.form === e.form) : stops.indexOf(e);
  const box = e?.getBoundingClientRect();
  return { Index: i, Name: e ? called(e) : "", Shown: i < 0 || looks(e) !== before[i] || e !== stops[i], Covered: i >= 0 && box.width > 2 && box.height > 2 && covered(e) };
}

// skipLink tells of the link that leads past what is the same on every page: whether one
// is needed, and where it leads.
function skipLink() {
  const first = stops[0], main = document.querySelector("main");
  const repeated = stops.filter((e) => e.closest("nav, header") && !e.closest("main"));
  const to = first?.getAttribute("href")?.startsWith("#") ? document.getElementById(first.getAttribute("href").slice(1)) : null;
  globalThis.beyond = to;
  return { Needed: repeated.length > 2 && !!main, There: !!to, More: !!to && stops.some(follows), Name: first ? called(first) : "" };
}

// follows says whether something is at or past the place that the link leads to.
function follows(e) { return beyond === e || beyond.contains(e) || !!(beyond.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING); }

// isBeyond says whether the walk is.
function isBeyond() { const e = document.activeElement; return !!e && e !== document.body && follows(e); }
