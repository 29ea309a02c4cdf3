// Nothing that was logged is lost: it is written to this phone first, then sent, and goes from here only when the service
// names it as kept. Without IndexedDB, or without this script, forms are sent as they are.

const account = document.body.dataset.account;
const DATABASE = "settlebrook";
const SCHEMA = 2;
const STORE = "kept";
const PHOTOS = "photos";
const AT_ONCE = 50;
const TIMEOUT_MS = 20_000;
const SHORTEST_WAIT_MS = 60_000;
const LONGEST_WAIT_MS = 15 * 60_000;
const WAIT = `outbox:${account}`;
const TRY_AGAIN_MS = 30_000;
/** How long somebody is kept waiting for an answer, before they read that it is kept here. */
const PATIENCE_MS = 6000;
/** Which log the service answers for on the page that comes. */
const SHOWN = "outbox:shown";
const after = (ms, value) => new Promise((resolve) => { setTimeout(() => resolve(value), ms); });

/** The store, opened once a page. */
let opened;
function store() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open(DATABASE, SCHEMA);
    asked.onupgradeneeded = () => {
      // schema 1 had no photos; what it kept stays as it is
      for (const name of [STORE, PHOTOS]) {
        if (!asked.result.objectStoreNames.contains(name)) {
          asked.result.createObjectStore(name, { keyPath: "id" }).createIndex("account", "account");
        }
      }
    };
    asked.onsuccess = () => {
      asked.result.onversionchange = () => { asked.result.close(); opened = undefined; };
      resolve(asked.result);
    };
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("blocked"));
  });
  opened.catch(() => { opened = undefined; });
  return opened;
}

async function inStore(mode, act, name = STORE) {
  const database = await store();
  return new Promise((resolve, reject) => {
    const change = database.transaction(name, mode, { durability: "strict" });
    const asked = act(change.objectStore(name));
    change.oncomplete = () => resolve(asked?.result);
    change.onabort = () => reject(change.error ?? new Error("aborted"));
    change.onerror = () => reject(change.error);
  });
}

/** What this account keeps here, oldest first. */
export async function all() {
  const kept = await inStore("readonly", (kept) => kept.index("account").getAll(account));
  return kept.sort((a, b) => a.at.localeCompare(b.at));
}
const put = (entry) => inStore("readwrite", (kept) => kept.put(entry));
const drop = (id) => inStore("readwrite", (kept) => kept.delete(id));

/** Keeps something: `form` as a browser would send it, `kind` as `/sync/logs` takes it, `of` what is changed where something is. */
export async function keep({ kind, dog, form, what, of = null, item = "", tries = [], began = Date.now(), id = crypto.randomUUID() }) {
  const now = new Date(began);
  // how long ago it was is known only while the page is open in which it was
  const isOfThisPage = began >= performance.timeOrigin;
  const entry = {
    id, account, kind, dog, of, form, what, item, tries, state: "waiting", why: [], schema: SCHEMA,
    at: now.toISOString(), page: isOfThisPage ? performance.timeOrigin : 0, since: performance.now() - (Date.now() - began),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone ?? "", offset_minutes: -now.getTimezoneOffset(),
  };
  await put(entry);
  navigator.storage?.persist?.().catch(() => {});
  return entry;
}

/** Keeps a photo of a log or an encounter beside it. */
async function keepPhoto({ dog, kind, of, file }) {
  const photo = { id: crypto.randomUUID(), account, dog, kind: kind === "log" ? "log" : "encounter", of, blob: await globalThis.smallerPhoto(file) };
  await inStore("readwrite", (kept) => kept.put(photo), PHOTOS);
}

/** Sends photos whose log has arrived; what cannot be taken goes, since its log stands without it. */
async function sendPhotos() {
  const photos = await inStore("readonly", (kept) => kept.index("account").getAll(account), PHOTOS);
  const waiting = new Set((await all()).map((entry) => entry.id));
  for (const { id, dog, kind, of, blob } of photos.filter((photo) => !waiting.has(photo.of))) {
    let answer;
    try {
      answer = await fetch(`/dogs/${dog}/photos?id=${id}&${kind}=${of}&account=${account}`, { method: "POST", body: blob, headers: { "content-type": "application/octet-stream" }, redirect: "manual" });
    } catch {
      return;
    }
    const said = await answer.json().catch(() => null);
    const isTaken = answer.status === 200 && said?.id === id;
    if (isTaken || [404, 413, 415, 422].includes(answer.status)) await inStore("readwrite", (kept) => kept.delete(id), PHOTOS);
    else return;
  }
}

