// The real program in a real folder, as a person starts it: started, killed, asked, stopped.
import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, readdirSync, readlinkSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const BINARY = process.env.SETTLEBROOK_BINARY;
export const IS_ROOT = process.getuid() === 0;
/** Nothing that takes longer than this is waited for. */
const LONGEST = 120_000;

export const sleep = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** An empty folder that anybody may pass through, removed at the end of the drill. */
export function folder(drill) {
  const path = mkdtempSync(join(tmpdir(), 'sb-drill-'));
  chmodSync(path, 0o755);
  drill.atEnd(() => rmSync(path, { recursive: true, force: true }));
  return path;
}

export function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject).listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** The environment of a person who has configured nothing. */
export function plainEnvironment(more = {}) {
  const kept = Object.entries(process.env).filter(([name]) => !/^(SETTLEBROOK_|DATABASE_URL|PG)/.test(name));
  return { ...Object.fromEntries(kept), ...more };
}

/** A program that was started and may be asked, killed and waited for. */
export class Service {
  /** `through` is a command line that runs the program's, such as one that changes the user. */
  static async start(drill, words, { port, through = [], env = {}, program = BINARY } = {}) {
    port ??= await freePort();
    const [command, ...rest] = [...through, program, ...words, '--listen', `127.0.0.1:${port}`];
    const child = spawn(command, rest, { env: plainEnvironment(env), stdio: ['ignore', 'pipe', 'pipe'] });
    const service = new Service(child, port);
    drill.atEnd(() => service.kill());
    return service;
  }

  constructor(child, port) {
    Object.assign(this, { child, port, base: `http://localhost:${port}`, said: '' });
    for (const pipe of [child.stdout, child.stderr]) pipe.on('data', (piece) => (this.said += piece));
    this.ended = new Promise((resolve) => child.once('close', (status, signal) => resolve(signal ?? status)));
  }

  get isGone() {
    return this.child.exitCode !== null || this.child.signalCode !== null;
  }

  /** Waits until it answers that it can serve. */
  async ready() {
    for (const begun = Date.now(); Date.now() - begun < LONGEST; await sleep(50)) {
      if (this.isGone) throw new Error(`it stopped with ${await this.ended}:\n${this.said}`);
      if (await fetch(`${this.base}/readyz`).then((answer) => answer.ok, () => false)) return this;
    }
    throw new Error(`it was not ready in time:\n${this.said}`);
  }

  /** Ends it as the kernel does when memory runs out. */
  async kill() {
    if (!this.isGone) this.child.kill('SIGKILL');
    await this.ended;
  }

  /** Ends it as a person does, and gives its exit status. */
  async stop(signal = 'SIGTERM') {
    this.child.kill(signal);
    return this.ended;
  }
}

/** What the private database in `data` answers to a query, as its superuser, in rows of text. */
export function ask(data, query) {
  const words = ['-X', '-q', '-A', '-t', '-v', 'ON_ERROR_STOP=1', '-h', join(data, 'demo/postgres/run'), '-U', 'postgres'];
  const asked = spawnSync(process.env.PSQL, [...words, '-d', 'settlebrook'], { input: query, encoding: 'utf8' });
  if (asked.status !== 0) throw new Error(`psql: ${asked.stderr}`);
  return asked.stdout.split('\n').filter((row) => row !== '');
}

/** One lasting connection to the private database in `data`, as its superuser: on a full disk none can be opened. `say` gives what was
    answered once the query is done, or the connection lost. */
export function connected(data) {
  const words = ['-X', '-q', '-A', '-t', '-h', join(data, 'demo/postgres/run'), '-U', 'postgres', '-d', 'settlebrook'];
  const psql = spawn(process.env.PSQL, words, { stdio: ['pipe', 'pipe', 'ignore'] });
  let [heard, lost] = ['', false];
  const listeners = new Set();
  psql.stdout.on('data', (text) => { heard += text; listeners.forEach((one) => one()); });
  psql.on('close', () => { lost = true; listeners.forEach((one) => one()); });
  psql.stdin.on('error', () => {});
  return {
    say: (query) => new Promise((resolve) => {
      const from = heard.length;
      const done = () => {
        if (!lost && !heard.slice(from).includes('said and done')) return;
        listeners.delete(done);
        resolve(heard.slice(from));
      };
      listeners.add(done);
      psql.stdin.write(`${query}\n\\echo said and done\n`);
      done();
    }),
    end: () => new Promise((resolve) => {
      if (lost) resolve();
      psql.on('close', resolve);
      psql.kill('SIGKILL');
    }),
  };
}

/** The number of the private database's first process, or null. */
export function postmaster(data) {
  try {
    return Number(readFileSync(join(data, 'demo/postgres/data/postmaster.pid'), 'utf8').split('\n')[0]);
  } catch {
    return null;
  }
}

/** What still runs out of `data`: there must be nothing after a stop. By the folder that it works in, since the database's
 * processes rename themselves, or by its command line. */
export function leftRunning(data) {
  const about = (pid) => {
    try {
      return `${readlinkSync(`/proc/${pid}/cwd`)} ${readFileSync(`/proc/${pid}/cmdline`, 'utf8')}`;
    } catch {
      return ''; // ended meanwhile, or another person's
    }
  };
  const pids = readdirSync('/proc').filter((name) => /^\d+$/.test(name) && Number(name) !== process.pid);
  return pids.filter((pid) => about(pid).includes(data));
}
