// Lighthouse on an owner's pages of the invented practice: the median of five runs each, in the shape of a throttled phone.
//
//   cargo build --release && node benches/lighthouse.mjs [target/release/settlebrook]
//
// Lighthouse itself is fetched by npx into npm's cache; it is no part of the tests. CHROMIUM names the browser.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cookieOf, demo, fromOurPage, median } from './demo.mjs';

const RUNS = 5;
const LIGHTHOUSE = 'lighthouse@12.8.2';
const CATEGORIES = ['performance', 'accessibility', 'best-practices'];
const PAGES = ['/today', '/plan', '/progress'];
const binary = process.argv[2] ?? 'target/release/settlebrook';

const { base, folder, said, stop } = await demo(binary);

/** The cookie of an owner who came by a link. */
async function owner() {
  const link = [...said.matchAll(/\/l\/[\w-]{43}/g)].map(([path]) => path).at(-1);
  const answer = await fetch(base + link, { method: 'POST', headers: fromOurPage(base), body: '', redirect: 'manual' });
  return cookieOf(answer);
}

try {
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
  await stop();
}
