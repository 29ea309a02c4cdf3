// Every page that somebody of each role can reach, in the invented practice: phone and desk, light and dark, sound,
// accessible, and pictured under target/screens. Pages are found by following links, one of each kind.
import assert from 'node:assert/strict';
import { demo, ROLES, SHAPES, signedInAs, Visitor } from './harness.mjs';
import { during } from './steps.mjs';

const ID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
/** Fewer kinds than this were once found: then links have gone missing. */
const AT_LEAST = { visitor: 1, owner: 22, lead: 82 };

/** The kind of page that a path leads to: ids and most of the query left out. */
function kind(path) {
  const { pathname } = new URL(path, 'http://localhost');
  return pathname.replaceAll(ID, '{id}');
}

/** A name for the picture. */
const named = (path) => kind(path).replaceAll('{id}', '').split('/').filter(Boolean).join('-') || 'first-page';

/** Paths of our own that the open page links to. */
function links(page) {
  return page.$$eval('a[href^="/"]:not([download])', (all) => all.map((a) => a.getAttribute('href').split('#')[0]));
}

const START = { visitor: '/sign-in', lead: '/caseload?show=everyone', owner: '/today' };

const reached = {};

/** One path of every kind that somebody of a role can reach, looked for once. */
function pathsOf(role, service) {
  reached[role] ??= (async () => {
    const visitor = await Visitor.arrive(service, { shape: 'desk', state: await signedInAs(role, service) });
    const paths = await reach(visitor, START[role]);
    await visitor.close();
    return paths;
  })();
  return reached[role];
}

/** One path of every kind that can be reached from `start`. */
async function reach(visitor, start) {
  const found = new Map([[kind(start), start]]);
  for (const path of found.values()) {
    await visitor.page.goto(path);
    for (const next of await links(visitor.page)) {
      if (!found.has(kind(next)) && !next.startsWith('/static/')) found.set(kind(next), next);
    }
  }
  return [...found.values()];
}

/** Looks at everything of one role in one shape; gives what is not right. */
async function walk(service, role, shape) {
  const state = await signedInAs(role, service);
  const paths = await pathsOf(role, service);
  const wrong = [];
  if (paths.length < AT_LEAST[role]) wrong.push(`${role}: only ${paths.length} kinds of pages: ${paths.map(kind)}`);
  const visitor = await Visitor.arrive(service, { shape, state });
  for (const path of paths) {
    try {
      await visitor.page.goto(path);
      await visitor.look(`${role}-${named(path)}`);
    } catch (error) {
      wrong.push(`${role}, ${shape}, ${path}: ${error.message}`);
      visitor.complaints.length = 0;
    }
  }
  await visitor.close();
  console.log(`     ${role}: ${paths.length} kinds of pages`);
  return wrong;
}

async function everyPage(role, shape) {
  await during(demo, async (service) => {
    const wrong = await walk(service, role, shape);
    assert.equal(wrong.length, 0, `${wrong.length} pages are not right:\n${wrong.join('\n')}`);
  });
}

// a test for each, so that they can run side by side
export default Object.fromEntries(ROLES.flatMap((role) => Object.keys(SHAPES).map((shape) => (
  [`of the ${role}, ${shape}`, () => everyPage(role, shape)]
))));
