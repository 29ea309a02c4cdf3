// After a lesson, with the scripts on: the note is sorted into its fields, and what was kept on the device does not undo that.
import assert from 'node:assert/strict';
import { serve, Visitor } from './harness.mjs';
import { during, setUp } from './steps.mjs';

const main = (visitor) => visitor.page.locator('main');
const id = (visitor, noun) => new URL(visitor.page.url()).pathname.match(new RegExp(`/${noun}/([0-9a-f-]{36})`))[1];

async function oneNote() {
  await during(serve, async (service) => {
    const lead = await Visitor.arrive(service, { shape: 'phone' });
    await setUp(lead, service.newPractice());
    await lead.page.goto('/households/new');
    await main(lead).locator('[name=name]').fill('Okoro');
    await lead.leave(main(lead).locator('button.main'));
    await lead.page.goto(`/households/${id(lead, 'households')}/dogs/new`);
    await main(lead).locator('[name=name]').fill('Moss');
    await lead.leave(main(lead).locator('form button.main'));
    await lead.open(`/dogs/${id(lead, 'dogs')}/lessons`);
    await main(lead).locator('[name=note]').pressSequentially('Calm at the gate.');
    await main(lead).locator('[name=note]').press('End');
    await main(lead).locator('[name=note]').pressSequentially('\n! Worn out\n> moving search');
    await lead.press('Sort it into the fields below');
    assert.equal(await main(lead).locator('[name=summary]').inputValue(), 'Calm at the gate.');
    assert.equal(await main(lead).locator('[name=private_note]').inputValue(), 'Worn out');
    assert.equal(await main(lead).locator('[name=next_1]').inputValue(), 'Moving search');
    await lead.look('lesson-sorted');
    await lead.press('Keep the lesson');
    assert.match(new URL(lead.page.url()).search, /lesson-kept-with-homework/);
    const dog = id(lead, 'dogs');
    assert.equal(new URL(lead.page.url()).pathname, `/dogs/${dog}/plan/edit`, 'homework leads straight to the draft');
    await lead.look('lesson-kept');
    await lead.open(`/dogs/${dog}/lessons`);
    assert.equal(await main(lead).locator('[name=note]').inputValue(), '', 'what was kept is not typed again');
    await lead.close();
  });
}

export default { 'one note on a phone': oneNote };
