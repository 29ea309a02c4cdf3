// Writing a plan as a trainer does at the end of a long day: few interactions, by keyboard as well, and nothing typed is lost.
import assert from 'node:assert/strict';
import { serve, Visitor } from './harness.mjs';
import { during, setUp, signIn } from './steps.mjs';

const FEWEST_FROM_POINT = 12;
const FEWEST_BY_HAND = 25;
const main = (visitor) => visitor.page.locator('main');
const id = (visitor, noun) => new URL(visitor.page.url()).pathname.match(new RegExp(`/${noun}/([0-9a-f-]{36})`))[1];

/** A lead with one dog that has a profile: a place, a reinforcer, a weight. */
async function kennel(service, way) {
  const lead = await Visitor.arrive(service, way);
  await setUp(lead, service.newPractice());
  await lead.page.goto('/households/new');
  await main(lead).locator('[name=name]').fill('Okoro');
  await lead.leave(main(lead).locator('button.main'));
  const household = id(lead, 'households');
  await lead.page.goto(`/households/${household}/dogs/new`);
  await main(lead).locator('[name=name]').fill('Moss');
  await main(lead).locator('[name=kg]').fill('15');
  await lead.leave(main(lead).locator('form button.main'));
  const dog = id(lead, 'dogs');
  await lead.page.goto(`/dogs/${dog}/places/new`);
  await main(lead).locator('[name=name]').fill('Kitchen');
  await main(lead).locator('[name=distraction]').selectOption('1').catch(() => main(lead).locator('[name=distraction][value="1"]').check());
  await lead.leave(main(lead).locator('form button.main').first());
  await lead.page.goto(`/dogs/${dog}/reinforcers/new`);
  await main(lead).locator('[name=what]').fill('Kibble');
  await main(lead).locator('[name=rank]').selectOption('3').catch(() => main(lead).locator('[name=rank][value="3"]').check());
  await lead.leave(main(lead).locator('form button.main').first());
  return { lead, dog };
}

/** Counts what somebody does: a press, a field filled in. */
function counting(visitor) {
  const count = { done: 0, began: Date.now() };
  return {
    count,
    press: async (way) => {
      count.done += 1;
      await Promise.all([visitor.page.waitForNavigation({ waitUntil: 'load' }), way.click()]);
    },
    fill: async (field, words) => {
      count.done += 1;
      await field.fill(words);
    },
  };
}

async function isPublished(lead, count, most, how) {
  assert.match(new URL(lead.page.url()).search, /plan-published/);
  assert.ok(count.done < most, `${how}: ${count.done} interactions, and fewer than ${most} are promised`);
  console.log(`     ${how}: ${count.done} interactions, ${((Date.now() - count.began) / 1000).toFixed(1)} s`);
}

const link = (lead, name) => main(lead).getByRole('link', { name, exact: true }).first();
const button = (lead, name) => main(lead).getByRole('button', { name, exact: true }).first();

async function fromAPoint(shape) {
  await during(serve, async (service) => {
    const { lead, dog } = await kennel(service, { shape });
    await lead.page.goto(`/dogs/${dog}`);
    const { count, press } = counting(lead);
    await press(main(lead).locator(`a[href="/dogs/${dog}/plan"]`).first());
    await press(link(lead, 'Edit the draft'));
    await press(link(lead, 'Choose a starting point'));
    await lead.look('plan-start');
    await press(main(lead).locator('button[name=point][value=pulls]'));
    await lead.look('plan-started');
    await press(link(lead, 'Check and publish'));
    await press(main(lead).locator('form button.main'));
    await isPublished(lead, count, FEWEST_FROM_POINT, `from a starting point, ${shape}`);
  });
}

async function byHand(shape) {
  await during(serve, async (service) => {
    const { lead, dog } = await kennel(service, { shape });
    await lead.page.goto(`/dogs/${dog}`);
    const { count, press, fill } = counting(lead);
    await press(main(lead).locator(`a[href="/dogs/${dog}/plan"]`).first());
    await press(link(lead, 'Edit the draft'));
    const names = ['Nose to hand', 'A look at you', 'Settle on a mat'];
    for (const name of names) {
      await fill(main(lead).getByLabel('Add from the library by its name'), name);
      await press(button(lead, 'Add'));
    }
    for (const name of names) {
      await press(link(lead, `Edit ${name}`));
      await fill(main(lead).locator('[name=minutes]'), '5');
      await press(button(lead, 'Save in the draft'));
    }
    assert.match(await main(lead).locator('#panel').innerText(), /Nothing stands out/);
    await press(link(lead, 'Check and publish'));
    await press(main(lead).locator('form button.main'));
    await isPublished(lead, count, FEWEST_BY_HAND, `three items by hand, ${shape}`);
  });
}

