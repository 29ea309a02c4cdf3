// The main journey, as a trainer and an owner live it: set up, household and dog, the owner's link, a plan, a sitting with
// the long line on the collar and no cool-down, what both see, the caseload, the answer, the message, the reading of it.
import assert from 'node:assert/strict';
import { inWords, serve, Visitor, WAYS } from './harness.mjs';
import { during, setUp } from './steps.mjs';

const id = (visitor, noun) => new URL(visitor.page.url()).pathname.match(new RegExp(`/${noun}/([0-9a-f-]{36})`))[1];
const main = (visitor) => visitor.page.locator('main');

async function makeHousehold(lead) {
  await lead.open('/households/new');
  await main(lead).locator('[name=name]').fill('Okoro');
  await lead.leave(main(lead).locator('button.main'));
  return id(lead, 'households');
}

async function makeDog(lead, household, name) {
  await lead.open(`/households/${household}/dogs/new`);
  await lead.look('dog-new');
  await main(lead).locator('[name=name]').fill(name);
  await main(lead).locator('[name=breed]').fill('lurcher');
  await lead.leave(main(lead).locator('form button.main'));
  return id(lead, 'dogs');
}

async function inviteOwner(lead, household) {
  await lead.open(`/households/${household}/owners/new`);
  await main(lead).locator('[name=name]').fill('Ada Okoro');
  await lead.leave(main(lead).locator('form button.main'));
  await lead.look('owner-link');
  return new URL(await main(lead).locator('.link-out').inputValue()).pathname;
}

async function publishPlan(lead, dog) {
  for (const name of ['Long line on the harness, every field walk', 'Moving search']) {
    await lead.open(`/dogs/${dog}/plan/add`);
    await lead.press(`Add ${name}`);
  }
  await lead.open(`/dogs/${dog}/plan/edit`);
  await lead.look('plan-draft');
  await lead.open(`/dogs/${dog}/plan/publish`);
  await lead.leave(main(lead).locator('form button.main'));
  assert.match(new URL(lead.page.url()).search, /plan-published/);
}

async function logOnTheCollar(owner, dog) {
  await owner.open(`/today?dog=${dog}`);
  await owner.look('today');
  await owner.leave(main(owner).locator('a[href*="/log/new?item="]').first());
  const form = main(owner).locator(`form[action="/dogs/${dog}/log"]`);
  const folded = form.locator('details:not([open]) > summary');
  while ((await folded.count()) > 0) await folded.first().click();
  await form.locator('[name=attempts]').fill('6');
  await form.locator('[name=left]').fill('1');
  await form.locator('[name=clip][value=collar]').check();
  await form.locator('[name=finish][value=straight_home]').check();
  await form.locator('[name=recovery][value=longer]').check();
  await form.locator('[name=note]').fill('She hit the end of the line when a pheasant went up.');
  await owner.look('log-form');
  await owner.leave(form.locator('button.main'));
  await owner.look('logged');
  const words = await main(owner).innerText();
  assert.match(words, /back of (the|her) harness|harness/i, 'what to do');
  assert.match(words, /sniff/i, 'how to come down');
  assert.ok((await main(owner).locator('.watch').count()) >= 2, 'line and cool-down are both seen');
  const sources = await main(owner).locator('.watch .source').allTextContents();
  assert.ok(sources.length >= 2 && sources.every((source) => source.trim()), 'each says where it comes from');
}

async function answerEverything(lead, dog) {
  await lead.open('/caseload');
  await lead.look('caseload');
  assert.equal((await lead.page.locator('.row-who a').first().innerText()).trim(), 'Moss', 'first on the caseload');
  const answer = async () => {
    await lead.look('flag');
    await lead.fill({ 'What was done': 'Rang her. Harness from now on, and five minutes of sniffing before the car.' });
    await lead.press('Answer');
  };
  // the row leads to what is read first, and its answer back
  await lead.leave(lead.page.locator('.row [data-act]').first());
  await answer();
  assert.equal(new URL(lead.page.url()).pathname, '/caseload');
  await lead.open(`/dogs/${dog}/welfare`);
  await lead.look('welfare');
  let open = await lead.page.locator('main .watch .actions a').count();
  assert.ok(open >= 1, 'the cool-down waits beside the line');
  for (; open > 0; open -= 1) {
    await lead.leave(lead.page.locator('main .watch .actions a').first());
    await answer();
  }
  assert.equal(await lead.page.locator('main .watch').count(), 0);
  await lead.open(`/dogs/${dog}/messages`);
  await lead.fill({ 'Your message': 'Well done for writing it down. Clip to the back ring next time.' });
  await lead.press('Send');
  await lead.look('conversation');
}

async function journey(way) {
  await during(serve, async (service) => {
    const lead = await Visitor.arrive(service, way);
    await setUp(lead, service.newPractice());
    const household = await makeHousehold(lead);
    const wren = await makeDog(lead, household, 'Wren');
    const moss = await makeDog(lead, household, 'Moss');
    assert.notEqual(wren, moss);
    const link = await inviteOwner(lead, household);
    await publishPlan(lead, moss);

    const owner = await Visitor.arrive(service, way);
    await owner.open(link);
    await owner.look('link');
    await owner.leave(main(owner).locator('button.main'));
    await owner.open(`/today?dog=${moss}`);
    await logOnTheCollar(owner, moss);

    await answerEverything(lead, moss);

    await owner.open(`/messages?dog=${moss}`);
    await owner.look('messages');
    assert.match(await main(owner).innerText(), /Clip to the back ring next time/);
    const again = await Visitor.arrive(service, way);
    again.expects(404, 410);
    await again.open(link);
    await again.look('link-used');
  });
}

export default Object.fromEntries(WAYS.map((way) => [inWords(way), () => journey(way)]));
