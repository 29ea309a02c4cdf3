// Practising step by step. Where it stands is written to this phone at every tap, so that a call, a reload or a flat battery
// loses nothing; the sitting itself goes through the outbox.

const place = document.querySelector("[data-practise]");
const account = document.body.dataset.account;
const KEY = `practise:${account}:${place.dataset.practise}`;
const planned = Number(place.dataset.attempts);
const minutes = Number(place.dataset.minutes);
const coolDown = Number(place.dataset.coolDown);
const { easier } = place.dataset;
const DAY_MS = 24 * 3600 * 1000;
const RUNNING = 3;
const STILL_HIGH = 4;

const empty = () => ({ step: "ready", began: 0, tries: [], breaks: 0, onBreak: false, cooledFrom: 0, ended: 0, arousal: "", ready: [], fields: {} });
let at = restored();
let awake;

function restored() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY));
    return kept && Date.now() - kept.touched < DAY_MS ? { ...empty(), ...kept } : empty();
  } catch {
    return empty();
  }
}

function remember() {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...at, touched: Date.now() }));
  } catch {
    // no room: it goes on in this page
  }
}

const one = (selector) => place.querySelector(selector);
const all = (selector) => [...place.querySelectorAll(selector)];
const asClock = (ms) => `${Math.floor(ms / 60000)}:${String(Math.floor(ms / 1000) % 60).padStart(2, "0")}`;
const met = () => at.tries.filter((one) => one.met).length;
const misses = () => at.tries.length - at.tries.findLastIndex((one) => one.met) - 1;

function say() {
  const left = planned - at.tries.length;
  const run = misses();
  if (run >= RUNNING) return ["Make it easier.", easier ? `Go back a step: ${easier}` : "Nearer, shorter or somewhere quieter. One easy win, then stop."];
  if (left <= 0) return ["That is all that was planned.", "Finish while it goes well."];
  if (minutes && at.began && Date.now() - at.began > minutes * 60000) return [`${minutes} minutes are over.`, "One more easy one, then finish."];
  if (at.onBreak) return ["Break.", "Let the dog sniff. Go on when you both want to."];
  if (at.tries.length && at.tries.length % 5 === 0 && left > 0) return [`${left} more. A short break first?`, ""];
  return [left === planned ? "Ready when you are." : `${left} more, then a sniff.`, ""];
}

function draw() {
  for (const section of all("[data-step]")) section.hidden = section.dataset.step !== at.step;
  all("[data-ready]").forEach((tick, index) => { tick.checked = Boolean(at.ready[index]); });
  if (one("[data-beads]")) {
    const total = Math.max(planned, at.tries.length);
    const beads = one("[data-beads]");
    beads.replaceChildren(...Array.from({ length: total }, (_, index) => {
      const bead = document.createElement("i");
      const tried = at.tries[index];
      if (tried) bead.className = tried.met ? "yes" : "not";
      return bead;
    }));
    beads.setAttribute("aria-label", `${at.tries.length} of ${total} done: ${met()} yes, ${at.tries.length - met()} not yet`);
    const [first, more] = say();
    if (one("[data-say]").textContent !== first) one("[data-say]").textContent = first;
    if (one("[data-say-more]").textContent !== more) one("[data-say-more]").textContent = more;
    for (const pad of all("[data-count]")) pad.setAttribute("aria-label", `${pad.textContent.trim()}, ${at.tries.length} of ${total}`);
    one("[data-left]").textContent = `${Math.max(planned - at.tries.length, 0)} left`;
    one("[data-undo]").disabled = !at.tries.length;
    one("[data-break]").setAttribute("aria-pressed", String(at.onBreak));
  }
  const high = Number(at.arousal) >= STILL_HIGH;
  one("[data-still-high]").hidden = !high;
  for (const level of all("[data-arousal]")) level.checked = level.value === at.arousal;
  fill();
  tick();
}

