// Drills: what happens to the service when the machine does not behave. `tests/run` runs the short form, with --long the
// full one. Each says what it counted; each is a file here, with a `title` and a `drill`.
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Service, folder } from './service.mjs';

const wanted = process.env.DRILL ?? '';
const long = process.env.SETTLEBROOK_TEST_LONG === '1';
const results = [];

/** What a drill is given: whether it is the long form, where to say what it saw, and what to undo at its end. */
class Drill {
  constructor(title) {
    Object.assign(this, { title, long, undo: [] });
  }

  say(what) {
    console.log(`   ${what}`);
  }

  atEnd(undo) {
    this.undo.push(undo);
  }

  async end() {
    for (const undo of this.undo.splice(0).reverse()) await undo();
  }

  /** A copy of a data folder with the invented practice in it, loaded once for all drills. */
  async practice(path = join(folder(this), 'data')) {
    execFileSync('cp', ['-a', await seed(), path]);
    return path;
  }
}

const whole = new Drill('all');
let seeded;

function seed() {
  seeded ??= (async () => {
    const path = join(folder(whole), 'data');
    const service = await (await Service.start(whole, ['demo', '--data-dir', path])).ready();
    await service.stop();
    return path;
  })();
  return seeded;
}

for (const file of readdirSync(import.meta.dirname).filter((name) => name.endsWith('.drill.mjs')).sort()) {
  if (!file.includes(wanted)) continue;
  const { title, drill } = await import(`./${file}`);
  const one = new Drill(title);
  const begun = Date.now();
  console.log(`-- ${title}`);
  try {
    const left = await drill(one);
    results.push(left ?? 'passed');
    if (left) console.log(`   left out: ${left}`);
  } catch (error) {
    results.push('FAILED');
    console.log(`   FAILED: ${error.stack ?? error}`);
  } finally {
    await one.end();
  }
  console.log(`   ${((Date.now() - begun) / 1000).toFixed(0)} s`);
}
await whole.end();
const failed = results.filter((result) => result === 'FAILED').length;
const passed = results.filter((result) => result === 'passed').length;
console.log(`drills: ${passed} passed, ${failed} failed, ${results.length - passed - failed} skipped`);
process.exit(failed || results.length === 0 ? 1 : 0);