/** `pressed`: the one that somebody has just sent and may be asked about; once it was sent without them, it stays so. */
const asSent = ({ id, kind, dog, of, form, at, page, since, zone, offset_minutes, tries, unasked }, pressed) => ({
  id, kind, dog, of, form, at, zone, offset_minutes, tries, can_ask: id === pressed && !unasked,
  elapsed_ms: page === performance.timeOrigin ? Math.round(performance.now() - since) : null,
});

/** Sends some; gives the answers by id, or what stood in the way: `away` (no network, or no answer of ours), `signed-out`,
    `large`, or `later` with how long to wait. */
async function post(entries, pressed) {
  let answer;
  try {
    answer = await fetch("/sync/logs", {
      method: "POST",
      headers: { "content-type": "application/json", accept: "application/json" },
      body: JSON.stringify({ version: 1, phone_now: new Date().toISOString(), account, logs: entries.map((entry) => asSent(entry, pressed)) }),
      redirect: "manual",
      signal: AbortSignal.timeout(TIMEOUT_MS),
    });
  } catch {
    return { stop: "away" };
  }
  if (answer.status === 401) return { stop: "signed-out" };
  // too much at once, or something in it that cannot be read: found by halves
  if ([400, 413, 422].includes(answer.status)) return { stop: "large" };
  if (answer.status === 429 || answer.status >= 500) return { stop: "later", after: Number(answer.headers.get("retry-after")) * 1000 };
  // a network that wants a sign-in of its own answers 200 too, but not with our words
  const said = answer.status === 200 ? await answer.json().catch(() => null) : null;
  if (said?.version !== 1 || !Array.isArray(said.logs)) return { stop: "away" };
  return { logs: new Map(said.logs.map((log) => [log.id, log])) };
}

const waitsUntil = () => {
  const [until] = (localStorage.getItem(WAIT) ?? "").split(" ").map(Number);
  return Number.isFinite(until) ? until : 0;
};

/** After a failing service: one minute, then twice as long each time, with some chance in it. */
function backOff(after) {
  const [, before] = (localStorage.getItem(WAIT) ?? "").split(" ").map(Number);
  const next = Math.min(Math.max(before * 2 || 0, SHORTEST_WAIT_MS), LONGEST_WAIT_MS);
  const wait = Math.max(after || 0, next * (1 + Math.random() / 4));
  localStorage.setItem(WAIT, `${Date.now() + wait} ${next}`);
}

let stopped = "";
/** One sender at a time over all open pages, where the browser can say so. */
const alone = (act) => (navigator.locks ? navigator.locks.request(`outbox-${account}`, act) : act());

/** Sends what waits. Gives what became of each that was answered. `now`: somebody is waiting for it; `pressed`: for which. */
export function send({ now = false, pressed } = {}) {
  return alone(async () => {
    const became = new Map();
    if (!now && waitsUntil() > Date.now()) return became;
    let most = AT_ONCE;
    const tried = new Set();
    for (;;) {
      const waiting = (await all()).filter((entry) => entry.state === "waiting" && !tried.has(entry.id)).slice(0, most);
      if (!waiting.length) break;
      const { logs, stop, after } = await post(waiting, pressed);
      stopped = stop ?? "";
      if (stop === "large" && most > 1) { most = Math.ceil(most / 2); continue; }
      if (stop === "later") backOff(after);
      if (stop && stop !== "large") {
        for (const entry of waiting) await put({ ...entry, unasked: true });
        break;
      }
      if (!stop) localStorage.removeItem(WAIT);
      for (const entry of waiting) {
        tried.add(entry.id);
        const log = logs?.get(entry.id) ?? (stop === "large" ? { state: "refused", why: ["The service could not read it."] } : undefined);
        if (!log) continue;
        became.set(entry.id, log);
        if (log.state === "kept" || log.state === "repeat") await drop(entry.id);
        else if (log.state === "refused") await put({ ...entry, state: "refused", why: log.why ?? [], status: log.status });
      }
    }
    return became;
  }).finally(show);
}

/** Photos go after the logs, and one page at a time. */
const sendAll = async () => { await send(); await alone(sendPhotos); };

