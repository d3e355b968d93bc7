// Makes and uses passkeys. Buttons that need this script are hidden until it runs, and
// stay so where the browser has no passkeys.

const ask = async (path, body) => {
  const got = await fetch(path, { method: "POST", body: body && JSON.stringify(body) });
  if (got.status === 204) return null;
  const said = await got.json();
  if (!got.ok) throw new Error(`${said.error.summary}: ${said.error.hint}`);
  return said;
};

const ways = {
  async make() {
    const { publicKey } = await ask("/passkeys/new");
    const made = await navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(publicKey) });
    await ask("/passkeys", made.toJSON());
    return "This device has a passkey now.";
  },
  async use() {
    const { publicKey } = await ask("/enter/passkey/new");
    const used = await navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(publicKey) });
    await ask("/enter/passkey", used.toJSON());
    location.assign("/");
    return "Coming in.";
  },
};

if (window.PublicKeyCredential?.parseCreationOptionsFromJSON) {
  for (const button of document.querySelectorAll("button[data-passkey]")) {
    const says = button.parentElement.appendChild(document.createElement("output"));
    button.hidden = false;
    button.addEventListener("click", async () => {
      button.disabled = true;
      says.textContent = await ways[button.dataset.passkey]().catch((why) => (why.name === "NotAllowedError" ? "Not done. Try again, or come in another way." : why.message));
      button.disabled = false;
    });
  }
}
