// A practice with three hundred dogs: a trainer finds and answers every stop and every question by the keyboard alone, by three
// interactions each, and goes through what was told one by one.
import assert from 'node:assert/strict';
import { counted, say, serve, Visitor } from './harness.mjs';
import { field, main, phone, sent } from './field.mjs';
import { during } from './steps.mjs';

const DOGS = 300;
const STOPS = 9;
const QUESTIONS = 7;

/** Three hundred dogs made of one: every 31st has a stop open, every 41st asks something. */
const MANY = `
  insert into dog select (jsonb_populate_record(d.dog, jsonb_build_object('id', gen_random_uuid(), 'name', 'Dog ' || n))).*
    from (select dog from dog limit 1) d, generate_series(2, ${DOGS}) n;
  insert into dog_summary select (jsonb_populate_record(s.dog_summary, jsonb_build_object('dog_id', d.id))).*
    from (select dog_summary from dog_summary limit 1) s, dog d on conflict do nothing;
  create temporary table numbered as select practice_id, id, row_number() over (order by name, id) as n from dog;
  insert into welfare_flag (practice_id, id, dog_id, rule, rule_version, severity, seen, owner_seen, facts, subject_kind, subject_id,
      raised_at, local_date)
    select practice_id, gen_random_uuid(), id, 'growl_at_child', 1, 'stop', 'A growl at a child, number ' || n, 'A growl at a child', '[]',
      'encounter', gen_random_uuid(), now() - n * interval '1 minute', current_date from numbered where n % 31 = 0 and n / 31 <= ${STOPS};
  update dog_summary s set open_stops = 1, trouble_open = true, answer_due = f.raised_at + interval '24 hours', last_trouble_at = f.raised_at, top_flag_id = f.id
    from welfare_flag f where f.practice_id = s.practice_id and f.dog_id = s.dog_id;
  insert into message (practice_id, id, dog_id, by_membership_id, from_trainer, body, sent_at)
    select d.practice_id, gen_random_uuid(), d.id, m.id, false, 'May we rest on Sunday? Number ' || d.n, now() - d.n * interval '1 minute'
    from numbered d, membership m where m.role = 'owner' and d.n % 41 = 0 and d.n / 41 <= ${QUESTIONS};
  update dog_summary s set last_owner_message_at = g.sent_at, last_owner_message = g.body
    from message g where g.practice_id = s.practice_id and g.dog_id = s.dog_id;`;

const openStops = "select count(*) from welfare_flag where state = 'open' and severity = 'stop'";
const questions = 'select count(*) from dog_summary where last_owner_message_at > coalesce(answered_to, \'-infinity\')';

async function byKeyboard() {
  await during(serve, async (service) => {
    const { lead, links } = await field(service, ['Ada Okoro'], true);
    await (await phone(service, links[0])).close();
    say(service, MANY);
    assert.equal(counted(service, openStops), STOPS);
    assert.equal(counted(service, questions), QUESTIONS);
    await lead.page.goto('/caseload');
    assert.equal(await lead.page.locator('main .row').count(), DOGS);
    await lead.look('caseload-300');
    let interactions = 0;
    const press = async (key) => { interactions += 1; await lead.page.keyboard.press(key); };
    const firstNeed = async () => (await lead.page.locator('main .row .sev').first().innerText()).trim();
    const answered = { Stop: 0, 'Question waiting': 0 };
    for (let turn = 0; turn < STOPS + QUESTIONS; turn += 1) {
      const need = await firstNeed();
      assert.ok(need in answered, `what is first needs an answer: ${need}`);
      const before = interactions;
      const opened = lead.page.waitForURL((url) => !url.pathname.startsWith('/caseload'));
      await press('a');
      await opened;
      await press('e');
      await lead.page.keyboard.type('Rang: a gate, and rest on Sunday.');
      const back = lead.page.waitForURL((url) => url.pathname === '/caseload');
      await press('Control+Enter');
      await back;
      assert.ok(interactions - before <= 3, `${interactions - before} interactions for one answer`);
      answered[need] += 1;
    }
    assert.deepEqual(answered, { Stop: STOPS, 'Question waiting': QUESTIONS });
    assert.equal(interactions, 3 * (STOPS + QUESTIONS));
    assert.equal(counted(service, openStops), 0);
    assert.equal(counted(service, questions), 0);
    assert.notEqual(await firstNeed(), 'Stop');
    console.log(`    ${answered.Stop} stops and ${answered['Question waiting']} questions among ${DOGS} dogs: ${interactions} interactions`);
    await lead.close();
  });
}