const counted = (n, one, more) => `${n} ${n === 1 ? one : more}`;
const clock = (at) => new Date(at).toLocaleString("en-GB", { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

function element(name, words, more = {}) {
  const made = Object.assign(document.createElement(name), more);
  if (words) made.textContent = words;
  return made;
}

/** Says on every page what waits, and lays it over a page that was kept from before. */
async function show() {
  let kept;
  try {
    kept = await all();
  } catch {
    return;
  }
  const line = document.querySelector("[data-outbox]");
  if (line) {
    const refused = kept.filter((entry) => entry.state === "refused").length;
    const waiting = kept.length - refused;
    const parts = [];
    if (waiting) parts.push(`${counted(waiting, "log", "logs")} kept on this phone, not sent yet`);
    if (refused) parts.push(`${counted(refused, "log", "logs")} could not be taken: please look`);
    if (waiting && stopped === "signed-out") parts.push("sign in again to send it");
    const words = parts.join(". ");
    if (line.textContent !== words) {
      line.replaceChildren(...(words ? [element("a", words, { href: "/kept" })] : []));
      line.hidden = !words;
    }
  }
  document.querySelectorAll("[data-kept-here]").forEach((old) => old.remove());
  for (const entry of kept.filter((one) => one.item)) {
    for (const form of document.querySelectorAll(`form[data-outbox-kind] input[name="item"][value="${entry.item}"]`)) {
      const said = element("p", `Kept on this phone, ${clock(entry.at)}.`, { className: "quiet" });
      said.dataset.keptHere = "";
      form.closest("form").before(said);
    }
  }
  list(kept);
}

/** Where the same can be said by hand. */
const formOf = ({ dog, kind, of, item }) => {
  if (of) return `/dogs/${dog}/${kind === "log_edit" ? "log" : "encounters"}/${of}/edit`;
  return item ? `/dogs/${dog}/log/new?item=${item}` : `/dogs/${dog}/encounters/new`;
};

/** The page of what is kept. */
function list(kept) {
  const place = document.querySelector("[data-kept-list]");
  if (!place) return;
  if (!kept.length) {
    place.replaceChildren(element("p", "Nothing waits here. Everything you logged on this phone was sent."));
    return;
  }
  const again = element("button", "Send now", { className: "button main", type: "button" });
  again.addEventListener("click", () => send({ now: true }));
  const rows = kept.map((entry) => {
    const row = element("li", "", { className: "card pad" });
    row.append(element("h2", entry.what), element("p", `Kept on this phone, ${clock(entry.at)}.`));
    if (entry.state === "refused") {
      row.append(element("p", "The service could not take it:"));
      const why = element("ul", "", { className: "bullets" });
      why.append(...entry.why.map((one) => element("li", one)));
      const fix = element("a", entry.of ? "Change it by the form" : "Log it by the form", { className: "button", href: formOf(entry) });
      const away = element("button", "Drop it", { className: "button plain", type: "button" });
      away.addEventListener("click", async () => {
        if (away.dataset.sure === undefined) { away.dataset.sure = ""; away.textContent = "Drop it for good?"; return; }
        await drop(entry.id);
        await show();
      });
      const acts = element("p", "", { className: "actions" });
      acts.append(fix, away);
      row.append(why, acts);
    }
    const fold = element("details");
    fold.append(element("summary", "What it says"), element("p", inWords(entry), { className: "as-typed" }));
    row.append(fold);
    return row;
  });
  const rowsOf = element("ul", "", { className: "stack" });
  rowsOf.append(...rows);
  place.replaceChildren(again, rowsOf);
}

const QUIET = ["id", "item", "capture", "message", "revision"];
const inWords = (entry) => [...new URLSearchParams(entry.form)]
  .filter(([name, value]) => value && !QUIET.includes(name))
  .map(([name, value]) => `${name.replaceAll("_", " ")}: ${value.replaceAll("_", " ")}`).join("\n");

/** The form as a browser would send it, with the button that was pressed. */
function entries(form, submitter) {
  const data = new URLSearchParams();
  for (const [name, value] of new FormData(form, submitter)) if (typeof value === "string") data.append(name, value);
  return data;
}

/** Sends a form as if this script were not here. */
function natively(form, submitter, id) {
  const add = (name, value) => form.append(element("input", "", { type: "hidden", name, value }));
  if (submitter?.name) add(submitter.name, submitter.value);
  if (id && form.elements.id) form.elements.id.value = id;
  HTMLFormElement.prototype.submit.call(form);
}

document.addEventListener("submit", async (event) => {
  const form = event.target;
  const kind = form.dataset?.outboxKind;
  if (!kind || event.defaultPrevented || !account) return;
  event.preventDefault();
  if (form.dataset.pending !== undefined) return;
  form.dataset.pending = "";
  const { submitter } = event;
  const data = entries(form, submitter);
  // a page that was kept from before carries an id that may have been used; one form sent twice is still one log
  form.dataset.outboxId ??= crypto.randomUUID();
  form.dataset.messageId ??= crypto.randomUUID();
  const id = form.dataset.outboxId;
  if (data.has("message")) data.set("message", form.dataset.messageId);
  data.delete("id");
  const { dog, what, of } = form.dataset;
  let entry;
  try {
    const tries = JSON.parse(form.dataset.tries ?? "[]");
    const began = Number(form.dataset.began) || undefined;
    entry = await Promise.race([
      keep({ kind, dog, what, of, form: data.toString(), item: data.get("item") ?? "", tries, began, id }),
      after(PATIENCE_MS).then(() => { throw new Error("this phone does not answer"); }),
    ]);
    document.dispatchEvent(new Event("kept"));
    const [file] = form.querySelector("[data-photo]")?.files ?? [];
    if (file) await keepPhoto({ dog, kind, of: id, file }).catch(() => {});
  } catch {
    delete form.dataset.pending;
    natively(form, submitter, id);
    return;
  }
  form.setAttribute("aria-busy", "true");
  const answered = navigator.onLine ? send({ now: true, pressed: id }).catch(() => new Map()) : Promise.resolve(new Map());
  const became = (await Promise.race([answered, after(PATIENCE_MS, new Map())])).get(entry.id);
  if (became?.state === "kept" || became?.state === "repeat") {
    await Promise.race([alone(sendPhotos).catch(() => {}), after(PATIENCE_MS)]);
    location.assign(became.page);
  } else if (became?.state === "refused") {
    // the service says what is wrong on the page of the form, next to the field; until that is there it stays here
    sessionStorage.setItem(SHOWN, entry.id);
    natively(form, submitter, id);
  } else {
    isKept(form, entry);
  }
});

/** The form's place, once what it said is kept here and could not be sent. */
function isKept(form, entry) {
  const said = element("div", "", { className: "card pad" });
  said.setAttribute("role", "status");
  said.append(element("h2", "Kept on this phone"), element("p", `${entry.what}, ${clock(entry.at)}. It is sent by itself as soon as there is a signal.`));
  const acts = element("p", "", { className: "actions" });
  acts.append(element("a", "Today", { className: "button main", href: "/today" }), element("a", "What is kept here", { className: "button plain", href: "/kept" }));
  said.append(acts);
  form.replaceWith(said);
  const kind = new URLSearchParams(entry.form).get("kind");
  for (const care of document.querySelectorAll("[data-care]")) {
    if (kind && care.dataset.care.split(" ").includes(kind)) { care.hidden = false; said.before(care); }
  }
  said.tabIndex = -1;
  said.focus();
}

/** Signing out names what was not sent, and asks once more. */
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (new URL(form.action).pathname !== "/sign-out" || form.dataset.sure !== undefined) return;
  event.preventDefault();
  // nothing was sent: the next tap is the first
  event.stopPropagation();
  Promise.race([all(), after(PATIENCE_MS, [])]).catch(() => []).then((kept) => {
    form.dataset.sure = "";
    if (!kept.length) { HTMLFormElement.prototype.submit.call(form); return; }
    const said = element("p", `${counted(kept.length, "log is", "logs are")} kept on this phone and not sent. They stay here, unseen by others, until you sign in again on it.`);
    said.setAttribute("role", "alert");
    form.prepend(said);
    form.querySelector("button").textContent = "Sign out all the same";
  });
}, true);

if (account) {
  for (const field of document.querySelectorAll("[data-photo-field]")) field.hidden = false;
  addEventListener("pageshow", () => document.querySelectorAll("form[data-pending]").forEach((form) => { delete form.dataset.pending; }));
  const shown = sessionStorage.getItem(SHOWN);
  if (shown) {
    sessionStorage.removeItem(SHOWN);
    drop(shown).then(show).catch(() => {});
  }
  const soon = () => sendAll().catch(() => {});
  addEventListener("online", () => { if (stopped !== "later") soon(); });
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") soon(); });
  setInterval(soon, TRY_AGAIN_MS);
  soon();
  if ("serviceWorker" in navigator) {
    navigator.serviceWorker.register("/sw.js").then(() => navigator.serviceWorker.ready).then(({ active }) => {
      const here = [...document.querySelectorAll("main a[href], .tabbar a[href]")].map((link) => link.getAttribute("href"));
      if (location.pathname === "/today") active.postMessage({ keep: [location.href, "/today", "/plan", "/kept", ...new Set(here)] });
    }).catch(() => {});
  }
}
