// Nothing typed is lost: a form with data-keep is kept on this device while it is written, and comes back after a reload, a
// lost connection, an expired sign-in or the back button. What was taken, or is a week old, goes; signing out takes all of it.

const PREFIX = "kept:";
const WEEK_MS = 7 * 24 * 3600 * 1000;
const form = document.querySelector("form[data-keep]");
const here = form && `${PREFIX}${form.dataset.keep}:${location.pathname}`;

const read = (key) => {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
};
const write = (key, kept) => {
  try {
    localStorage.setItem(key, JSON.stringify(kept));
  } catch {
    // no room, or not allowed: the page works as it did before
  }
};
const keys = () => Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
const fields = () => [...new FormData(form)].filter(([, value]) => typeof value === "string");
/** What somebody typed or chose, without what the page itself carries. */
const typed = (pairs) => {
  const hidden = new Set([...form.elements].filter((field) => field.type === "hidden").map((field) => field.name));
  return JSON.stringify(pairs.filter(([name]) => !hidden.has(name)));
};

function fill(pairs) {
  const filled = new Map();
  for (const field of form.elements) {
    if (!field.name || field.type === "submit" || field.type === "button" || "now" in field.dataset) continue;
    const values = pairs.filter(([name]) => name === field.name).map(([, value]) => value);
    if (field.type === "radio" || field.type === "checkbox") field.checked = values.includes(field.value);
    else {
      // of several of one name each gets its own
      const at = filled.get(field.name) ?? 0;
      filled.set(field.name, at + 1);
      if (at < values.length) field.value = values[at];
    }
  }
  form.dispatchEvent(new Event("input", { bubbles: true }));
}

function offer(kept, before) {
  const said = document.createElement("div");
  said.className = "card pad";
  said.setAttribute("role", "status");
  said.dataset.kept = "";
  const words = document.createElement("p");
  words.textContent = "What you typed here before is back; it is not saved yet.";
  const drop = document.createElement("button");
  drop.type = "button";
  drop.className = "button";
  drop.textContent = "Drop it, show what is saved";
  drop.addEventListener("click", () => {
    fill(before);
    localStorage.removeItem(here);
    said.remove();
  });
  said.append(words, drop);
  form.before(said);
  fill(kept.fields);
}

const wentWrong = document.querySelector("[data-error-page]") !== null;
const onSignIn = location.pathname === "/sign-in";
for (const key of keys()) {
  const kept = read(key);
  if (!kept || Date.now() - kept.at > WEEK_MS) localStorage.removeItem(key);
  else if (kept.sent && onSignIn) write(key, { ...kept, sent: false });
  // taken: another page came, or this one with word of it; a page that says what went wrong is none
  else if (kept.sent && !wentWrong && (key !== here || document.querySelector(".flash"))) localStorage.removeItem(key);
}

if (form) {
  const before = fields();
  const kept = read(here);
  const id = kept?.fields.find(([name]) => name === "id")?.[1];
  const refused = document.querySelector("[data-error-summary]");
  // a form that the service has just filled in is newer than what was typed into it
  if (kept && "fresh" in form.dataset) localStorage.removeItem(here);
  // its answer was lost: what it made stands on the page already
  else if (id && document.getElementById(`kept-${id}`)) localStorage.removeItem(here);
  else if (kept && !refused && typed(kept.fields) !== typed(before)) offer(kept, before);
  const keep = (sent) => write(here, { at: Date.now(), sent, fields: fields() });
  form.addEventListener("input", (event) => {
    if (event.isTrusted) keep(false);
  });
  form.addEventListener("submit", (event) => {
    if (!event.submitter?.formAction.endsWith("/check")) keep(true);
  });
}

document.addEventListener("submit", (event) => {
  if (event.target.getAttribute("action") === "/sign-out") keys().forEach((key) => localStorage.removeItem(key));
});
