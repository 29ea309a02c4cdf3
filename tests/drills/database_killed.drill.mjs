// The private database is killed while the service runs: it says so, answers 503 meanwhile, and is well again by itself.
import assert from 'node:assert/strict';
import { randomUUID } from 'node:crypto';
import { checkRecords, lead, log, logForms, patiently } from './practice.mjs';
import { Service, ask, leftRunning, postmaster, sleep } from './service.mjs';

export const title = 'kill -9 of the private database';

export async function drill(drill) {
  const times = drill.long ? 10 : 2;
  const data = await drill.practice();
  const service = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
  const client = await lead(service, data);
  const [form] = await logForms(client, 1);
  const acknowledged = [];
  let away = 0;
  for (let time = 0; time < times; time += 1) {
    const first = postmaster(data);
    process.kill(first, 'SIGKILL');
    for (let turn = 0; turn < 10; turn += 1) {
      const id = randomUUID();
      const answer = await client.ask(form.path, log(form, id, turn));
      assert.ok([303, 503].includes(answer.status), `logging answered ${answer.status}`);
      if (answer.status === 303) acknowledged.push(id);
      else {
        away += 1;
        assert.match(answer.body, /cannot reach our records/);
        assert.equal((await patiently(client, form.path, log(form, id, turn))).status, 303, 'the same, sent again');
        acknowledged.push(id);
      }
      await sleep(20);
    }
    assert.notEqual(postmaster(data), first);
  }
  const kept = new Set(ask(data, 'select id from practice_log'));
  await checkRecords(client, data);
  drill.say(`${times} kills, ${away} answers of 503, ${acknowledged.length} acknowledged, all there: ${acknowledged.every((id) => kept.has(id))}`);
  assert.ok(acknowledged.every((id) => kept.has(id)));
  assert.match(service.said, /the private database stopped .*starting it again/);
  assert.match(service.said, /the private database runs again/);
  assert.equal(await service.stop(), 0);
  assert.deepEqual(leftRunning(data), []);
}
