// What journeys stand on: the service with a database of its own, a browser in the shape of a phone or a desk, and
// the checks that every page they open must pass.
import { execFileSync, spawn } from 'node:child_process';
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, chmodSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { tmpdir } from 'node:os';
import { chromium } from 'playwright-core';
import { AxeBuilder } from '@axe-core/playwright';

const BINARY = process.env.SETTLEBROOK_BINARY;
const SOCKET = process.env.SETTLEBROOK_TEST_POSTGRES;
const PSQL = process.env.PSQL ?? 'psql';
const SCREENS = process.env.SCREENS;

/** The two shapes in which every page is looked at. */
export const SHAPES = { phone: { width: 390, height: 844 }, desk: { width: 1280, height: 900 } };
/** The narrowest screen on which nothing may scroll sideways. */
const NARROWEST = 320;
/** A password that is long enough and that a journey may use for anybody. */
export const PASSWORD = 'wet slate under bracken';

const FLAGS = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync',
];

/** Everything that axe knows, and what it knows of contrast alone. */
const EVERY_RULE = (page) => new AxeBuilder({ page })
  .options({ rules: { 'target-size': { enabled: true } } })
  .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']);
const CONTRAST = (page) => new AxeBuilder({ page }).withRules(['color-contrast']);

let running;
let databases = 0;

/** The one browser of a run. */
export async function browser() {
  running ??= await chromium.launch({ executablePath: process.env.CHROMIUM, headless: true, args: FLAGS });
  return running;
}

/** Closes the browser, and ends what all journeys shared. */
export async function closeBrowser() {
  await running?.close();
  running = undefined;
  await (await invented)?.stop();
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject).listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

function onServer(...statements) {
  const words = statements.flatMap((statement) => ['-c', statement]);
  execFileSync(PSQL, ['-X', '-q', '-h', SOCKET, '-U', 'postgres', '-d', 'postgres', ...words], { stdio: 'pipe' });
}

const url = (role, database) => `postgres:///${database}?host=${encodeURIComponent(SOCKET)}&user=${role}`;

