// One log sent fifty times over eight connections, cut off at random: one log, one evaluation, one more in the summary.
// The same id with another body is refused, and the first stays.
import assert from 'node:assert/strict';
import { randomUUID } from 'node:crypto';
import { checkRecords, lead, log, logForms } from './practice.mjs';
import { Service, ask, sleep } from './service.mjs';

export const title = 'one log sent 50 times over 8 connections';

export async function drill(drill) {
  const rounds = drill.long ? 20 : 3;
  const data = await drill.practice();
  const service = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
  const client = await lead(service, data);
  const forms = await logForms(client, 3);
  const seen = { answered: 0, cut: 0, refused: 0 };
  for (let round = 0; round < rounds; round += 1) {
    const [id, form] = [randomUUID(), forms[round % forms.length]];
    const state = () => ask(data, `select
      (select logs from dog_summary where dog_id = '${form.dog}'),
      (select count(*) from practice_log where id = '${id}'),
      (select count(*) from welfare_flag where dog_id = '${form.dog}'),
      (select coalesce(sum((state->>'sittings')::int), 0) from readiness where dog_id = '${form.dog}')`)[0].split('|').map(Number);
    const before = state();
    const body = { ...log(form, id, 1), line: 'long_line', clip: 'collar' };
    let left = 50;
    const connection = async (number) => {
      while (left > 0) {
        left -= 1;
        const cut = new AbortController();
        const timer = left % 3 === 0 ? setTimeout(() => cut.abort(), (left * 7 + number) % 23) : null;
        const answer = await client.ask(form.path, body, { signal: cut.signal }).catch(() => null);
        clearTimeout(timer);
        if (!answer) seen.cut += 1;
        else {
          seen.answered += 1;
          assert.equal(answer.status, 303);
        }
      }
    };
    await Promise.all(Array.from({ length: 8 }, (_, number) => connection(number)));
    await sleep(300);
    const after = state();
    assert.deepEqual([after[0] - before[0], after[1]], [1, 1], 'one log, the summary one more');
    assert.ok(after[3] - before[3] <= 1, 'evaluated once');
    const flags = after[2];
    assert.ok(flags - before[2] >= 1, 'the collar was seen');
    assert.deepEqual(
      ask(data, `select count(*) from (select 1 from welfare_flag where subject_id = '${id}' group by rule having count(*) > 1) twice`),
      ['0'], 'and no rule raised twice',
    );
    assert.equal((await client.ask(form.path, { ...body, left: '9' })).status, 409);
    seen.refused += 1;
    assert.deepEqual(ask(data, `select met from practice_log where id = '${id}'`), ['9']);
    assert.equal(state()[2], flags);
  }
  const dogs = await checkRecords(client, data);
  drill.say(`${rounds} logs, ${seen.answered} answers, ${seen.cut} cut off, ${seen.refused} other bodies refused; ${dogs} dogs compared, none differed`);
  assert.ok(seen.cut > 0 && seen.answered > 0);
  await service.stop();
}
