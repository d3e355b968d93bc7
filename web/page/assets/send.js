// Sends forms once, and says what becomes of them: while one is on its way its button waits,
// and without a connection nothing is tried, so that what was typed stays where it is.

const says = (form, text) => {
  let told = form.querySelector("output.sending");
  if (!told) {
    told = form.appendChild(document.createElement("output"));
    told.className = "sending soft";
  }
  told.textContent = text;
};

const rest = (form) => {
  form.removeAttribute("data-sending");
  form.querySelectorAll("[aria-busy]").forEach((button) => button.removeAttribute("aria-busy"));
};

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method !== "post") return;
  if (form.dataset.sending) {
    event.preventDefault();
    return;
  }
  if (!navigator.onLine) {
    event.preventDefault();
    says(form, "There is no connection. What you typed stays here: send it when you are back.");
    return;
  }
  form.dataset.sending = "yes";
  event.submitter?.setAttribute("aria-busy", "true");
  setTimeout(() => form.dataset.sending && says(form, "Still sending. What you typed stays here until it has arrived."), 4000);
});

addEventListener("online", () => document.querySelectorAll("output.sending").forEach((told) => (told.textContent = "The connection is back. Send it now.")));

// A page that comes back from the browser's memory is not being sent any more.
addEventListener("pageshow", () => document.querySelectorAll("form[data-sending]").forEach(rest));
