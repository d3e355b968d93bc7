// Finds what a person means by the words they see. Every function answers with the
// middle of it, scrolled into view, or with why there is none.

// plain is a text with its white space as it is seen.
function plain(text) { return (text ?? "").replace(/\s+/g, " ").trim(); }

// named is what something is called: by its label, by its words or by its value.
function named(e) {
  const label = e.getAttribute("aria-label") ?? "";
  const said = e.labels?.length ? [...e.labels].map((l) => l.innerText).join(" ") : "";
  const by = (e.getAttribute("aria-labelledby") ?? "").split(" ").map((id) => document.getElementById(id)?.innerText ?? "").join(" ");
  return [label, by, said, e.innerText, e.tagName === "INPUT" ? e.value : ""].map(plain).filter(Boolean);
}

// seen says whether something can be seen at all.
function seen(e) {
  const box = e.getBoundingClientRect();
  return e.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && box.width > 0 && box.height > 0;
}

// among picks the one that reads exactly so, or else the first that begins with it or has it in it.
function among(all, words) {
  const want = plain(words).toLowerCase();
  const read = (e, is) => named(e).some((n) => is(n.toLowerCase()));
  return all.find((e) => read(e, (n) => n === want)) ?? all.find((e) => read(e, (n) => n.startsWith(want))) ?? all.find((e) => read(e, (n) => n.includes(want)));
}

// place is where something is, after it was brought into view.
function place(e, trouble) {
  if (!e) return { Trouble: trouble };
  e.scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
  const rects = e.getClientRects();
  const box = rects.length ? rects[0] : e.getBoundingClientRect();
  const x = box.left + box.width / 2, y = box.top + box.height / 2;
  const hit = document.elementFromPoint(x, y);
  if (hit && hit !== e && !e.contains(hit) && !hit.contains(e)) {
    return { Trouble: `<${hit.tagName.toLowerCase()}> "${plain(hit.innerText).slice(0, 40)}" lies over it` };
  }
  return { X: x, Y: y, Kind: e.type === "checkbox" || e.type === "radio" ? e.type : e.tagName.toLowerCase() };
}

// said lists names for a message.
function said(all) {
  return all.map((e) => named(e)[0] ?? `<${e.tagName.toLowerCase()}>`).slice(0, 40).join(" | ");
}

// pressable finds a link, a button, a summary or a box to tick.
function pressable(words) {
  const all = [...document.querySelectorAll("a[href], button, summary, input, [role=button], [role=tab], [role=radio], [role=option], label")].filter(seen);
  return place(among(all, words), `nothing to press reads so; there is ${said(all)}`);
}

// field is the field of a label, or undefined.
function fields() { return [...document.querySelectorAll("input:not([type=hidden]), textarea, select, [contenteditable=true]")].filter(seen); }

// fieldOf finds a field by its label and selects what is in it.
function fieldOf(words) {
  const all = fields(), e = among(all, words);
  if (e) { e.focus(); e.select?.(); }
  return place(e, `no field has this label; there is ${said(all)}`);
}

// choose takes what reads so of a choice: its label, a line feed, its words.
function choose(both) {
  const [label, words] = both.split("\n"), e = among(fields(), label);
  const option = [...e.options].find((o) => plain(o.text).toLowerCase() === plain(words).toLowerCase());
  if (!option) return { Trouble: `no such choice; there is ${[...e.options].map((o) => o.text).join(" | ")}` };
  e.value = option.value;
  e.dispatchEvent(new Event("input", { bubbles: true }));
  e.dispatchEvent(new Event("change", { bubbles: true }));
  return place(e);
}
