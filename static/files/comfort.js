// Comforts on top of plain pages. Nothing here is needed for a task: without it every form and link still works.

const GUARD_MS = 1000;
const SAID_MS = 2500;

// A second tap within a second sends nothing. Buttons stay enabled, so that the pressed one keeps its name and value.
const sent = new WeakMap();
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.method === "dialog" || form.hasAttribute("data-again")) return;
  const now = performance.now();
  if (now - (sent.get(form) ?? -GUARD_MS) < GUARD_MS) {
    event.preventDefault();
    return;
  }
  sent.set(form, now);
  form.setAttribute("aria-busy", "true");
  setTimeout(() => form.removeAttribute("aria-busy"), GUARD_MS);
});

document.querySelector("[data-error-summary]")?.focus();

// On a narrow screen the part of a dog's page that is open stands in view.
for (const open of document.querySelectorAll(".tabs [aria-current=page]")) {
  const strip = open.closest(".tabs");
  strip.scrollLeft = open.offsetLeft - strip.offsetLeft - (strip.clientWidth - open.offsetWidth) / 2;
}

const speak = (() => {
  const region = document.createElement("p");
  region.className = "visually-hidden";
  region.setAttribute("role", "status");
  document.body.append(region);
  return (words) => { region.textContent = words; };
})();

/** Changes a button's words for a moment and says them aloud. */
function answer(button, words) {
  const label = button.querySelector("[data-label]") ?? button;
  const before = label.textContent;
  label.textContent = words;
  speak(words);
  setTimeout(() => { label.textContent = before; speak(""); }, SAID_MS);
}

async function copy(button) {
  try {
    await navigator.clipboard.writeText(button.dataset.copy);
    answer(button, button.dataset.done ?? "Copied");
  } catch {
    answer(button, "Could not copy: select it by hand");
  }
}

async function share(button) {
  const { share: text, shareUrl: url, shareTitle: title } = button.dataset;
  const what = Object.fromEntries(Object.entries({ title, text, url }).filter(([, value]) => value));
  try {
    await navigator.share(what);
  } catch (error) {
    if (error.name !== "AbortError") answer(button, "Could not share");
  }
}

function reveal(button) {
  const input = document.getElementById(button.dataset.reveal);
  const show = input.type === "password";
  input.type = show ? "text" : "password";
  button.setAttribute("aria-pressed", String(show));
}

/** Shows the buttons that can work here, and makes them work. */
function offer(selector, possible, act) {
  if (!possible) return;
  for (const button of document.querySelectorAll(selector)) {
    button.hidden = false;
    button.addEventListener("click", () => act(button));
  }
}
offer("[data-copy]", Boolean(navigator.clipboard), copy);
offer("[data-share]", Boolean(navigator.share), share);
offer("[data-reveal]", true, reveal);
offer("[data-print]", true, () => window.print());

// The caseload's keys: j and k walk the rows, a acts, ? lists them. They can be switched off (WCAG 2.1.4).
const keys = document.querySelector("[data-keys]");
if (keys) walkRows(keys);

function walkRows(panel) {
  const dialog = panel.querySelector("dialog");
  const wanted = panel.querySelector("[data-keys-on]");
  const rows = () => [...document.querySelectorAll("[data-row]")];
  const current = () => document.activeElement?.closest("[data-row]");

  panel.hidden = false;
  try { wanted.checked = localStorage.getItem("keys") !== "off"; } catch { /* no storage: on */ }
  wanted.addEventListener("change", () => {
    try { localStorage.setItem("keys", wanted.checked ? "on" : "off"); } catch { /* lasts this page */ }
  });
  panel.querySelector("[data-keys-close]").addEventListener("click", () => dialog.close());
  panel.querySelector("[data-keys-open]").addEventListener("click", () => dialog.showModal());

  const move = (by) => {
    const all = rows();
    const at = all.indexOf(current());
    const to = at < 0 ? (by > 0 ? 0 : all.length - 1) : Math.min(Math.max(at + by, 0), all.length - 1);
    all[to]?.querySelector("a, button")?.focus();
    all[to]?.scrollIntoView({ block: "nearest" });
  };
  // what a page gives a key of its own: a button or link is pressed; "e" goes to the field that is written in
  const keyed = (key) => {
    const found = /^[a-z]$/.test(key) && document.querySelector(key === "e" ? "main textarea" : `[data-key="${key}"]`);
    return found && (() => (found.matches("textarea") ? found.focus() : found.click()));
  };
  // back from a dog that still presses: on to the next, so that one key does not lead to the same dog again
  const back = new URLSearchParams(location.search).get("after");
  if (back) {
    const all = rows();
    const at = all.findIndex((row) => row.dataset.row === back);
    const next = at >= 0 && "presses" in all[at].dataset ? all[at + 1] ?? all[at] : all[0];
    next?.querySelector("a, button")?.focus();
  }
  const acts = {
    j: () => move(1),
    k: () => move(-1),
    a: () => (current() ?? rows()[0])?.querySelector("[data-act]")?.click(),
    "?": () => dialog.showModal(),
  };
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest?.("input, select, textarea, [contenteditable]");
    if (typing || dialog.open || !wanted.checked || event.ctrlKey || event.metaKey || event.altKey) return;
    const act = acts[event.key] ?? keyed(event.key);
    if (!act) return;
    event.preventDefault();
    act();
  });
}

// Ctrl+Enter in a text sends its form, as its main button does.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !(event.ctrlKey || event.metaKey) || !event.target.matches?.("textarea")) return;
  event.preventDefault();
  const form = event.target.form;
  form?.requestSubmit(form.querySelector("button.main") ?? undefined);
});
