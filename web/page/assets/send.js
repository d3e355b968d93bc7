// Sends forms once, and says what becomes of them: while one is on its way its button waits,
// and without a connection nothing is tried, so that what was typed stays where it is.
//
// A form, or a button of one, with data-send leads on when it was taken. It is sent beside
// the page, which stays until an answer has come: a line that breaks meanwhile costs nobody
// what they typed, and what is sent again is kept once.

const says = (form, text, kind = "soft") => {
  let told = form.querySelector("output.sending");
  if (!told) told = form.appendChild(document.createElement("output"));
  told.className = `sending ${kind}`;
  told.textContent = text;
};

const rest = (form) => {
  clearTimeout(form.saysLater);
  form.removeAttribute("data-sending");
  form.querySelectorAll("[aria-busy]").forEach((button) => button.removeAttribute("aria-busy"));
};

// begin has a form wait for what becomes of it.
function begin(form, button) {
  form.dataset.sending = "yes";
  button?.setAttribute("aria-busy", "true");
  form.saysLater = setTimeout(() => {
    says(form, "Sending.");
    form.saysLater = setTimeout(() => says(form, "Still sending. What you typed stays here until it has arrived."), 3000);
  }, 1000);
}

// leave goes to where a form leads: a place within the page that is shown is fetched too.
function leave(address) {
  const to = new URL(address, location.href);
  const same = to.pathname === location.pathname && to.search === location.search;
  location.assign(to);
  if (same && to.hash) location.reload();
}

// beside sends a form and waits for its answer: 204 names the next page. Any other answer is
// for the browser to show, which asks for it as if this script were not here.
async function beside(form, button) {
  const body = new URLSearchParams(new FormData(form, button));
  const address = button?.hasAttribute("formaction") ? button.formAction : form.getAttribute("action");
  const got = await fetch(address, { method: "POST", body, headers: { Accept: "text/html", Prefer: "return=minimal" }, signal: AbortSignal.timeout(60_000) }).catch(() => null);
  if (!got || (got.status >= 502 && got.status <= 504)) {
    rest(form);
    says(form, "It was sent, and no answer came. What you typed stays here. Send it again: it is kept once.", "look");
    return;
  }
  const next = got.status === 204 && got.headers.get("Location");
  if (next) return leave(next);
  rest(form);
  form.dataset.shown = "yes";
  form.requestSubmit(button);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  const { submitter } = event;
  if (event.defaultPrevented || form.method !== "post") return;
  if (form.dataset.sending) {
    event.preventDefault();
    return;
  }
  if (!navigator.onLine) {
    event.preventDefault();
    says(form, "There is no connection. What you typed stays here: send it when you are back.", "look");
    return;
  }
  begin(form, submitter);
  const leads = [form, submitter].some((part) => part?.hasAttribute("data-send"));
  if (!leads || form.dataset.shown) return;
  event.preventDefault();
  beside(form, submitter);
});

addEventListener("online", () => document.querySelectorAll("output.sending.look").forEach((told) => (told.textContent = "The connection is back. Send it now.")));

// A page that comes back from the browser's memory is not being sent any more.
addEventListener("pageshow", () => document.querySelectorAll("form[data-sending]").forEach((form) => {
  rest(form);
  form.removeAttribute("data-shown");
}));
