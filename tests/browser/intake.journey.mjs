// Before the first lesson: filled in on the smallest phone, left and taken up on another one; a referred dog gets no plan until
// a lead releases it; consent is signed tick by tick.
import assert from 'node:assert/strict';
import { serve, Visitor } from './harness.mjs';
import { during, setUp } from './steps.mjs';

const SMALLEST = { width: 320, height: 568 };
const main = (visitor) => visitor.page.locator('main');
const id = (visitor, noun) => new URL(visitor.page.url()).pathname.match(new RegExp(`/${noun}/([0-9a-f-]{36})`))[1];

async function beginning(service) {
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
  const links = [];
  for (const name of ['Ada Okoro', 'Uche Okoro']) {
    await lead.page.goto(`/households/${household}/owners/new`);
    await main(lead).locator('[name=name]').fill(name);
    await lead.leave(main(lead).locator('form button.main'));
    links.push(new URL(await main(lead).locator('.link-out').inputValue()).pathname);
  }
  await lead.open(`/dogs/${dog}/intake`);
  await lead.look('intake-not-asked');
  await lead.press('Ask the household');
  return { lead, dog, links };
}

async function phone(service, link) {
  const owner = await Visitor.arrive(service, { shape: 'phone' });
  await owner.page.setViewportSize(SMALLEST);
  await owner.open(link);
  await owner.leave(main(owner).locator('button.main'));
  return owner;
}

const goOn = (owner) => owner.press('Keep and go on');

async function toldAndHeldBack() {
  await during(serve, async (service) => {
    const { lead, dog, links } = await beginning(service);
    const ada = await phone(service, links[0]);
    await ada.follow('Fill them in');
    await ada.look('tell');
    await ada.page.locator('main ul.links a').first().click();
    await ada.look('tell-home');
    await main(ada).locator('[name=adults]').fill('Ada and Uche');
    await main(ada).locator('[name=children][value=visiting]').check();
    await goOn(ada);
    await main(ada).locator('[name=from]').fill('A rescue');
    await goOn(ada);
    await ada.look('tell-teeth');
    await main(ada).locator('[name=ever][value=yes]').check();
    await main(ada).locator('[name=whom]').fill('A guest');
    await ada.press('Keep, and tell of another time');
    assert.equal(await main(ada).locator('[name=whom]').inputValue(), '', 'what was kept is not typed again');
    await ada.look('tell-teeth-again');
    // left in the middle: half a page is typed, and the phone goes flat
    await goOn(ada);
    await main(ada).locator('[name=tried]').fill('A class in the');
    await ada.page.reload();
    assert.equal(await main(ada).locator('[name=tried]').inputValue(), 'A class in the', 'what was typed is back');
    await ada.close();
    // taken up on another phone
    const uche = await phone(service, links[1]);
    await uche.open(`/dogs/${dog}/tell`);
    assert.match(await main(uche).innerText(), /3 of 8/);
    assert.match(await main(uche).innerText(), /A guest/);
    await uche.page.goto(`/dogs/${dog}/tell/tried`);
    for (const [name, words] of [['tried', 'A class'], ['main', 'Dry lamb'], ['vet', 'The surgery'], ['hours_alone', '5'], ['goal', 'A quiet walk']]) {
      await main(uche).locator(`[name=${name}]`).fill(words);
      await goOn(uche);
    }
    assert.match(await main(uche).innerText(), /8 of 8/);
    await uche.look('tell-done');
    await uche.leave(main(uche).locator('a[href$="/consent"]'));
    await uche.look('consent');
    await uche.expects(422).press('Sign');
    await uche.look('consent-refused');
    for (const clause of ['records', 'no_vet', 'cautions']) await main(uche).locator(`[name=${clause}]`).check();
    await main(uche).locator('[name=signed_name]').fill('Uche Okoro');
    await uche.expects().press('Sign');
    await uche.look('consent-signed');
    await uche.open(`/dogs/${dog}/tell`);
    await uche.leave(main(uche).locator('form button.main'));
    assert.match(await main(uche).innerText(), /Sent\./);
    await uche.close();
    // the trainer reads it, and refers
    await lead.open(`/dogs/${dog}/intake`);
    await lead.look('intake-told');
    await main(lead).locator('[name=answer][value=refer]').check();
    await main(lead).locator('[name=reason]').fill('Beyond us');
    await lead.press('Keep this answer');
    await lead.page.goto(`/dogs/${dog}/plan/add?q=look`);
    await lead.press('Add A look at you');
    await lead.open(`/dogs/${dog}/plan/publish`);
    await lead.look('publish-referred');
    await lead.expects(422).press('Publish plan 1');
    assert.match(await main(lead).innerText(), /Referred/);
    await lead.expects().open(`/dogs/${dog}/intake`);
    await main(lead).locator('[name=answer][value=released]').check();
    await main(lead).locator('[name=reason]').fill('With a vet behaviourist');
    await lead.press('Keep this answer');
    await lead.page.goto(`/dogs/${dog}/plan/publish`);
    await lead.press('Publish plan 1');
    assert.match(new URL(lead.page.url()).search, /plan-published/);
    await lead.close();
  });
}

export default { 'told on two phones, referred, released': toldAndHeldBack };
