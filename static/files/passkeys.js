// Passkeys: made on the account page, used on the sign-in page. SimpleWebAuthn speaks to the browser, this to the service.
const { browserSupportsWebAuthn, browserSupportsWebAuthnAutofill, startAuthentication, startRegistration } =
  globalThis.SimpleWebAuthnBrowser;

const part = document.querySelector("[data-passkeys]");
if (part) begin(part);

function begin(part) {
  const find = (name) => part.querySelector(`[data-passkey${name}]`);
  const button = find("");
  const say = (words) => { find("-said").textContent = words; };
  const plain = find("-plain");
  if (plain) plain.hidden = true;
  if (location.origin !== part.dataset.origin) {
    find("-elsewhere").hidden = false;
    return;
  }
  if (!browserSupportsWebAuthn()) {
    const unsupported = find("-unsupported");
    if (unsupported) unsupported.hidden = false;
    return;
  }

  /** Does one thing after the other; what goes wrong is said, and nothing is lost by it. */
  const attempt = async (work) => {
    say("");
    button.disabled = true;
    try {
      location.assign((await work()).to);
    } catch (error) {
      say(inWords(error));
      if (error.practices) choose(find("-practice"), error.practices);
      button.disabled = false;
      return false;
    }
    return true;
  };

  const add = async () => {
    const { publicKey } = await post("/account/passkeys/begin", {});
    return post("/account/passkeys", await startRegistration({ optionsJSON: publicKey }));
  };
  const use = async (useBrowserAutofill) => {
    const { publicKey } = await post("/sign-in/passkey/begin", {});
    const answer = await startAuthentication({ optionsJSON: publicKey, useBrowserAutofill });
    const next = document.querySelector("form [name=next]")?.value ?? "";
    const practice = part.querySelector("select")?.value || null;
    return post("/sign-in/passkey", { answer, next, practice });
  };
  /** Lets the browser offer passkeys in the address field, where it can. */
  const offer = async (again) => {
    if (!(await browserSupportsWebAuthnAutofill())) return;
    try {
      location.assign((await use(true)).to);
    } catch (error) {
      // pressing the button ends this one, and so does leaving it be
      if (!(error instanceof Refused)) return;
      say(inWords(error));
      if (error.practices) choose(find("-practice"), error.practices);
      // the challenge of a page that was open for long has run out: offer a new one
      if (again) offer(false);
    }
  };

  button.hidden = false;
  button.addEventListener("click", () => attempt(button.dataset.passkey === "add" ? add : () => use(false)));
  if (button.dataset.passkey === "use") offer(true);
}

/** What the service said no to, in its own words. */
class Refused extends Error {}

async function post(path, body) {
  const headers = { "content-type": "application/json" };
  const answer = await fetch(path, { method: "POST", headers, body: JSON.stringify(body) });
  if (answer.redirected) {
    location.assign(answer.url); // signed out meanwhile
    return new Promise(() => {});
  }
  if (answer.ok) return answer.json();
  const isOurs = answer.headers.get("content-type")?.startsWith("application/json");
  const said = isOurs ? await answer.json() : {};
  const usual = answer.status === 429 ? "Too many tries. Wait a minute, then try again." : "That did not work. Try again in half a minute.";
  throw Object.assign(new Refused(said.message ?? usual), { practices: said.practices });
}

function inWords(error) {
  if (error instanceof Refused) return error.message;
  if (error.name === "InvalidStateError") return "This device has a passkey for you already.";
  if (error.name === "NotAllowedError") return "Nothing was done: it was stopped, took too long, or no passkey for this address is on this device.";
  return "This device could not do that. Try again, or use another way to sign in.";
}

/** Offers the practices of somebody who has several. */
function choose(field, practices) {
  const select = field.querySelector("select");
  select.replaceChildren(...practices.map(([id, name]) => new Option(name, id)));
  field.hidden = false;
  select.focus();
}
