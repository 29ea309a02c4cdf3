// The invented practice, started for a measure and taken away after it.
import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A port that nobody listens on. */
const freePort = () => new Promise((resolve) => {
  const probe = createServer().listen(0, '127.0.0.1', () => {
    const { port } = probe.address();
    probe.close(() => resolve(port));
  });
});

/** Starts `binary` and gives its address, what it printed, a folder for what is written meanwhile, and how to stop it. */
export async function demo(binary) {
  const port = await freePort();
  const base = `http://localhost:${port}`;
  const folder = mkdtempSync(join(tmpdir(), 'settlebrook-bench-'));
  chmodSync(folder, 0o755);
  const words = ['demo', '--data-dir', join(folder, 'data'), '--listen', `127.0.0.1:${port}`];
  const service = spawn(binary, words, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  service.stdout.on('data', (piece) => (said += piece));
  service.stderr.on('data', (piece) => (said += piece));
  const ended = new Promise((resolve) => service.once('exit', resolve));
  const stop = async () => {
    service.kill('SIGTERM');
    await ended;
    rmSync(folder, { recursive: true, force: true });
  };
  for (let tries = 0; tries < 1200; tries += 1) {
    if (service.exitCode !== null) throw new Error(said);
    if (await fetch(`${base}/readyz`).then((answer) => answer.ok, () => false)) return { base, folder, said, stop };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await stop();
  throw new Error(`not ready:\n${said}`);
}

/** What a form of our own pages is sent with. */
export const fromOurPage = (base) => ({ origin: base, 'content-type': 'application/x-www-form-urlencoded', 'sec-fetch-site': 'same-origin' });

/** The cookie that a sign-in answered with. */
export function cookieOf(answer) {
  const cookie = answer.headers.getSetCookie().map((one) => one.split(';')[0]).join('; ');
  if (answer.status !== 303 || !cookie) throw new Error(`not signed in: ${answer.status}`);
  return cookie;
}

/** The middle one of numbers. */
export const median = (numbers) => numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)];
