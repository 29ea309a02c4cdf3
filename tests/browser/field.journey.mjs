// Practice in the field: no signal, a tab killed at any moment, another account, a service that fails, a network that wants a
// sign-in of its own. Whatever was kept arrives, once.
import assert from 'node:assert/strict';
import { field, main, oneTap, phone, sent, waiting, unfold } from './field.mjs';
import { counted, serve } from './harness.mjs';
import { during } from './steps.mjs';

const RUNS = process.env.SETTLEBROOK_TEST_LONG === '1' ? 200 : 20;
const MANY = 500;
/** Numbers that come again with the same seed (mulberry32, public domain). */
function chance(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Kills the tab, as a phone does that needs its memory, and opens another one where it was. */
async function killTab(owner) {
  const { context } = owner;
  const path = new URL(owner.page.url()).pathname + new URL(owner.page.url()).search;
  await owner.page.close();
  owner.page = await context.newPage();
  // a new tab takes the worker back to the network: it is gone for all of them again before anything is asked for
  await context.setOffline(false);
  await context.setOffline(true);
  await owner.page.goto(path);
  const from = await owner.page.locator('.as-it-was').count();
  assert.equal(from, 1, 'still without a network');
}

/** One sitting counted live, the tab killed wherever chance says. Every tap is there after each of them. */
async function countLive(owner, random) {
  const dies = async () => { if (random() < 0.35) await killTab(owner); };
  const page = () => owner.page;
  await page().goto('/today');
  await dies();
  await unfold(page());
  await page().getByRole('link', { name: 'Count while you practise' }).click();
  await page().locator('[data-step=ready]:not([hidden])').waitFor();
  await dies();
  await page().locator('[data-go=count]').click();
  const tries = 1 + Math.floor(random() * 6);
  for (let tried = 0; tried < tries; tried += 1) {
    await page().locator(random() < 0.7 ? '[data-count=yes]' : '[data-count=no]').click();
    await dies();
    assert.equal(await page().locator('[data-beads] i[class]').count(), tried + 1, 'every tap is there');
  }
  await page().locator('[data-step=count] [data-go=cool]').click();
  await dies();
  await page().locator('[data-arousal][value="2"]').check();
  await dies();
  await page().locator('[data-step=cool] [data-go=how]').click();
  await dies();
  await page().locator('[data-sitting] [name=finish][value=sniff_walk]').check();
  await page().getByRole('button', { name: 'Keep it' }).click();
  await page().getByRole('heading', { name: 'Kept on this phone' }).waitFor();
}

async function somethingHappened(owner) {
  await owner.page.goto('/today');
  await owner.page.getByRole('link', { name: 'Something happened' }).click();
  await owner.page.locator('main [name=kind][value=reaction]').check();
  await owner.page.locator('main form button[name=reaction][value="2"]').click();
  await owner.page.getByRole('heading', { name: 'Kept on this phone' }).waitFor();
}

async function withoutANetwork() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    let [logs, encounters] = [0, 0];
    for (let seed = 1; seed <= RUNS; seed += 1) {
      const random = chance(seed);
      await owner.context.setOffline(true);
      for (let sitting = 0; sitting < 1 + Math.floor(random() * 2); sitting += 1) {
        const way = random();
        if (way < 0.5) { await countLive(owner, random); logs += 1; }
        else if (way < 0.8) { await oneTap(owner); logs += 1; }
        else { await somethingHappened(owner); encounters += 1; }
        if (random() < 0.5) await killTab(owner);
      }
      await owner.page.goto('/plan');
      await owner.page.getByRole('heading', { level: 1 }).waitFor();
      await owner.context.setOffline(false);
      await sent(owner);
      const found = [counted(service, 'select count(*) from practice_log'), counted(service, 'select count(*) from encounter')];
      assert.deepEqual(found, [logs, encounters], `seed ${seed}: each arrives, and once`);
    }
    console.log(`     ${RUNS} seeded runs: ${logs} sittings and ${encounters} encounters kept and sent once each`);
    await owner.close();
  });
}

