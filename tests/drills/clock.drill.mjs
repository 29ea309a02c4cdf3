// The machine's clock is set back two days while nothing runs: everybody is still signed in or can sign in again, new
// logs are kept in order, and what is kept of every dog is what its facts say.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { Client, checkRecords, fieldsOf, lead, log, logForms, owner } from './practice.mjs';
import { Service, ask, leftRunning } from './service.mjs';

export const title = 'a clock set back by two days';

export async function drill(drill) {
  if (spawnSync('faketime', ['--version']).status !== 0) return 'faketime is not installed (apt-get install faketime)';
  const data = await drill.practice();
  const written = [];
  let carried;
  for (const through of [[], ['faketime', '-f', '-2d'], []]) {
    const service = await (await Service.start(drill, ['demo', '--data-dir', data], { through })).ready();
    const told = new Date((await fetch(`${service.base}/livez`)).headers.get('date')).getTime();
    const back = Math.round((Date.now() - told) / 3_600_000);
    assert.equal(back, through.length ? 48 : 0, 'the program sees the clock that it should');
    const client = await lead(service, data);
    if (carried) {
      const still = new Client(service.base);
      still.cookie = carried;
      assert.equal((await still.ask('/caseload')).status, 200, 'whoever was signed in still is');
    }
    carried ??= client.cookie;
    const phone = await owner(service);
    const fields = fieldsOf((await phone.ask('/messages')).body, '/messages');
    assert.equal((await phone.ask('/messages', { ...fields, body: 'Is a chew enough?' })).status, 303);
    for (const form of await logForms(client, 4)) {
      const id = randomUUID();
      assert.equal((await client.ask(form.path, log(form, id, 2))).status, 303);
      written.push(id);
    }
    assert.equal((await client.ask('/caseload')).status, 200);
    await checkRecords(client, data);
    const kept = new Set(ask(data, 'select id from practice_log'));
    assert.ok(written.every((id) => kept.has(id)));
    // Behind faketime the program is a child of its own, which hears the terminal's signal, not ours.
    spawnSync('pkill', ['-TERM', '-f', '--', `demo --data-dir ${data}`]);
    await service.ended;
    assert.deepEqual(leftRunning(data), []);
  }
  drill.say(`${written.length} logs written before, under and after the wrong clock; all kept, no record differed`);
}
