// What a first visit costs: the bytes of a page with everything it loads, compressed as a browser gets them.
import assert from 'node:assert/strict';
import { demo, signedInAs, Visitor } from './harness.mjs';
import { during } from './steps.mjs';

/** The most that an owner's page may weigh without the font, and its scripts alone, in bytes (1 kB = 1000). */
const MOST = 60_000;
const MOST_SCRIPT = 20_000;

/** What every kind of file weighed while a page was opened by somebody who was never here before. */
async function weigh(visitor, path) {
  const weights = {};
  const sizes = [];
  const note = (request) => sizes.push(request.sizes().then((size) => {
    const kind = request.resourceType();
    weights[kind] = (weights[kind] ?? 0) + size.responseBodySize;
  }));
  const session = await visitor.context.newCDPSession(visitor.page);
  await session.send('Network.clearBrowserCache');
  visitor.page.on('requestfinished', note);
  await visitor.page.goto(path, { waitUntil: 'networkidle' });
  await Promise.all(sizes);
  visitor.page.off('requestfinished', note);
  await session.detach();
  return weights;
}

function isLight(path, weights) {
  const all = Object.entries(weights).filter(([kind]) => kind !== 'font').reduce((sum, [, bytes]) => sum + bytes, 0);
  const script = weights.script ?? 0;
  console.log(`     ${path}: ${(all / 1000).toFixed(1)} kB, of them ${(script / 1000).toFixed(1)} kB of scripts`);
  assert.ok(weights.document > 0 && weights.stylesheet > 0, `${path}: nothing was weighed`);
  assert.ok(all <= MOST, `${path} weighs ${all} bytes; ${MOST} are promised`);
  assert.ok(script <= MOST_SCRIPT, `${path} loads ${script} bytes of scripts; ${MOST_SCRIPT} are promised`);
}

async function owner() {
  await during(demo, async (service) => {
    const state = await signedInAs('owner', service);
    for (const path of ['/today', '/plan', '/progress', '/messages']) {
      const visitor = await Visitor.arrive(service, { shape: 'phone', state, serviceWorkers: 'block' });
      isLight(path, await weigh(visitor, path));
      await visitor.close();
    }
  });
}

async function editor() {
  await during(demo, async (service) => {
    const visitor = await Visitor.arrive(service, { shape: 'phone', state: await signedInAs('lead', service) });
    await visitor.page.goto('/caseload?show=everyone');
    const dog = await visitor.page.locator('[data-row] a[href^="/dogs/"]').first().getAttribute('href');
    const path = `/${dog.split('/').slice(1, 3).join('/')}/plan/edit`;
    isLight('the editor', await weigh(visitor, path));
    await visitor.close();
  });
}

export default { 'an owner’s first visit': owner, 'the plan editor': editor };