async function manyAtOnce() {
  await during(serve, async (service) => {
    const { dog, links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.context.setOffline(true);
    await owner.page.goto('/today');
    await owner.page.evaluate(async ({ many, dog: of }) => {
      const { keep } = await import(document.querySelector('script[src*="outbox"]').src);
      const item = document.querySelector('main input[name=item]').value;
      for (let one = 0; one < many; one += 1) {
        await keep({ kind: 'log', dog: of, what: 'A look at you', item, form: new URLSearchParams({ item, left: String(one % 3), capture: 'one_tap' }).toString(), began: Date.now() - one * 60_000 });
      }
    }, { many: MANY, dog });
    assert.equal(await waiting(owner), MANY);
    await owner.context.setOffline(false);
    const began = Date.now();
    // two tabs wake up at once: still one sender
    const other = await owner.context.newPage();
    await Promise.all([owner.page.reload(), other.goto('/plan')]);
    await sent(owner);
    await other.close();
    assert.equal(counted(service, 'select count(*) from practice_log'), MANY, 'none lost, none twice');
    console.log(`     ${MANY} logs sent in ${((Date.now() - began) / 1000).toFixed(1)} s`);
    await owner.close();
  });
}

/** The queue of one account while the service fails, forgets the sign-in, or is not the one that answers. */
async function whatStandsInTheWay() {
  await during(serve, async (service) => {
    const { links } = await field(service, ['Ada Okoro', 'Uche Okoro']);
    const owner = await phone(service, links[0]);
    const answers = {
      'a portal of the network': { status: 200, contentType: 'text/html', body: '<h1>Welcome to the café</h1>' },
      'a portal that speaks JSON': { status: 200, contentType: 'application/json', body: '{"ok":true}' },
      'a sign-in that is over': { status: 401, contentType: 'application/json', body: '{"version":1,"logs":[]}' },
      'a service that fails': { status: 500, contentType: 'text/html', body: 'broken' },
    };
    let [asked, given] = [0, Object.values(answers)[0]];
    await owner.context.route('**/sync/logs', (route) => { asked += 1; return route.fulfill(given); });
    await owner.context.setOffline(true);
    await oneTap(owner);
    await owner.context.setOffline(false);
    for (const [what, answer] of Object.entries(answers)) {
      [asked, given] = [0, answer];
      await owner.page.goto('/today');
      await owner.page.evaluate(async () => (await import(document.querySelector('script[src*="outbox"]').src)).send({ now: true }));
      assert.ok(asked > 0, `${what}: was asked`);
      assert.equal(await waiting(owner), 1, `${what}: it is kept`);
      if (answer.status === 500) {
        const before = asked;
        for (let again = 0; again < 3; again += 1) await owner.page.reload();
        assert.equal(asked, before, 'a failing service is left alone for a minute');
      }
    }
    await owner.context.unroute('**/sync/logs');
    owner.complaints.length = 0; // of the answers above
    // somebody else on the same phone sees nothing of it and sends nothing of it
    await owner.page.goto('/account');
    await owner.page.getByRole('button', { name: 'Sign out', exact: true }).first().click();
    await owner.page.getByText('1 log is kept on this phone and not sent').waitFor();
    await owner.leave(owner.page.getByRole('button', { name: 'Sign out all the same' }));
    assert.deepEqual(await owner.page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('pages-') || name === 'who')), [], 'pages go with the sign-in');
    await owner.page.goto(links[1]);
    await owner.leave(main(owner).locator('button.main'));
    await owner.page.goto('/kept');
    await owner.page.getByText('Nothing waits here').waitFor();
    await owner.page.evaluate(async () => (await import(document.querySelector('script[src*="outbox"]').src)).send({ now: true }));
    assert.equal(await waiting(owner), 1, 'it stays for whoever kept it');
    assert.equal(counted(service, 'select count(*) from practice_log'), 0);
    await owner.close();
  });
}

/** What a phone keeps, by name: nothing else. */
const STORED = { caches: ['files', 'pages', 'who'], databases: ['settlebrook'], local: ['outbox', 'practise'] };

