// What a phone keeps, on days when the phone itself is the trouble: full, updated in between, beside a service that fails for an hour;
// changes of what was sent; large letters.
import assert from 'node:assert/strict';
import { field, main, oneTap, phone, sent, waiting } from './field.mjs';
import { counted, serve, Visitor } from './harness.mjs';
import { during } from './steps.mjs';

const LOGS = 'select count(*) from practice_log';
const MINUTE = 60_000;

/** A queue that an earlier version of the script kept, before there were photos, is sent by this one. */
async function ofAnOlderVersion() {
  await during(serve, async (service) => {
    const { dog, links } = await field(service);
    const owner = await phone(service, links[0]);
    const { item, account } = await owner.page.evaluate(() => ({
      item: document.querySelector('main input[name=item]').value, account: document.body.dataset.account,
    }));
    // a page without the script, so that nobody else has the store open
    await owner.page.goto('/livez');
    await owner.page.evaluate(async ({ of, item: practised, account: whose }) => {
      await new Promise((resolve) => { indexedDB.deleteDatabase('settlebrook').onsuccess = resolve; });
      const old = await new Promise((resolve) => {
        const asked = indexedDB.open('settlebrook', 1);
        asked.onupgradeneeded = () => asked.result.createObjectStore('kept', { keyPath: 'id' }).createIndex('account', 'account');
        asked.onsuccess = () => resolve(asked.result);
      });
      const put = old.transaction('kept', 'readwrite');
      put.objectStore('kept').put({
        id: crypto.randomUUID(), account: whose, kind: 'log', dog: of, what: 'A look at you', item: practised, tries: [], state: 'waiting', why: [], schema: 1,
        form: new URLSearchParams({ item: practised, left: '2', capture: 'one_tap' }).toString(), at: new Date().toISOString(), zone: 'Europe/London', offset_minutes: 0,
      });
      await new Promise((resolve) => { put.oncomplete = resolve; });
      old.close();
    }, { of: dog, item, account });
    await sent(owner);
    assert.equal(counted(service, LOGS), 1, 'it arrived, once');
    await owner.close();
  });
}

/** Where nothing can be written, the form is sent as it is, and nothing is said to be kept. */
async function onAFullPhone() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.page.addInitScript(() => {
      IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError'); };
    });
    await owner.page.goto('/today');
    await owner.leave(owner.page.locator('main form[data-outbox-kind=log] button[name=left]').first());
    assert.match(new URL(owner.page.url()).pathname, /\/log\/[0-9a-f-]{36}$/);
    assert.equal(counted(service, LOGS), 1, 'sent without the queue');
    assert.equal(await owner.page.getByText('Kept on this phone').count(), 0, 'nothing is pretended');
    await owner.close();
  });
}

/** A service that fails for an hour is asked once a minute at most, and gets everything when it is well again. */
async function anHourOfFailures() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.context.setOffline(true);
    await oneTap(owner);
    let asked = [];
    await owner.context.route('**/sync/logs', (route) => { asked.push(1); return route.fulfill({ status: 500, contentType: 'text/html', body: 'broken' }); });
    await owner.context.setOffline(false);
    await owner.page.clock.install();
    await owner.page.goto('/today');
    for (let minute = 0; minute < 60; minute += 1) {
      const before = asked.length;
      await owner.page.clock.fastForward(MINUTE);
      await owner.page.waitForTimeout(20);
      assert.ok(asked.length - before <= 2, `asked ${asked.length - before} times in one minute`);
    }
    assert.ok(asked.length >= 2 && asked.length <= 60, `asked ${asked.length} times in an hour`);
    assert.equal(await waiting(owner), 1, 'it is kept all the while');
    await owner.context.unroute('**/sync/logs');
    owner.complaints.length = 0; // of the answers above
    await owner.page.clock.fastForward(20 * MINUTE);
    await sent(owner);
    assert.equal(counted(service, LOGS), 1);
    await owner.close();
  });
}

