// The plan on paper: printed in both layouts on both sizes, the right number of pages of the right size, and nothing on
// them that runs over the edge. The PDFs are kept beside the pictures.
import assert from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { demo, signedInAs, Visitor } from './harness.mjs';
import { during } from './steps.mjs';

/** Width and height in points, 72 to the inch. */
const SIZES = { a4: [595, 842], letter: [612, 792] };
const LAYOUTS = ['pages', 'sheet'];
/** The most pages that a compact sheet takes for the demonstration's plans. */
const SHORT = 3;

/** The sizes of a PDF's pages in points, from their media boxes. */
function pages(pdf) {
  const boxes = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)];
  return boxes.map(([, width, height]) => [Math.round(Number(width)), Math.round(Number(height))]);
}

/** Prints the page that is open as it says it wants to be printed. */
async function print(visitor, name) {
  const pdf = await visitor.page.pdf({ preferCSSPageSize: true, printBackground: false });
  if (process.env.SCREENS) {
    mkdirSync(process.env.SCREENS, { recursive: true });
    writeFileSync(join(process.env.SCREENS, `${name}.pdf`), pdf);
  }
  return pages(pdf);
}

/** What is on the page but not on the paper, and what runs over its width. */
function misprints(page, width) {
  return page.evaluate((limit) => {
    const seen = (element) => element.checkVisibility() && element.getClientRects().length > 0;
    const kept = [...document.querySelectorAll('header, nav, footer, form, .button')].filter(seen).map((e) => e.outerHTML.slice(0, 60));
    const wide = [...document.querySelectorAll('.handout *')].filter((e) => seen(e) && !e.matches('.visually-hidden') && e.getBoundingClientRect().right > limit + 1);
    return [...kept, ...wide.map((e) => `over the edge: ${e.outerHTML.slice(0, 60)}`)];
  }, width);
}

async function onPaper(visitor, path, name) {
  for (const layout of LAYOUTS) {
    for (const [size, points] of Object.entries(SIZES)) {
      await visitor.open(`${path}?layout=${layout}&size=${size}`);
      const exercises = await visitor.page.locator('.handout.pages .leaf:not(.first)').count();
      const printed = await print(visitor, `${name}-${layout}-${size}`);
      const here = `${name}, ${layout}, ${size}: ${JSON.stringify(printed)}`;
      assert.ok(printed.every(([width, height]) => Math.abs(width - points[0]) <= 1 && Math.abs(height - points[1]) <= 1), here);
      if (layout === 'sheet') assert.ok(printed.length <= SHORT, here);
      // the first leaf may need a second page where much holds all the time
      else assert.ok(printed.length > exercises && printed.length <= exercises + 2, `${here} for ${exercises} exercises`);
      await visitor.page.emulateMedia({ media: 'print' });
      const usual = visitor.page.viewportSize();
      const width = Math.round((points[0] / 72 - 30 / 25.4) * 96);
      await visitor.page.setViewportSize({ width, height: 1000 });
      assert.deepEqual(await misprints(visitor.page, width), [], here);
      await visitor.page.setViewportSize(usual);
      await visitor.page.emulateMedia({ media: null });
    }
  }
}

async function journey() {
  await during(demo, async (service) => {
    const owner = await Visitor.arrive(service, { shape: 'phone', state: await signedInAs('owner', service) });
    await owner.open('/plan');
    await owner.follow('Print the plan');
    await owner.look('owner-handout');
    await onPaper(owner, new URL(owner.page.url()).pathname, 'handout-owner');

    const lead = await Visitor.arrive(service, { shape: 'desk', state: await signedInAs('lead', service) });
    await lead.open('/caseload?show=everyone');
    await lead.page.locator('main .row-who a').first().click();
    await lead.page.waitForLoadState();
    const dog = new URL(lead.page.url()).pathname;
    await lead.open(`${dog}/plan`);
    await lead.follow('Print the plan');
    await onPaper(lead, `${dog}/plan/handout`, 'handout-lead');
  });
}

export default { 'a plan is printed on both sizes': journey };