async function oneByOne() {
  await during(serve, async (service) => {
    const { lead, dog, links } = await field(service, ['Ada Okoro'], true);
    const owner = await phone(service, links[0]);
    for (let turn = 0; turn < 3; turn += 1) {
      await owner.page.goto(`/dogs/${dog}/encounters/new`);
      await main(owner).locator('[name=kind][value=reaction]').check();
      await main(owner).locator('button[name=reaction][value="2"]').click();
      await owner.page.waitForURL((url) => !url.pathname.endsWith('/new'));
    }
    await sent(owner);
    await lead.open('/review');
    await lead.look('review');
    const toLook = Number((await main(lead).locator('.progress .num').innerText()).match(/(\d+) left/)[1]);
    assert.ok(toLook > 0, 'something was told');
    const next = async (key) => {
      const loaded = lead.page.waitForEvent('load');
      await lead.page.keyboard.press(key);
      await loaded;
    };
    await next('l');
    assert.match(await main(lead).innerText(), new RegExp(`1 looked at, ${toLook - 1} left`));
    await next('u');
    assert.match(await main(lead).innerText(), new RegExp(`${toLook} left`));
    await lead.page.keyboard.press('e');
    await lead.page.keyboard.type('Well spotted.');
    await next('Control+Enter');
    for (let left = toLook - 1; left > 0; left -= 1) await next('l');
    assert.match(await main(lead).innerText(), /All looked at/);
    await lead.look('review-done');
    await lead.close();
    await owner.page.goto('/messages');
    assert.match(await main(owner).innerText(), /Well spotted\./);
    await owner.close();
  });
}

/** Both sides send a photo after a message; what is none is said to be none, and what was typed comes back. */
async function aPhotoOfAMessage() {
  await during(serve, async (service) => {
    const { dog, links, lead } = await field(service, ['Ada Okoro'], true);
    const owner = await phone(service, links[0]);
    for (const [one, path] of [[owner, `/messages?dog=${dog}`], [lead, `/dogs/${dog}/messages`]]) {
      await one.page.goto(path);
      await main(one).locator('#f-body').pressSequentially('Is this mat');
      await one.page.goto(one === lead ? '/caseload' : '/today');
      await one.page.goto(path);
      assert.equal(await main(one).locator('#f-body').inputValue(), 'Is this mat', 'typed, left, and back');
      await main(one).locator('#f-body').fill('Is this mat big enough?');
      await one.leave(main(one).locator('form:has(#f-body) button.main').first());
      await one.page.goto(path);
      assert.equal(await main(one).locator('[data-kept]').count(), 0, 'it was sent');
      const words = { name: 'words.txt', mimeType: 'text/plain', buffer: Buffer.from('In so many words.') };
      await main(one).locator('[data-photo-now]').setInputFiles(words);
      await main(one).locator('#f-photo-hint').filter({ hasText: 'photo' }).filter({ hasNotText: /Sending|as soon as/ }).waitFor();
      one.complaints.length = 0; // of the answer above
      const before = await main(one).locator('.message img').count();
      await main(one).locator('[data-photo-now]').setInputFiles(new URL('../../static/files/icon-512.png', import.meta.url).pathname);
      await main(one).locator('.message img').nth(before).waitFor();
      await one.look('message-photo');
    }
    assert.equal(counted(service, 'select count(*) from photo where message_id is not null'), 2);
    await owner.page.goto(`/messages?dog=${dog}`);
    assert.equal(await main(owner).locator('.message img').count(), 2, 'each sees both');
    await lead.close();
    await owner.close();
  });
}

export default { 'by the keyboard alone': byKeyboard, 'one by one': oneByOne, 'a photo of a message': aPhotoOfAMessage };