async function whatThePhoneStores() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.context.setOffline(true);
    await oneTap(owner);
    await owner.page.goto('/today');
    await owner.page.getByRole('link', { name: 'Count while you practise' }).click();
    await owner.page.locator('[data-go=count]').click();
    await owner.page.locator('[data-count=yes]').click();
    await owner.page.evaluate(() => localStorage.setItem(`outbox:${document.body.dataset.account}`, '1 1'));
    const found = await owner.page.evaluate(async () => {
      const plain = (names, sign) => [...new Set(names.map((name) => name.split(sign)[0]))].sort();
      return {
        caches: plain(await caches.keys(), '-'),
        databases: (await indexedDB.databases()).map(({ name }) => name),
        local: plain(Object.keys(localStorage), ':'),
      };
    });
    assert.deepEqual(found, STORED);
    await owner.close();
  });
}

/** Fifty taps of a shaky thumb count fifty; what is pressed is large, named and readable in glare. */
async function thumbs() {
  await during(serve, async (service) => {
    const { links } = await field(service, ['Ada Okoro', 'Uche Okoro']);
    const random = chance(7);
    const sizes = { small: { width: 320, height: 568 }, wide: { width: 568, height: 320 } };
    for (const [name, size] of Object.entries(sizes)) {
      const owner = await phone(service, links.pop());
      await owner.page.setViewportSize(size);
      await owner.page.goto('/today');
      await owner.page.getByRole('link', { name: 'Count while you practise' }).click();
      await owner.page.locator('[data-go=count]').click();
      const pads = owner.page.locator('.pads button');
      for (let pad = 0; pad < 2; pad += 1) {
        const box = await pads.nth(pad).boundingBox();
        assert.ok(box.width >= 64 && box.height >= 64, `${name}: ${JSON.stringify(box)}`);
      }
      for (const foot of await owner.page.locator('.feet > *').all()) {
        const box = await foot.boundingBox();
        assert.ok(box.height >= 64 && box.width >= 64, `${name}: ${JSON.stringify(box)}`);
      }
      for (let tap = 0; tap < 50; tap += 1) {
        const pad = pads.nth(random() < 0.5 ? 0 : 1);
        await pad.scrollIntoViewIfNeeded();
        const { x, y, width, height } = await pad.boundingBox();
        const jitter = () => (random() - 0.5) * 24;
        await owner.page.touchscreen.tap(x + width / 2 + jitter(), y + height / 2 + jitter());
      }
      assert.equal(await owner.page.locator('[data-beads] i[class]').count(), 50, `${name}: every tap counts`);
      await owner.page.getByRole('button', { name: 'Got it, rewarded, 50 of 50', exact: true }).waitFor();
      // a phone lying on its side is not made narrower
      await owner.check({ narrowed: name === 'small' });
      await owner.picture(`counting-${name}`);
      await owner.close();
    }
  });
}

/** From Today, a planned sitting is one tap and an encounter two. */
async function fewTaps() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.page.goto('/today');
    await owner.leave(owner.page.locator('main form[data-outbox-kind=log] button[name=left]').first());
    assert.match(new URL(owner.page.url()).pathname, /\/log\/[0-9a-f-]{36}$/, 'one tap logs it');
    await owner.page.goto('/today');
    await owner.leave(owner.page.getByRole('link', { name: 'Something happened' }));
    await owner.page.locator('main [name=kind][value=reaction]').check();
    await owner.leave(owner.page.locator('main form button[name=reaction][value="2"]'));
    assert.match(new URL(owner.page.url()).pathname, /\/encounters\/[0-9a-f-]{36}$/, 'what happened, and how strong');
    await owner.close();
  });
}

export default {
  'without a network, the tab killed': withoutANetwork,
  'five hundred at once': manyAtOnce,
  'what stands in the way': whatStandsInTheWay,
  'what the phone stores': whatThePhoneStores,
  'a shaky thumb': thumbs,
  'few taps': fewTaps,
};
