// Measures what a thumb has to hit, and what sticks out sideways.

// short is a short name for a message.
function short(e) {
  const words = (e.getAttribute("aria-label") || e.labels?.[0]?.innerText || e.innerText || e.name || "").replace(/\s+/g, " ").trim();
  const kind = [...(e.classList ?? [])].map((c) => "." + c).join("");
  return `<${e.tagName.toLowerCase()}${kind}> "${words.slice(0, 40)}"`;
}

// reach is the whole of what may be hit for something: itself and its labels.
function reach(e) {
  const boxes = [e, ...(e.labels ?? [])].map((x) => x.getBoundingClientRect());
  return [Math.max(...boxes.map((b) => b.right)) - Math.min(...boxes.map((b) => b.left)), Math.max(...boxes.map((b) => b.bottom)) - Math.min(...boxes.map((b) => b.top))];
}

// drawnAsButton says whether a link looks like something to press: it has a border all
// around or a ground of its own.
function drawnAsButton(e) {
  const s = getComputedStyle(e), bordered = ["Top", "Right", "Bottom", "Left"].every((side) => parseFloat(s[`border${side}Width`]) > 0);
  return bordered || !["rgba(0, 0, 0, 0)", "transparent"].includes(s.backgroundColor);
}

// thin lists buttons, links drawn as such, and fields, that are smaller than a thumb needs.
function thin(least) {
  const asked = "button, input:not([type=hidden]), select, textarea, summary, [role=button], a[href]";
  return [...document.querySelectorAll(asked)].filter((e) => {
    const box = e.getBoundingClientRect();
    if (!e.checkVisibility({ visibilityProperty: true }) || box.width === 0 || box.right < 0 || box.bottom < 0) return false;
    return e.tagName !== "A" || drawnAsButton(e);
  }).map((e) => [e, reach(e)]).filter(([, [w, h]]) => w < least - 0.5 || h < least - 0.5)
    .map(([e, [w, h]]) => ({ Name: short(e), Wide: w, High: h }));
}

// wider lists what reaches past the right edge and is not in something that scrolls by
// itself, the outermost of each.
function wider(width) {
  const whole = Math.max(document.documentElement.scrollWidth, document.body?.scrollWidth ?? 0);
  if (whole <= width) return { Whole: whole, Out: [] };
  const held = (e) => { for (let p = e.parentElement; p && p !== document.body; p = p.parentElement) if (getComputedStyle(p).overflowX !== "visible") return true; return false; };
  const out = [...document.body.querySelectorAll("*")].filter((e) => e.getBoundingClientRect().right > width + 0.5 && !held(e));
  return { Whole: whole, Out: out.filter((e) => !out.includes(e.parentElement)).slice(0, 5).map((e) => `${short(e)} to ${Math.round(e.getBoundingClientRect().right)}`) };
}
