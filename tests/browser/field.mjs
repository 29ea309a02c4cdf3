// A phone in the field: a practice with one counted exercise, an owner whose phone keeps what works without a network, and the queue
// on that phone.
import { setUp } from './steps.mjs';
import { Visitor } from './harness.mjs';

export const main = (visitor) => visitor.page.locator('main');
const id = (visitor, noun) => new URL(visitor.page.url()).pathname.match(new RegExp(`/${noun}/([0-9a-f-]{36})`))[1];

/** A practice with a dog that practises one counted exercise without a line; the owners' links, and the lead where they stay. */
export async function field(service, owners = ['Ada Okoro'], stay = false) {
  const lead = await Visitor.arrive(service, { shape: 'desk' });
  await setUp(lead, service.newPractice());
  await lead.page.goto('/households/new');
  await main(lead).locator('[name=name]').fill('Okoro');
  await lead.leave(main(lead).locator('button.main'));
  const household = id(lead, 'households');
  await lead.page.goto(`/households/${household}/dogs/new`);
  await main(lead).locator('[name=name]').fill('Moss');
  await lead.leave(main(lead).locator('form button.main'));
  const dog = id(lead, 'dogs');
  await lead.page.goto(`/dogs/${dog}/plan/add?q=look`);
  await lead.press('Add A look at you');
  await lead.page.goto(`/dogs/${dog}/plan/publish`);
  await lead.leave(main(lead).locator('form button.main').first());
  const links = [];
  for (const name of owners) {
    await lead.page.goto(`/households/${household}/owners/new`);
    await main(lead).locator('[name=name]').fill(name);
    await lead.leave(main(lead).locator('form button.main'));
    links.push(new URL(await main(lead).locator('.link-out').inputValue()).pathname);
  }
  if (stay) return { dog, links, lead };
  await lead.close();
  return { dog, links };
}

/** The owner's phone, with everything kept that works without a network. */
export async function phone(service, link, way = {}) {
  const owner = await Visitor.arrive(service, { shape: 'phone', ...way });
  await owner.page.goto(link);
  await owner.leave(main(owner).locator('button.main'));
  await ready(owner);
  return owner;
}

async function ready(owner) {
  await owner.page.goto('/today');
  await owner.page.evaluate(() => navigator.serviceWorker.ready);
  // the first page was opened before there was a worker to keep it
  await owner.page.reload();
  await owner.page.waitForFunction(async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith('pages-'));
    const kept = (await Promise.all(names.map(async (name) => (await caches.open(name)).keys()))).flat();
    const paths = kept.map((request) => new URL(request.url).pathname);
    return ['/today', '/plan', '/kept'].every((path) => paths.includes(path)) && ['/practise/', '/log/new', '/encounters/new'].every((part) => paths.some((path) => path.includes(part)));
  });
}

/** How many logs wait on this phone, of whichever account. */
export const waiting = (owner) => owner.page.evaluate(() => new Promise((resolve, reject) => {
  const asked = indexedDB.open('settlebrook');
  asked.onerror = () => reject(asked.error);
  asked.onsuccess = () => {
    if (!asked.result.objectStoreNames.contains('kept')) { asked.result.close(); resolve(0); return; }
    const count = asked.result.transaction('kept').objectStore('kept').count();
    count.onsuccess = () => { asked.result.close(); resolve(count.result); };
  };
}));

/** Waits until nothing waits here. */
export const sent = async (owner) => {
  await owner.page.goto('/kept');
  await owner.page.getByText('Nothing waits here').waitFor({ timeout: 60_000 });
};

/** What is in the plan beside what is enough today lies folded: an owner may do it all the same. */
export const unfold = (page) => page.locator('main details.also').evaluateAll((all) => all.forEach((also) => { also.open = true; }));

/** A sitting by one tap, without a network. */
export async function oneTap(owner) {
  await owner.page.goto('/today');
  await unfold(owner.page);
  await owner.page.locator('main form[data-outbox-kind=log] button[name=left]').first().click();
  await owner.page.getByRole('heading', { name: 'Kept on this phone' }).waitFor();
}
