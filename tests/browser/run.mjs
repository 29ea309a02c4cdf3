// Runs every journey, or those whose names contain JOURNEY. A journey is a file `*.journey.mjs` whose default export
// is an object of named tests.
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { closeBrowser } from './harness.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const wanted = process.env.JOURNEY ?? '';
/** Only tests whose names contain this. */
const test = process.env.JOURNEY_TEST ?? '';
const files = readdirSync(here).filter((file) => file.endsWith('.journey.mjs') && file.includes(wanted)).sort();
/** The longest that one test may take, in milliseconds. */
const LIMIT = 1_800_000;
let passed = 0;
let failed = 0;

/** What `work` gives, unless it takes too long. */
function within(limit, work) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`took longer than ${limit / 1000} s`)), limit);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

/** How many tests run at once: one keeps less than a core busy. The longest begin first, so that none is left alone at the end. */
const AT_ONCE = 2;
const LONGEST = 'pages.journey.mjs';

const waiting = [];
for (const file of files.sort((a, b) => (b === LONGEST) - (a === LONGEST))) {
  const { default: tests } = await import(pathToFileURL(join(here, file)));
  for (const [name, run] of Object.entries(tests).filter(([name]) => name.includes(test))) waiting.push([`${file.replace('.journey.mjs', '')}: ${name}`, run]);
}

async function work() {
  for (let next = waiting.shift(); next; next = waiting.shift()) {
    const [name, test] = next;
    const began = Date.now();
    const report = (what) => console.log(`${what} ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
    try {
      await within(LIMIT, test());
      passed += 1;
      report('pass');
    } catch (error) {
      failed += 1;
      report('FAIL');
      console.log(`     ${String(error.stack ?? error).replaceAll('\n', '\n     ')}`);
    }
  }
}

await Promise.all(Array.from({ length: AT_ONCE }, work));
await closeBrowser();
console.log(`${passed} passed, ${failed} failed`);
// Not left to end by itself: what hung in a test must not hang the run.
process.exit(failed || !passed ? 1 : 0);