/** Goes by the tab key to what `is` finds, and presses Enter there. */
async function enterOn(lead, css, words = '') {
  for (let tabs = 0; tabs < 200; tabs += 1) {
    await lead.page.keyboard.press('Tab');
    const here = await lead.page.evaluate(([css, words]) => {
      const at = document.activeElement;
      return Boolean(at?.matches(css) && at.textContent.trim().replace(/\s+/g, ' ').includes(words));
    }, [css, words]);
    if (here) {
      await Promise.all([lead.page.waitForNavigation({ waitUntil: 'load' }), lead.page.keyboard.press('Enter')]);
      return;
    }
  }
  assert.fail(`the tab key does not reach ${css} “${words}” on ${lead.page.url()}`);
}

async function byKeyboard() {
  await during(serve, async (service) => {
    const { lead, dog } = await kennel(service, { shape: 'desk' });
    await lead.page.goto(`/dogs/${dog}/plan/edit`);
    await enterOn(lead, 'main a', 'Choose a starting point');
    await enterOn(lead, 'main button', 'Start from this: Pulling on the lead');
    await enterOn(lead, 'main a', 'Check and publish');
    await enterOn(lead, 'main button', 'Publish plan 1');
    assert.match(new URL(lead.page.url()).search, /plan-published/);
  });
}

async function nothingIsLost() {
  await during(serve, async (service) => {
    const { lead, dog } = await kennel(service, { shape: 'desk' });
    await lead.page.goto(`/dogs/${dog}/plan/edit`);
    await main(lead).getByLabel('Add from the library by its name').fill('Come, on the long line');
    await lead.leave(button(lead, 'Add'));
    await lead.leave(link(lead, 'Edit Come, on the long line'));
    const item = new URL(lead.page.url()).pathname;
    const note = main(lead).locator('[name=note]');
    const isBack = async (words, when) => {
      assert.equal(await note.inputValue(), words, when);
      assert.equal(await main(lead).locator('[data-kept]').count(), 1, `${when}: it is said`);
    };

    // what the rules find appears while typing, and goes when it is mended
    await main(lead).locator('[name=clip]').selectOption('collar');
    await main(lead).locator('#panel .watch.stop').first().waitFor();
    await main(lead).locator('[name=clip]').selectOption('harness_back');
    await main(lead).locator('#panel .watch.stop').first().waitFor({ state: 'detached' });

    await note.fill('Gloves on.');
    await lead.page.reload();
    await isBack('Gloves on.', 'after a reload');
    await lead.look('plan-item-kept');

    await lead.page.goto('/caseload');
    await lead.page.goBack();
    await isBack('Gloves on.', 'after going back');

    await note.fill('Gloves on, and short at the gate.');
    lead.page.removeAllListeners('requestfailed');
    lead.page.removeAllListeners('console');
    await lead.context.setOffline(true);
    await button(lead, 'Save in the draft').click();
    await lead.page.waitForURL((url) => url.protocol.startsWith('chrome-error') || url.pathname === item, { waitUntil: 'commit' }).catch(() => {});
    await lead.context.setOffline(false);
    await lead.page.goto(item);
    await isBack('Gloves on, and short at the gate.', 'after a lost connection');

    await lead.context.clearCookies();
    await lead.leave(button(lead, 'Save in the draft'));
    assert.equal(new URL(lead.page.url()).pathname, '/sign-in');
    await lead.fill({ 'E-mail address': 'ada@example.org', Password: 'wet slate under bracken' });
    await lead.leave(lead.page.getByRole('button', { name: 'Sign in', exact: true }));
    await lead.page.goto(item);
    await isBack('Gloves on, and short at the gate.', 'after the sign-in had expired');

    // somebody else was first
    const other = await Visitor.arrive(service, { shape: 'phone' });
    await signIn(other, 'ada@example.org');
    await other.page.goto(item);
    await main(other).locator('[name=note]').fill('Ask for the harness first.');
    await other.leave(button(other, 'Save in the draft'));
    lead.expects(422);
    await lead.leave(button(lead, 'Save in the draft'));
    const text = await main(lead).innerText();
    assert.match(text, /Somebody changed this item/);
    assert.match(text, /Ask for the harness first\./, 'what the other wrote is shown');
    assert.equal(await note.inputValue(), 'Gloves on, and short at the gate.', 'and nothing typed is lost');
    lead.expects();
    await lead.leave(button(lead, 'Save in the draft'));
    await lead.page.goto(item);
    assert.equal(await note.inputValue(), 'Gloves on, and short at the gate.');
    assert.equal(await main(lead).locator('[data-kept]').count(), 0, 'what was saved is not kept here any more');
  });
}

export default {
  'from a starting point, on a phone': () => fromAPoint('phone'),
  'from a starting point, on a desk': () => fromAPoint('desk'),
  'three items by hand, on a phone': () => byHand('phone'),
  'three items by hand, on a desk': () => byHand('desk'),
  'by keyboard alone': byKeyboard,
  'nothing typed is lost': nothingIsLost,
};
