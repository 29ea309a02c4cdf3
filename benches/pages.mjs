// How long the service takes for pages that people wait for, on the invented practice, side by side in one run.
//
//   cargo build --release && node benches/pages.mjs [target/release/settlebrook]
//
// Every page is asked for by turns, so that whatever else the machine does falls on all of them; printed are medians, the
// slowest of twenty, and how much more than the plainest page (/livez) each takes. One person, one request at a time.
import { cookieOf, demo, fromOurPage, median } from './demo.mjs';

const ROUNDS = 60;
const binary = process.argv[2] ?? 'target/release/settlebrook';

const { base, said, stop } = await demo(binary);

async function signedIn() {
  const [, email, password] = said.match(/lead trainer\s+(\S+@\S+)\s+(\S+)/);
  const headers = fromOurPage(base);
  const body = new URLSearchParams({ email, password });
  const answer = await fetch(`${base}/sign-in`, { method: 'POST', headers, body, redirect: 'manual' });
  return { ...headers, cookie: cookieOf(answer) };
}

const slowest = (times) => times.toSorted((a, b) => a - b)[Math.floor(times.length * 0.95)];

try {
  const headers = await signedIn();
  const text = async (path) => (await fetch(base + path, { headers })).text();
  const caseload = await text('/caseload?show=everyone');
  const dogs = [...new Set([...caseload.matchAll(/href="\/dogs\/([0-9a-f-]{36})"/g)].map(([, id]) => id))];
  // the dog whose draft holds the most
  let best = { items: 0 };
  for (const dog of dogs) {
    const lines = [...(await text(`/dogs/${dog}/plan/edit`)).matchAll(/\/plan\/items\/([0-9a-f-]{36})"/g)];
    if (lines.length > best.items) best = { dog, items: lines.length, line: lines[0][1] };
  }
  const { dog, line } = best;
  const form = (await text(`/dogs/${dog}/plan/items/${line}`)).match(/<form[^>]*data-keep[\s\S]*?<\/form>/)?.[0] ?? '';
  const body = new URLSearchParams();
  for (const [, name, value] of form.matchAll(/<input[^>]*name="([^"]+)"[^>]*value="([^"]*)"/g)) body.set(name, value);
  const ways = {
    'the plainest page': ['/livez'],
    'the caseload': ['/caseload?show=everyone'],
    'a dog': [`/dogs/${dog}`],
    'the editor with its panel': [`/dogs/${dog}/plan/edit`],
    'the panel, while a line is typed': [`/dogs/${dog}/plan/items/${line}/check`, { method: 'POST', body }],
  };
  const times = Object.fromEntries(Object.keys(ways).map((name) => [name, []]));
  for (let round = 0; round < ROUNDS + 5; round += 1) {
    for (const [name, [path, how]] of Object.entries(ways)) {
      const began = performance.now();
      const answer = await fetch(base + path, { headers, redirect: 'manual', ...how });
      await answer.arrayBuffer();
      if (answer.status >= 400 && answer.status !== 422) throw new Error(`${path} answered ${answer.status}`);
      if (round >= 5) times[name].push(performance.now() - began);
    }
  }
  const plainest = median(times['the plainest page']);
  console.log(`${dogs.length} dogs; the draft holds ${best.items} links to its lines; ${ROUNDS} rounds`);
  for (const [name, taken] of Object.entries(times)) {
    const [middle, worst] = [median(taken), slowest(taken)];
    console.log(`${name.padEnd(34)} ${middle.toFixed(1).padStart(7)} ms   95 % within ${worst.toFixed(1).padStart(7)} ms   ${(middle / plainest).toFixed(1)} ×`);
  }
} finally {
  await stop();
}
