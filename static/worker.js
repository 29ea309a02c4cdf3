// The service worker: what was opened once opens without a network. Pages are kept for one account at a time, and go when it
// signs out. FILES, the scripts and styles of this version, stands above.

const FILES_CACHE = `files-${hash(FILES.join())}`;
const PAGES = "pages-";
const WHO = "who";
const WAITS_MS = 4000;
const FRESH_MS = 60 * 60 * 1000;
const NOTHING = "/offline";
/** Pages that owners open outdoors. Others are never kept. */
const KEPT = /^\/(today|plan|progress|messages|kept|dogs\/[^/]+\/(log\/new|encounters\/new|not-coping|practise\/[^/]+|gone))$/;

function hash(text) {
  let sum = 5381;
  for (const letter of text) sum = (sum * 33 + letter.codePointAt(0)) >>> 0;
  return sum.toString(36);
}

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(FILES_CACHE);
    await cache.addAll([...FILES, NOTHING]);
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    // the version before stays: pages that were kept then still ask for it
    const files = (await caches.keys()).filter((name) => name.startsWith("files-") && name !== FILES_CACHE);
    await Promise.all(files.slice(0, -1).map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  // whoever signs out or in: pages of before are not theirs
  if (request.method === "POST" && /^\/(sign-out|sign-in|l\/)/.test(url.pathname)) event.waitUntil(forgetPages());
  if (request.method !== "GET") return;
  if (url.pathname.startsWith("/static/")) {
    event.respondWith(caches.match(request).then((kept) => kept ?? fetch(request)));
  } else if (request.mode === "navigate" && KEPT.test(url.pathname)) {
    event.respondWith(page(event, url));
  } else if (request.mode === "navigate") {
    event.respondWith(fetch(request).catch(async () => (await caches.match(NOTHING)) ?? Response.error()));
  }
});

self.addEventListener("message", (event) => {
  if (Array.isArray(event.data?.keep)) event.waitUntil(keepAhead(event.data.keep));
});

async function page(event, url) {
  const asked = fetch(event.request);
  asked.catch(() => {});
  const kept = await keptPage(url);
  try {
    const answer = await (kept ? within(WAITS_MS, asked) : asked);
    if (answer.status >= 500 && kept) return asItWas(kept);
    if (answer.redirected && new URL(answer.url).pathname === "/sign-in") event.waitUntil(forgetPages());
    else event.waitUntil(keep(url.href, answer.clone()));
    return answer;
  } catch {
    // what comes late is for the next time
    event.waitUntil(asked.then((answer) => keep(url.href, answer)).catch(() => {}));
    return kept ? asItWas(kept) : ((await caches.match(NOTHING)) ?? Response.error());
  }
}

/** A page from before, saying so. */
async function asItWas(kept) {
  const when = new Date(Number(kept.headers.get("x-kept-at"))).toLocaleString("en-GB", { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
  const said = `<p class="quiet as-it-was" role="status">As it was on ${when}: there is no network just now.</p>`;
  const html = (await kept.text()).replace(/<main[^>]*>/, (main) => main + said);
  return new Response(html, { headers: kept.headers });
}

function within(limit, promise) {
  return Promise.race([promise, new Promise((_, reject) => setTimeout(() => reject(new Error("slow")), limit))]);
}

/** Keeps a page of ours for whoever is signed in; what another account's pages left goes. */
async function keep(href, answer) {
  const begun = generation;
  // what has just been said is not said again another day
  if (new URL(href).searchParams.has("notice")) return;
  if (!answer.ok || answer.redirected || !answer.headers.get("content-type")?.startsWith("text/html")) return;
  const html = await answer.text();
  const account = html.match(/<body[^>]* data-account="([0-9a-f-]{36})"/)?.[1];
  if (!account) return;
  if (begun !== generation) return;
  const others = (await caches.keys()).filter((name) => name.startsWith(PAGES) && name !== PAGES + account);
  await Promise.all(others.map((name) => caches.delete(name)));
  await (await caches.open(WHO)).put("/who", new Response(account));
  const headers = new Headers(answer.headers);
  headers.set("x-kept-at", String(Date.now()));
  headers.delete("content-encoding");
  await (await caches.open(PAGES + account)).put(href, new Response(html, { headers }));
}

async function pagesOfNow() {
  const who = await caches.match("/who", { cacheName: WHO });
  return who && caches.open(PAGES + (await who.text()));
}

async function keptPage(url) {
  const pages = await pagesOfNow();
  if (!pages) return undefined;
  const exact = await pages.match(url.href);
  if (exact || /\/(log\/new|practise\/)/.test(url.pathname)) return exact;
  return pages.match(url.href, { ignoreSearch: true });
}

/** Counts up whenever pages are forgotten: what was asked for before is not kept afterwards. */
let generation = 0;

async function forgetPages() {
  generation += 1;
  const pages = (await caches.keys()).filter((name) => name.startsWith(PAGES) || name === WHO);
  await Promise.all(pages.map((name) => caches.delete(name)));
}

/** Fetches what a page that is open leads to, unless a fresh copy is here. */
async function keepAhead(hrefs) {
  for (const href of hrefs) {
    const url = new URL(href, self.location.origin);
    if (url.origin !== self.location.origin || !KEPT.test(url.pathname)) continue;
    const pages = await pagesOfNow();
    const kept = await pages?.match(url.href);
    if (kept && Date.now() - Number(kept.headers.get("x-kept-at")) < FRESH_MS) continue;
    try {
      await keep(url.href, await fetch(url.href, { credentials: "same-origin" }));
    } catch {
      return;
    }
  }
}
