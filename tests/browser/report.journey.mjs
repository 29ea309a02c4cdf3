// A report: composed, edited, issued and shared by a trainer; opened and printed by somebody who has nothing but the link.
import assert from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { demo, SHAPES, signedInAs, Visitor } from './harness.mjs';
import { during } from './steps.mjs';

/** Width and height in points, 72 to the inch. */
const SIZES = { a4: [595, 842], letter: [612, 792] };
/** The most pages that four weeks take. */
const SHORT = 4;

/** Prints the page that is open; gives the sizes of its pages in points. */
async function print(visitor, name) {
  const pdf = await visitor.page.pdf({ preferCSSPageSize: true, printBackground: false });
  if (process.env.SCREENS) {
    mkdirSync(process.env.SCREENS, { recursive: true });
    writeFileSync(join(process.env.SCREENS, `${name}.pdf`), pdf);
  }
  const boxes = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)];
  return boxes.map(([, width, height]) => [Math.round(Number(width)), Math.round(Number(height))]);
}

/** What is on the paper beside the report. */
function besides(page) {
  return page.evaluate(() => [...document.querySelectorAll('body > header, nav, footer, form, aside, .button, .horizon')]
    .filter((one) => one.checkVisibility() && one.getClientRects().length > 0).map((one) => one.outerHTML.slice(0, 60)));
}

async function journey() {
  await during(demo, async (service) => {
    const lead = await Visitor.arrive(service, { shape: 'desk', state: await signedInAs('lead', service) });
    await lead.open('/caseload?show=everyone');
    await lead.page.locator('main .row-who a').first().click();
    await lead.page.waitForLoadState();
    const dog = new URL(lead.page.url()).pathname;
    await lead.open(`${dog}/reports`);
    await lead.look('report-list');
    await lead.page.getByLabel('Progress report').check();
    await lead.press('Compose a draft');
    await lead.look('report-draft');
    await lead.fill({ 'What else matters': 'Written in a browser.\n- and a point' });
    await lead.press('Save, and read it');
    await lead.look('report-read');
    await lead.press('Issue the report');
    await lead.page.getByText('Issued. It stays as you read it here.').waitFor();
    const report = new URL(lead.page.url()).pathname;
    await lead.look('report-issued');
    for (const [size, points] of Object.entries(SIZES)) {
      await lead.open(`${report}?size=${size}`);
      const printed = await print(lead, `report-${size}`);
      assert.ok(printed.length > 0 && printed.length <= SHORT, `${size}: ${printed.length} pages`);
      assert.ok(printed.every(([width, height]) => Math.abs(width - points[0]) <= 1 && Math.abs(height - points[1]) <= 1), `${size}: ${JSON.stringify(printed)}`);
      await lead.page.emulateMedia({ media: 'print' });
      assert.deepEqual(await besides(lead.page), [], size);
      await lead.page.emulateMedia({ media: null });
    }
    await lead.open(report);
    await lead.fill({ 'For whom': 'Beckside surgery' });
    await lead.press('Make the link');
    await lead.look('report-link-made');
    const link = new URL(await lead.page.locator('.link-out').inputValue()).pathname;
    for (const shape of Object.keys(SHAPES)) {
      const vet = await Visitor.arrive(service, { shape });
      await vet.open(link);
      await vet.look('report-link');
      await vet.press('Open the report');
      await vet.page.getByText('Written in a browser.').waitFor();
      await vet.look('report-opened');
      await vet.page.emulateMedia({ media: 'print' });
      assert.deepEqual(await besides(vet.page), [], 'by the link');
      await vet.close();
    }
    await lead.open(report);
    await lead.page.getByText(`Opened ${Object.keys(SHAPES).length} times`).waitFor();
    await lead.look('report-shared');
    await lead.close();
  });
}

export default { 'a report is issued, shared and read': journey };
