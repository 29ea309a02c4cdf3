// The README's first command on machines that have nothing, or something else, or too little: each start works, or says
// one sentence that helps and exits with 2, and nothing is left running.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { chmodSync, chownSync, cpSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { BINARY, IS_ROOT, Service, folder, freePort, leftRunning, postmaster, sleep } from './service.mjs';

export const title = 'bare machines';

/** The user that has nothing on any Linux: `nobody`. */
const ORDINARY = 65534;
const asOrdinary = ['setpriv', `--reuid=${ORDINARY}`, `--regid=${ORDINARY}`, '--clear-groups'];

/** One sentence on one line, and 2. */
async function refuses(service, words) {
  const status = await Promise.race([service.ended, sleep(60_000).then(() => 'not ended in a minute')]);
  const said = service.said.trim();
  assert.equal(status, 2, `it ended with ${status}:\n${said}`);
  assert.match(said, words);
  assert.equal(said.split('\n').length, 1, `more than a sentence:\n${said}`);
  assert.match(said, /[.]$/);
}

const cases = {
  async 'as whoever runs this, in the folder it chooses itself'(drill) {
    const home = folder(drill);
    const service = await Service.start(drill, ['demo'], { env: { HOME: home, XDG_DATA_HOME: '', SETTLEBROOK_DATA_DIR: join(home, 'data') } });
    await works(service, join(home, 'data'));
  },

  async 'as an ordinary user'(drill) {
    if (!IS_ROOT) return 'this is one';
    const { program, home, data } = ordinary(drill);
    const service = await Service.start(drill, ['demo'], { program, through: asOrdinary, env: { HOME: home, XDG_DATA_HOME: '' } });
    await works(service, data);
  },

  async 'as an ordinary user, with no PostgreSQL on the PATH or in the usual folders'(drill) {
    if (!canHide()) return 'only root can hide the installed PostgreSQL';
    const { program, home, data } = ordinary(drill);
    const env = { HOME: home, XDG_DATA_HOME: '', PATH: '/usr/bin:/bin' };
    const service = await Service.start(drill, ['demo'], { program, through: [...hidden(), ...asOrdinary], env });
    if (!(await fetched(service))) return 'PostgreSQL could not be fetched here: the package index does not answer';
    await works(service, data);
    assert.ok(readdirSync(join(data, 'demo')).includes('postgres-programs'));
  },

  async 'serving with no PostgreSQL, without leave to fetch one'(drill) {
    if (!canHide()) return 'only root can hide the installed PostgreSQL';
    const words = ['serve', '--data-dir', join(folder(drill), 'data')];
    const service = await Service.start(drill, words, { through: hidden(), env: { PATH: '/usr/bin:/bin' } });
    await refuses(service, /PostgreSQL.*(install|--fetch-postgres)/i);
  },

  async "from a clone under root's home, which the database's user cannot enter"(drill) {
    if (!IS_ROOT) return 'only root has such a home';
    const home = folder(drill);
    chmodSync(home, 0o700);
    const clone = join(home, 'settlebrook');
    mkdirSync(clone);
    cpSync(BINARY, join(clone, 'settlebrook'));
    const data = join(folder(drill), 'data');
    const service = await Service.start(drill, ['demo', '--data-dir', data], { program: join(clone, 'settlebrook') });
    await works(service, data);
    const inside = await Service.start(drill, ['demo', '--data-dir', join(clone, 'data')], { program: join(clone, 'settlebrook') });
    await refuses(inside, /--data-dir/);
  },

  async 'a second start, after a stop and after a kill -9'(drill) {
    const data = await drill.practice();
    for (const end of ['SIGTERM', 'SIGKILL', 'SIGINT']) {
      const service = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
      assert.equal(await service.stop(end), end === 'SIGKILL' ? 'SIGKILL' : 0);
    }
    await works(await Service.start(drill, ['demo', '--data-dir', data]), data);
  },

  async 'a database whose first process and service were killed together'(drill) {
    const data = await drill.practice();
    const service = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
    process.kill(postmaster(data), 'SIGKILL');
    await service.kill();
    await works(await Service.start(drill, ['demo', '--data-dir', data]), data);
  },

  async 'a second instance on the same folder'(drill) {
    const data = await drill.practice();
    const first = await (await Service.start(drill, ['demo', '--data-dir', data])).ready();
    await refuses(await Service.start(drill, ['demo', '--data-dir', data]), /already running/);
    assert.equal((await fetch(`${first.base}/readyz`)).status, 200);
    assert.equal(await first.stop(), 0);
    assert.deepEqual(leftRunning(data), []);
  },

  async 'a busy port'(drill) {
    const data = await drill.practice();
    const port = await freePort();
    const first = await (await Service.start(drill, ['demo', '--data-dir', data], { port })).ready();
    const other = join(folder(drill), 'data');
    await refuses(await Service.start(drill, ['demo', '--data-dir', other], { port }), /listening on 127.*--listen/);
    assert.equal(await first.stop(), 0);
  },

  async 'a path too long for a socket'(drill) {
    const data = await drill.practice(join(folder(drill), 'd'.repeat(120)));
    await works(await Service.start(drill, ['demo', '--data-dir', data]), data);
  },

  async 'data made by another major version'(drill) {
    const data = await drill.practice();
    writeFileSync(join(data, 'demo/postgres/data/PG_VERSION'), '12\n');
    await refuses(await Service.start(drill, ['demo', '--data-dir', data]), /PostgreSQL 12/);
  },

  async 'a folder that one may not write to'(drill) {
    const { program, home } = ordinary(drill);
    const closed = folder(drill);
    const [through, data] = IS_ROOT ? [asOrdinary, closed] : [[], '/proc/settlebrook'];
    const service = await Service.start(drill, ['demo', '--data-dir', data], { program, through, env: { HOME: home } });
    await refuses(service, /Cannot keep data in|was not made by/);
  },

  async 'a disk that is read-only'(drill) {
    if (!canHide()) return 'only root can mount a read-only disk';
    const place = folder(drill);
    const through = ['unshare', '-m', 'sh', '-c', `mount -t tmpfs -o ro none '${place}' && exec "$@"`, 'sh'];
    const service = await Service.start(drill, ['demo', '--data-dir', join(place, 'data')], { through });
    await refuses(service, /Cannot keep data in.*--data-dir/);
  },
};

