// While somebody writes a line of a plan, what stands beside it is brought up to date. Without this, "Check" does the same.

const WAIT_MS = 400;
const form = document.querySelector("form[data-check]");
let timer;
let asking;

async function check() {
  asking?.abort();
  asking = new AbortController();
  const body = new URLSearchParams(new FormData(form));
  try {
    const answer = await fetch(form.dataset.check, { method: "POST", body, signal: asking.signal, redirect: "error" });
    if (!(answer.headers.get("content-type") ?? "").startsWith("text/html")) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.getElementById("panel");
    if (fresh) document.getElementById("panel")?.replaceWith(fresh);
  } catch {
    // away or signed out: the panel stays as it was, and saving says what is wrong
  }
}

form?.addEventListener("input", () => {
  clearTimeout(timer);
  timer = setTimeout(check, WAIT_MS);
});