/** What the form of the sitting takes from the steps before it. */
function fill() {
  const form = one("[data-sitting]");
  const set = (name, value) => { if (form.elements[name]) form.elements[name].value = value; };
  const ended = at.cooledFrom || Date.now();
  if (one("[data-beads]")) {
    set("attempts", at.tries.length || "");
    set("met", at.tries.length ? met() : "");
    set("rewarded", at.tries.length ? met() : "");
    const result = one("[data-result]");
    result.textContent = at.tries.length ? `${met()} of ${at.tries.length} earned the “yes”.` : "Nothing was counted.";
    form.dataset.tries = JSON.stringify(at.tries);
  }
  if (at.began) {
    set("minutes", Math.max(1, Math.round((ended - at.began) / 60000)));
    form.dataset.began = String(at.began);
    if (at.breaks && !form.elements.had_break) form.append(Object.assign(document.createElement("input"), { type: "hidden", name: "had_break", value: "yes" }));
  }
  if (at.cooledFrom && at.ended) set("cool_down_minutes", Math.round((at.ended - at.cooledFrom) / 60000));
  set("arousal_end", at.arousal);
  for (const [name, value] of Object.entries(at.fields)) {
    const field = form.elements[name];
    if (!field) continue;
    if (field instanceof RadioNodeList) field.value = value;
    else if (field.type !== "hidden") field.value = value;
  }
}

function tick() {
  if (at.step === "count") {
    one("[data-elapsed]").textContent = asClock(at.began ? Date.now() - at.began : 0);
    const [first, more] = say();
    if (one("[data-say]").textContent !== first) { one("[data-say]").textContent = first; one("[data-say-more]").textContent = more; }
  }
  if (at.step === "cool") {
    const gone = Date.now() - at.cooledFrom;
    one("[data-cool-clock]").textContent = coolDown ? `${asClock(gone)} of ${coolDown}:00` : asClock(gone);
  }
}

function go(step) {
  if (step === "count" && !at.began) at.began = Date.now();
  if (step === "cool" && !at.cooledFrom) at.cooledFrom = Date.now();
  if (step === "how") at.ended = Date.now();
  at.step = step;
  remember();
  draw();
  one(`[data-step="${step}"] h2`).focus();
  scrollTo(0, 0);
  stayAwake();
}

function stayAwake() {
  if (at.step !== "count" && at.step !== "cool") { awake?.release?.(); awake = undefined; return; }
  if (!awake && document.visibilityState === "visible") {
    navigator.wakeLock?.request("screen").then((lock) => {
      awake = lock;
      lock.addEventListener("release", () => { awake = undefined; });
    }).catch(() => {});
  }
}

place.addEventListener("click", (event) => {
  const pressed = event.target.closest("button, a");
  if (!pressed) return;
  if (pressed.dataset.go) go(pressed.dataset.go);
  if (pressed.dataset.count) {
    if (!at.began) at.began = Date.now();
    at.onBreak = false;
    at.tries.push({ met: pressed.dataset.count === "yes", after_ms: Date.now() - at.began });
    remember();
    navigator.vibrate?.(pressed.dataset.count === "yes" ? 25 : [15, 60, 15]);
    draw();
  }
  if ("undo" in pressed.dataset) {
    at.tries.pop();
    remember();
    draw();
  }
  if ("break" in pressed.dataset) {
    at.onBreak = !at.onBreak;
    if (at.onBreak) at.breaks += 1;
    remember();
    draw();
  }
  if ("trouble" in pressed.dataset) {
    // the sitting ends here; it is still there when one comes back
    at.cooledFrom ||= Date.now();
    at.step = "cool";
    remember();
  }
});

place.addEventListener("input", (event) => {
  const field = event.target;
  if ("ready" in field.dataset) at.ready = all("[data-ready]").map((tick) => tick.checked);
  else if ("well" in field.dataset) {
    const unwell = field.value === "no";
    one("[data-unwell]").hidden = !unwell;
    one('[data-step="ready"] [data-go]').hidden = unwell;
    return;
  } else if ("arousal" in field.dataset) at.arousal = field.value;
  else if (field.form?.matches("[data-sitting]")) at.fields[field.name] = field.value;
  remember();
  if ("arousal" in field.dataset) draw();
});

document.addEventListener("kept", () => localStorage.removeItem(KEY));
document.addEventListener("visibilitychange", stayAwake);
setInterval(tick, 1000);
draw();
stayAwake();
