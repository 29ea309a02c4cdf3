// The invented practice, its lead signed in, and a client that reads our forms and sends them.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ask, sleep } from './service.mjs';

const unescape = (text) =>
  text.replace(/&#(\d+);/g, (_, code) => String.fromCodePoint(code)).replace(/&quot;/g, '"').replace(/&amp;/g, '&');

/** The fields of the form whose action is `action`, as a browser would send it untouched. */
export function fieldsOf(html, action) {
  const forms = html.match(/<form\b[^>]*>[\s\S]*?<\/form>/g) ?? [];
  const form = forms.find((one) => unescape(one.match(/action="([^"]*)"/)?.[1] ?? '') === action);
  if (!form) throw new Error(`there is no form for ${action}`);
  const fields = {};
  for (const [tag] of form.matchAll(/<input\b[^>]*>/g)) {
    const of = (name) => unescape(tag.match(new RegExp(`\\b${name}="([^"]*)"`))?.[1] ?? '');
    const off = ['radio', 'checkbox'].includes(of('type')) && !/\bchecked\b/.test(tag);
    if (of('name') && !off) fields[of('name')] = of('value');
  }
  return fields;
}

/** Somebody with a cookie. */
export class Client {
  constructor(base) {
    Object.assign(this, { base, cookie: '' });
  }

  async ask(path, fields, { signal } = {}) {
    const headers = { cookie: this.cookie };
    const how = { headers, redirect: 'manual', signal: signal ?? AbortSignal.timeout(30_000) };
    if (fields) {
      Object.assign(how, { method: 'POST', body: new URLSearchParams(fields) });
      headers['sec-fetch-site'] = 'same-origin';
      headers.origin = this.base;
    }
    const answer = await fetch(this.base + path, how);
    const cookie = answer.headers.getSetCookie().map((one) => one.split(';')[0]).find((one) => !one.endsWith('='));
    if (cookie) this.cookie = cookie;
    return { status: answer.status, location: answer.headers.get('location'), body: await answer.text() };
  }
}

/** The lead of the invented practice kept in `data`, signed in. */
export async function lead(service, data) {
  const [email, password] = readFileSync(join(data, 'demo/demo-passwords'), 'utf8').split('\n')[0].split(' ');
  const client = new Client(service.base);
  const answer = await client.ask('/sign-in', { email, password });
  if (answer.status !== 303) throw new Error(`signing in answered ${answer.status}`);
  return client;
}

/** What is kept of every dog, row by row. */
const kept = (data) => ask(data, `
  select 'summary ' || t::text from dog_summary t union all select 'day ' || t::text from dog_day t
  union all select 'readiness ' || t::text from readiness t order by 1`);

/** Presses the lead's button until every dog's records were compared with a rebuild; fails, showing the rows, where one
 * differed. Gives how many dogs were looked at. */
export async function checkRecords(client, data) {
  const before = kept(data);
  let after = {};
  const found = { dogs: 0, mended: 0 };
  for (;;) {
    const { status, body } = await client.ask('/practice/records', after);
    if (status !== 200) throw new Error(`checking the records answered ${status}`);
    const [, dogs] = body.match(/(\d+) dogs? checked/) ?? [];
    const mended = /Everything agrees/.test(body) ? 0 : body.match(/(\d+) did not agree/)?.[1];
    if (dogs === undefined || mended === undefined) throw new Error(`the check says something else:\n${body}`);
    found.dogs += Number(dogs);
    found.mended += Number(mended);
    after = fieldsOf(body, '/practice/records');
    if (after.after) continue;
    const now = kept(data);
    const was = before.filter((row) => !now.includes(row));
    const is = now.filter((row) => !before.includes(row));
    assert.equal(found.mended + is.length, 0, `kept:\n${was.join('\n')}\nbuilt anew:\n${is.join('\n')}`);
    return found.dogs;
  }
}

/** An owner of the invented practice, signed in by the first link that it printed, and the dog they write about. */
export async function owner(service) {
  const path = service.said.match(/\/l\/[\w-]+/)[0];
  const client = new Client(service.base);
  const page = await client.ask(path);
  const answer = await client.ask(path, fieldsOf(page.body, path));
  if (answer.status !== 303) throw new Error(`opening the link answered ${answer.status}`);
  return client;
}

/** Dogs with a plan, and the form that logs one counted exercise of each, `most` of them. */
export async function logForms(client, most) {
  const { body } = await client.ask('/caseload');
  const dogs = [...new Set([...body.matchAll(/\/dogs\/([0-9a-f-]{36})/g)].map(([, dog]) => dog))];
  const forms = [];
  for (const dog of dogs) {
    const choice = await client.ask(`/dogs/${dog}/log/new`);
    for (const [, item] of choice.body.matchAll(/log\/new\?item=([0-9a-f-]{36})/g)) {
      const page = await client.ask(`/dogs/${dog}/log/new?item=${item}`);
      if (!/name="left"/.test(page.body)) continue;
      forms.push({ dog, path: `/dogs/${dog}/log`, fields: fieldsOf(page.body, `/dogs/${dog}/log`) });
      break;
    }
    if (forms.length === most) break;
  }
  if (forms.length === 0) throw new Error('no dog of the invented practice has a counted exercise');
  return forms;
}

/** A log as a form sends it: ten pieces put out, `left` left. */
export const log = (form, id, left) => ({
  ...form.fields, id, attempts: '10', left: String(left), clip: 'harness_back', note: `drill ${id}`,
});

/** Asks again until the service answers at all. */
export async function patiently(client, path, fields, tries = 60) {
  for (let time = 1; ; time += 1) {
    const answer = await client.ask(path, fields).catch((error) => ({ status: 0, body: String(error) }));
    if ((answer.status !== 0 && answer.status !== 503) || time === tries) return answer;
    await sleep(100);
  }
}
