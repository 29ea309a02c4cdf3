// Lighthouse on an owner's pages of the invented practice: the median of five runs each, in the shape of a throttled phone.
//
//   cargo build --release && node benches/lighthouse.mjs [target/release/settlebrook]
//
// Lighthouse itself is fetched by npx into npm's cache; it is no part of the tests. CHROMIUM names the browser.
import { execFileSync, spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const RUNS = 5;
const LIGHTHOUSE = 'lighthouse@12.8.2';
const CATEGORIES = ['performance', 'accessibility', 'best-practices'];
const PAGES = ['/today', '/plan', '/progress'];
const binary = process.argv[2] ?? 'target/release/settlebrook';

const port = await new Promise((resolve) => {
  const probe = createServer().listen(0, '127.0.0.1', () => {
    const { port: free } = probe.address();
    probe.close(() => resolve(free));
  });
});
const base = `http://localhost:${port}`;
const folder = mkdtempSync(join(tmpdir(), 'settlebrook-lighthouse-'));
chmodSync(folder, 0o755);
const service = spawn(binary, ['demo', '--data-dir', join(folder, 'data'), '--listen', `127.0.0.1:${port}`], { stdio: ['ignore', 'pipe', 'pipe'] });
let said = '';
service.stdout.on('data', (piece) => (said += piece));
service.stderr.on('data', (piece) => (said += piece));
const ended = new Promise((resolve) => service.once('exit', resolve));

async function ready() {
  for (let tries = 0; tries < 1200; tries += 1) {
    if (service.exitCode !== null) throw new Error(said);
    if (await fetch(`${base}/readyz`).then((answer) => answer.ok, () => false)) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`not ready:\n${said}`);
}

/** The cookie of an owner who came by a link. */
async function owner() {
  const link = [...said.matchAll(/\/l\/[\w-]{43}/g)].map(([path]) => path).at(-1);
  const headers = { origin: base, 'sec-fetch-site': 'same-origin', 'content-type': 'application/x-www-form-urlencoded' };
  const answer = await fetch(base + link, { method: 'POST', headers, body: '', redirect: 'manual' });
  const cookie = answer.headers.getSetCookie().map((one) => one.split(';')[0]).join('; ');
  if (answer.status !== 303 || !cookie) throw new Error(`not signed in: ${answer.status}`);
  return cookie;
}

const median = (numbers) => numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)];

try {
  await ready();
  const cookie = await owner();
  for (const page of PAGES) {
    const scores = Object.fromEntries(CATEGORIES.map((name) => [name, []]));
    const paints = [];
    for (let run = 0; run < RUNS; run += 1) {
      const report = join(folder, 'report.json');
      execFileSync('npx', ['--yes', LIGHTHOUSE, base + page, '--output=json', `--output-path=${report}`, '--quiet',
        `--only-categories=${CATEGORIES.join()}`, `--extra-headers=${JSON.stringify({ Cookie: cookie })}`,
        '--chrome-flags=--headless=new --no-sandbox --disable-gpu'],
      { env: { ...process.env, CHROME_PATH: process.env.CHROMIUM ?? '/usr/bin/chromium' }, stdio: ['ignore', 'ignore', 'inherit'] });
      const { categories, audits } = JSON.parse(readFileSync(report, 'utf8'));
      for (const name of CATEGORIES) scores[name].push(Math.round(categories[name].score * 100));
      paints.push(audits['largest-contentful-paint'].numericValue);
    }
    const told = CATEGORIES.map((name) => `${name} ${median(scores[name])} (${Math.min(...scores[name])} to ${Math.max(...scores[name])})`);
    console.log(`${page.padEnd(10)} ${told.join(', ')}, largest paint ${(median(paints) / 1000).toFixed(2)} s`);
  }
} finally {
  service.kill('SIGTERM');
  await ended;
  rmSync(folder, { recursive: true, force: true });
}