/** A change that is made without a network waits like a log. */
async function aChange() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.page.goto('/today');
    await owner.leave(owner.page.locator('main form[data-outbox-kind=log] button[name=left]').first());
    await owner.follow('Change');
    await owner.context.setOffline(true);
    await main(owner).locator('[name=left]').fill('4');
    await main(owner).locator('form button.main').last().click();
    await owner.page.getByRole('heading', { name: 'Kept on this phone' }).waitFor();
    assert.equal(await waiting(owner), 1);
    await owner.context.setOffline(false);
    owner.complaints.length = 0; // of the network that was cut
    await sent(owner);
    assert.equal(counted(service, 'select count(*) from practice_log where revision = 1 and attempts - met = 4'), 1);
    await owner.close();
  });
}

/** Letters twice as large: nothing is cut and nothing scrolls sideways on the screens of a sitting, and both pads stay in reach. */
async function largeLetters() {
  await during(serve, async (service) => {
    const { links } = await field(service);
    const owner = await phone(service, links[0]);
    const large = () => owner.page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
    const isWhole = async (what) => {
      const cut = await owner.page.evaluate(() => [...document.querySelectorAll('.tabbar li, main button, main a, main h1, main h2, main p, main legend, main label')]
        .filter((one) => one.checkVisibility() && !one.matches('.visually-hidden') && (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== 'inline'))
        .map((one) => one.outerHTML.slice(0, 90)));
      assert.deepEqual(cut, [], `${what}: cut`);
      const over = await owner.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(over <= 0, `${what} scrolls ${over} px sideways`);
      await owner.picture(`large-${what}`);
    };
    for (const path of ['/today', '/plan']) {
      await owner.page.goto(path);
      await large();
      await isWhole(path.slice(1));
    }
    await owner.page.goto('/today');
    await owner.page.getByRole('link', { name: 'Count while you practise' }).click();
    await owner.page.locator('[data-step=ready]:not([hidden])').waitFor();
    await large();
    await isWhole('ready');
    await owner.page.locator('[data-go=count]').click();
    await isWhole('count');
    for (const pad of await owner.page.locator('.pads button').all()) {
      await pad.scrollIntoViewIfNeeded();
      await pad.tap();
    }
    assert.equal(await owner.page.locator('[data-beads] i[class]').count(), 2);
    await owner.page.locator('[data-step=count] [data-go=cool]').click();
    await isWhole('cool');
    await owner.page.locator('[data-step=cool] [data-go=how]').click();
    await isWhole('how');
    await owner.close();
  });
}

/** A walker with a link and nothing else: reads the card, tells of a sitting, and sees nothing once it is ended. */
async function aHelper() {
  await during(serve, async (service) => {
    const { dog, links } = await field(service);
    const owner = await phone(service, links[0]);
    await owner.open(`/dogs/${dog}/helpers`);
    await owner.fill({ 'Their name': 'Sam Pell' });
    await owner.press('Make the link');
    await owner.look('helper-link');
    const card = new URL(await main(owner).locator('.link-out').inputValue()).pathname;
    const walker = await Visitor.arrive(service, { shape: 'phone' });
    await walker.open(card);
    await walker.look('helper-card');
    await walker.leave(walker.page.locator('main button[name=left]').first());
    await walker.page.getByText('Kept. The household sees it.').waitFor();
    assert.equal(counted(service, "select count(*) from practice_log where capture = 'helper'"), 1);
    await owner.open(`/dogs/${dog}/helpers`);
    await owner.leave(main(owner).locator('form[action$="/end"] button'));
    await walker.expects(404).open(card);
    await walker.close();
    await owner.close();
  });
}

export default {
  'of an older version': ofAnOlderVersion,
  'on a full phone': onAFullPhone,
  'an hour of failures': anHourOfFailures,
  'a change': aChange,
  'large letters': largeLetters,
  'a helper': aHelper,
};