/** Starts the binary, waits until it is ready, and gives its address, what it has said, and how to stop it. */
async function start(words, env, clean) {
  const port = await freePort();
  const base = `http://localhost:${port}`;
  const options = { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'pipe'] };
  const program = spawn(BINARY, [...words, '--listen', `127.0.0.1:${port}`], options);
  let said = '';
  program.stdout.on('data', (piece) => (said += piece));
  program.stderr.on('data', (piece) => (said += piece));
  const ended = new Promise((resolve) => program.once('exit', resolve));
  const stop = async () => {
    program.kill('SIGTERM');
    await ended;
    clean();
  };
  for (let tries = 0; tries < 600; tries += 1) {
    if (program.exitCode !== null) {
      clean();
      throw new Error(`the service stopped with ${program.exitCode}:\n${said}`);
    }
    if (await fetch(`${base}/readyz`).then((answer) => answer.ok, () => false)) {
      return { base, said: () => said, stop };
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await stop();
  throw new Error(`the service was not ready within a minute:\n${said}`);
}

/** The service with an empty database of its own. `newPractice()` gives a set-up link. */
export async function serve() {
  databases += 1;
  const database = `journey_${process.pid}_${databases}_${Date.now()}`;
  onServer(`create database ${database} owner settlebrook_owner template template0`);
  const env = {
    DATABASE_URL: url('settlebrook_app', database),
    SETTLEBROOK_OWNER_URL: url('settlebrook_owner', database),
  };
  const clean = () => onServer(`drop database if exists ${database} with (force)`);
  const service = await start(['serve'], env, clean);
  const newPractice = () => {
    const options = { env: { ...process.env, ...env }, encoding: 'utf8' };
    const said = execFileSync(BINARY, ['new-practice', '--base-url', service.base], options);
    const link = said.match(/\/set-up\/[\w-]{43}/);
    assert.ok(link, `no set-up link in: ${said}`);
    return link[0];
  };
  return { ...service, newPractice, database };
}

/** Does something to the database of a service that `serve` started that no page does. */
export function say(service, statement) {
  const words = ['-X', '-q', '-v', 'ON_ERROR_STOP=1', '-h', SOCKET, '-U', 'postgres', '-d', service.database, '-c', statement];
  execFileSync(PSQL, words, { stdio: 'pipe' });
}

/** What a query counts in the database of a service that `serve` started. */
export function counted(service, query) {
  const words = ['-X', '-q', '-A', '-t', '-h', SOCKET, '-U', 'postgres', '-d', service.database, '-c', query];
  return Number(execFileSync(PSQL, words, { encoding: 'utf8' }).trim());
}

let invented;
const arrived = {};

/** The invented practice, in a folder that goes at the end: loaded once, for journeys that only read. */
export async function demo() {
  invented ??= (async () => {
    const folder = mkdtempSync(join(tmpdir(), 'settlebrook-demo-'));
    chmodSync(folder, 0o755);
    return start(['demo', '--data-dir', folder], {}, () => rmSync(folder, { recursive: true, force: true }));
  })();
  return { ...(await invented), stop: async () => {} };
}

/** How somebody of each role comes to be signed in, from what the demo printed. */
const ARRIVALS = {
  visitor: async () => {},
  lead: async (visitor, said) => {
    const [, email, password] = said.match(/lead trainer\s+(\S+@\S+)\s+(\S+)/);
    await visitor.open('/sign-in');
    await visitor.fill({ 'E-mail address': email, Password: password });
    await visitor.press('Sign in');
  },
  owner: async (visitor, said) => {
    const links = [...said.matchAll(/\/l\/[\w-]{43}/g)].map(([link]) => link);
    await visitor.open(links.at(-1));
    await visitor.leave(visitor.page.locator('main button.main'));
  },
};

/** The roles that one can have in the invented practice; a visitor has none. */
export const ROLES = Object.keys(ARRIVALS);

/** The cookies of somebody of a role in the invented practice, who signs in once: a link works once. */
export function signedInAs(role, service) {
  arrived[role] ??= (async () => {
    const visitor = await Visitor.arrive(service, { shape: 'desk' });
    await ARRIVALS[role](visitor, service.said());
    const state = await visitor.state();
    await visitor.close();
    return state;
  })();
  return arrived[role];
}

/** Somebody with a browser of their own. Everything that their pages complain of is kept in `complaints`. */
export class Visitor {
  static async arrive(service, { shape = 'phone', colours = 'light', javaScript = true, state, serviceWorkers = 'allow' } = {}) {
    const context = await (await browser()).newContext({
      baseURL: service.base,
      viewport: SHAPES[shape],
      colorScheme: colours,
      javaScriptEnabled: javaScript,
      hasTouch: shape === 'phone',
      isMobile: shape === 'phone',
      locale: 'en-GB',
      timezoneId: 'Europe/London',
      reducedMotion: 'reduce',
      storageState: state,
      serviceWorkers,
    });
    context.setDefaultTimeout(20_000);
    return new Visitor(context, await context.newPage(), { shape, colours, javaScript });
  }

  constructor(context, page, how) {
    Object.assign(this, { context, page, ...how, complaints: [], expected: [] });
    page.on('console', (said) => {
      if (['error', 'warning'].includes(said.type())) this.complain(said.text());
    });
    page.on('pageerror', (error) => this.complain(`script: ${error.message}`));
    page.on('requestfailed', (request) => {
      const reason = request.failure()?.errorText;
      if (reason !== 'net::ERR_ABORTED') this.complain(`${request.url()}: ${reason}`);
    });
    page.on('response', (answer) => {
      const status = answer.status();
      if (status >= 400 && !this.expected.includes(status)) this.complain(`${answer.url()} answered ${status}`);
    });
  }

  complain(what) {
    // Chromium also writes every answer of 400 and above to the console; those are judged by their status.
    if (!what.startsWith('Failed to load resource')) this.complaints.push(`${this.page.url()}: ${what}`);
  }

  /** Lets the next pages answer with this status. */
  expects(...statuses) {
    this.expected = statuses;
    return this;
  }

  /** Opens a page and checks it. */
  async open(path) {
    await this.page.goto(path);
    return this.check();
  }

  /** Fills fields by their labels. */
  async fill(values) {
    for (const [label, value] of Object.entries(values)) {
      await this.page.getByLabel(label, { exact: true }).fill(value);
    }
    return this;
  }

  /** Chooses an option by the labels of the field and of the option. */
  async choose(label, option) {
    await this.page.getByLabel(label, { exact: true }).selectOption({ label: option });
    return this;
  }

  /** Presses a button by its name, waits for the page that follows, and checks that. */
  async press(name) {
    return this.leave(this.page.getByRole('button', { name, exact: true }));
  }

  /** Follows a link by its name, and checks where it leads. */
  async follow(name) {
    return this.leave(this.page.getByRole('link', { name, exact: true }).first());
  }

  async leave(way) {
    await Promise.all([this.page.waitForNavigation({ waitUntil: 'load' }), way.click()]);
    return this.check();
  }

  /** The page's one heading. */
  heading() {
    return this.page.locator('h1').innerText();
  }

  /** Fails unless the page that is open is sound: no complaints, nothing for axe to find, nothing to scroll sideways. */
  async check({ narrowed = true } = {}) {
    if (this.javaScript) await this.page.evaluate(() => document.fonts.ready);
    await this.fits(narrowed);
    // Without JavaScript axe cannot run; the same page is judged where it can.
    if (this.javaScript) await this.isAccessible(EVERY_RULE);
    assert.deepEqual(this.complaints, [], 'the page complains');
    return this;
  }

  async fits(narrowed) {
    const usual = this.page.viewportSize();
    for (const width of new Set(narrowed ? [NARROWEST, usual.width] : [usual.width])) {
      await this.page.setViewportSize({ width, height: usual.height });
      const over = await this.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      const widest = over > 0 ? await this.page.evaluate(() => [...document.querySelectorAll('body *')]
        .filter((one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
        .slice(0, 4).map((one) => `${one.cloneNode().outerHTML} “${one.textContent.trim().slice(0, 40)}”`).join(' ')) : '';
      assert.ok(over <= 0, `${this.page.url()} scrolls ${over} px sideways at ${width} px: ${widest}`);
    }
    await this.page.setViewportSize(usual);
  }

  async isAccessible(axe) {
    const { violations } = await axe(this.page).analyze();
    const found = violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id} at ${target}: ${failureSummary}`));
    assert.deepEqual(found, [], `${this.page.url()} is not accessible (${this.colours})`);
  }

  /** Keeps a picture of the page under its name. */
  async picture(name) {
    if (!SCREENS) return this;
    mkdirSync(SCREENS, { recursive: true });
    const path = join(SCREENS, `${name}-${this.shape}-${this.colours}.jpg`);
    await this.page.screenshot({ path, type: 'jpeg', quality: 70, fullPage: true });
    return this;
  }

  /** Checks and pictures the page that is open, in light, and on a phone in dark: the same page, so that only its contrast can
      differ. */
  async look(name) {
    const usual = this.colours;
    for (const colours of this.shape === 'phone' ? ['light', 'dark'] : ['light']) {
      this.colours = colours;
      await this.page.emulateMedia({ colorScheme: colours });
      if (colours === 'light') await this.check();
      else if (this.javaScript) await this.isAccessible(CONTRAST);
      await this.picture(name);
    }
    this.colours = usual;
    await this.page.emulateMedia({ colorScheme: usual });
    return this;
  }

  /** Cookies, to be signed in as the same person in another shape. */
  state() {
    return this.context.storageState();
  }

  async close() {
    await this.context.close();
  }
}

/** The four ways in which a journey must work: phone and desk, with and without JavaScript. */
export const WAYS = ['phone', 'desk'].flatMap((shape) => [true, false].map((javaScript) => ({ shape, javaScript })));

/** A way in words. */
export const inWords = ({ shape, javaScript }) => `${shape}, ${javaScript ? 'with' : 'without'} JavaScript`;