async function works(service, data) {
  await service.ready();
  assert.match(service.said, /sign in at http:\/\/localhost:\d+/);
  assert.match(service.said, /each works once/);
  assert.equal((await fetch(`${service.base}/sign-in`)).status, 200);
  assert.equal(await service.stop(), 0, service.said);
  assert.deepEqual(leftRunning(data), [], 'nothing is left running');
}

/** Whether it came to serve; what it says otherwise must be one helpful sentence after the package index's own words. */
async function fetched(service) {
  try {
    await service.ready();
    return true;
  } catch (error) {
    if (!/could not be fetched/.test(service.said)) throw error;
    assert.equal(await service.ended, 2);
    assert.match(service.said, /PostgreSQL could not be fetched.*install/);
    return false;
  }
}

function canHide() {
  return IS_ROOT && spawnSync('unshare', ['-m', 'true']).status === 0;
}

/** A command line that runs another one where no PostgreSQL is installed. */
function hidden() {
  const places = ['/usr/lib/postgresql', '/usr/local/pgsql', '/usr/local/opt'];
  const cover = places.map((place) => `{ [ ! -d ${place} ] || mount -t tmpfs none ${place}; }`).join(' && ');
  return ['unshare', '-m', 'sh', '-c', `${cover} && exec "$@"`, 'sh'];
}

/** What an ordinary user has: a home of their own, and the program where they can run it. */
function ordinary(drill) {
  const home = folder(drill);
  const program = join(home, 'settlebrook');
  cpSync(BINARY, program);
  chmodSync(program, 0o755);
  if (IS_ROOT) chownSync(home, ORDINARY, ORDINARY);
  return { program, home, data: join(home, '.local/share/settlebrook') };
}

export async function drill(drill) {
  const outcomes = [];
  for (const [name, one] of Object.entries(cases)) {
    const left = await one(drill).catch((error) => {
      throw new Error(`${name}: ${error.stack}`);
    });
    drill.say(`${left ? `left out (${left})` : 'as it should be'}: ${name}`);
    outcomes.push(left);
    await drill.end();
  }
  assert.deepEqual(leftRunning('/sb-drill-'), [], 'nothing is left running');
  assert.ok(outcomes.filter((left) => !left).length >= 8, 'most of it was tried');
}
