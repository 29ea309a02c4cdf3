// Runs every journey, or those whose names contain JOURNEY. A journey is a file `*.journey.mjs` whose default export
// is an object of named tests.
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { closeBrowser } from './harness.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const wanted = process.env.JOURNEY ?? '';
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

for (const file of files) {
  const { default: tests } = await import(pathToFileURL(join(here, file)));
  for (const [name, test] of Object.entries(tests)) {
    const began = Date.now();
    const report = (what) => console.log(`${what} ${file.replace('.journey.mjs', '')}: ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
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

await closeBrowser();
console.log(`${passed} passed, ${failed} failed`);
// Not left to end by itself: what hung in a test must not hang the run.
process.exit(failed || !passed ? 1 : 0);
