// The service is killed while people write, again and again. What it acknowledged is there, once; what is kept of every
// dog is what its facts say.
import assert from 'node:assert/strict';
import { randomUUID } from 'node:crypto';
import { checkRecords, lead, log, logForms } from './practice.mjs';
import { Service, ask, freePort, leftRunning, sleep } from './service.mjs';

export const title = 'kill -9 of the service under 20 writers';

const WRITERS = 20;

export async function drill(drill) {
  const times = drill.long ? 30 : 4;
  const data = await drill.practice();
  const port = await freePort();
  const start = async () => (await Service.start(drill, ['demo', '--data-dir', data], { port })).ready();
  let service = await start();
  const client = await lead(service, data);
  const forms = await logForms(client, 12);
  const before = Number(ask(data, 'select count(*) from practice_log')[0]);
  const sent = new Map();
  let over = false;
  const write = async (writer) => {
    for (let turn = 0; !over; turn += 1) {
      const [id, form] = [randomUUID(), forms[(writer + turn) % forms.length]];
      const isLog = turn % 3 !== 0;
      const path = isLog ? form.path : `/dogs/${form.dog}/messages`;
      const fields = isLog ? log(form, id, turn % 11) : { id, body: `drill ${id}` };
      sent.set(id, { isLog, acknowledged: false });
      const answer = await client.ask(path, fields).catch(() => ({ status: 0 }));
      assert.ok([0, 303, 503].includes(answer.status), `${path} answered ${answer.status}`);
      if (answer.status === 303) sent.get(id).acknowledged = true;
      else await sleep(50);
    }
  };
  const writers = Array.from({ length: WRITERS }, (_, writer) => write(writer));
  const all = Promise.all(writers);
  for (let time = 0; time < times; time += 1) {
    await Promise.race([sleep(400 + ((time * 137) % 900)), all]);
    await service.kill();
    service = await start();
  }
  over = true;
  await all;
  const kept = new Set(ask(data, 'select id from practice_log union all select id from message'));
  const acknowledged = [...sent].filter(([, one]) => one.acknowledged);
  const missing = acknowledged.filter(([id]) => !kept.has(id));
  const logs = [...sent].filter(([id, one]) => one.isLog && kept.has(id)).length;
  const after = Number(ask(data, 'select count(*) from practice_log')[0]);
  const dogs = await checkRecords(client, data);
  const unsure = [...sent].filter(([id, one]) => !one.acknowledged && kept.has(id)).length;
  drill.say(`${times} kills, ${sent.size} sent, ${acknowledged.length} acknowledged, ${missing.length} of those missing`);
  drill.say(`${unsure} kept though the answer was cut off; ${dogs} dogs compared with a rebuild, none differed`);
  assert.ok(acknowledged.length >= times * 5, 'too little was written to prove anything');
  assert.equal(missing.length, 0);
  assert.equal(after - before, logs, 'no log that was not sent, none twice');
  assert.equal(dogs, 24);
  await service.stop();
  assert.deepEqual(leftRunning(data), []);
}
