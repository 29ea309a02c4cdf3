// The disk is full: nothing is acknowledged that is not kept, the log says why, and once there is room the service is
// well again by itself.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { appendFileSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkRecords, lead, log, logForms, patiently } from './practice.mjs';
import { IS_ROOT, Service, ask, connected, folder, leftRunning, sleep } from './service.mjs';

export const title = 'a full disk';

const run = (...words) => spawnSync(words[0], words.slice(1), { encoding: 'utf8' });

export async function drill(drill) {
  if (!IS_ROOT) return 'only root can mount a small disk';
  const disk = folder(drill);
  if (run('mount', '-t', 'tmpfs', '-o', 'size=400m,mode=755', 'none', disk).status !== 0) return 'mounting is not allowed here';
  drill.atEnd(() => run('umount', '-l', disk));
  const data = await drill.practice(join(disk, 'data'));
  const service = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
  const client = await lead(service, data);
  const forms = await logForms(client, 6);
  const inside = connected(data);
  drill.atEnd(() => inside.end());
  await inside.say('select 1;');
  // Fill the disk but for a little, then write until it is refused.
  const { bavail, bsize } = statfsSync(disk);
  writeFileSync(join(disk, 'filler'), Buffer.alloc(Math.max(0, bavail * bsize - 300_000)));
  const acknowledged = [];
  let refused;
  for (let turn = 0; turn < 5000 && !refused; turn += 1) {
    const [id, form] = [randomUUID(), forms[turn % forms.length]];
    const body = { ...log(form, id, turn % 11), note: `drill ${'x'.repeat(1900)}` };
    const answer = await client.ask(form.path, body);
    if (answer.status === 303) acknowledged.push(id);
    else refused = { answer, id, form, body };
  }
  assert.ok(refused, 'the disk never filled');
  assert.ok(acknowledged.length > 0, 'nothing was written before');
  assert.equal(refused.answer.status, 503, refused.answer.body);
  assert.match(refused.answer.body, /cannot reach our records|no room/);
  // To the brim, so that the server cannot even begin a new file of its log and stops.
  const { bfree } = statfsSync(disk);
  appendFileSync(join(disk, 'filler'), Buffer.alloc(bfree * bsize));
  // It has files of its log in store, more or fewer by what was written before: until they are used up it goes on.
  let during = 200;
  for (let turn = 0; turn < 60 && during !== 503; turn += 1) {
    await inside.say('select pg_switch_wal(); update dog_summary set logs = logs;');
    during = await fetch(`${service.base}/readyz`).then((answer) => answer.status);
  }
  await inside.end();
  const reason = /the private database stopped .*the disk that holds .* is full: make room/;
  for (let turn = 0; turn < 100 && !reason.test(service.said); turn += 1) await sleep(100);
  run('rm', join(disk, 'filler'));
  const again = await patiently(client, refused.form.path, refused.body, 600);
  assert.equal(again.status, 303, 'well again by itself, and the same log is taken');
  acknowledged.push(refused.id);
  const kept = new Set(ask(data, 'select id from practice_log'));
  const missing = acknowledged.filter((id) => !kept.has(id)).length;
  const dogs = await checkRecords(client, data);
  const why = /disk is full, make room/.test(service.said);
  drill.say(`${acknowledged.length} acknowledged, ${missing} missing, ${dogs} dogs compared with a rebuild, none differed, at the brim /readyz said ${during}, the log says why: ${why}`);
  assert.equal(missing, 0);
  assert.ok(why);
  assert.equal(during, 503, 'at the brim it says that it cannot serve');
  assert.match(service.said, reason);
  assert.match(service.said, /the private database runs again/);
  assert.equal(await service.stop(), 0);
  assert.deepEqual(leftRunning(data), []);
}
