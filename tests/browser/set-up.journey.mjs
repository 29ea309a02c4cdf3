// From the link that was printed at the start to a lead trainer's first page, and back in by password.
import assert from 'node:assert/strict';
import { inWords, PASSWORD, serve, Visitor, WAYS } from './harness.mjs';
import { during, setUp, signIn } from './steps.mjs';

async function journey(way) {
  await during(serve, async (service) => {
    const lead = await Visitor.arrive(service, way);
    const link = service.newPractice();
    await lead.open(link);
    await lead.look('set-up');

    lead.expects(422);
    await lead.fill({ 'Your e-mail address': 'ada@example.org', Password: 'too short' });
    await lead.press('Set up the practice');
    assert.equal(await lead.page.getByLabel('Your e-mail address', { exact: true }).inputValue(), 'ada@example.org');
    assert.equal(await lead.page.getByLabel('Password', { exact: true }).inputValue(), '');
    await lead.look('set-up-errors');
    if (way.javaScript) {
      const focused = await lead.page.evaluate(() => document.activeElement?.hasAttribute('data-error-summary'));
      assert.ok(focused, 'the summary of errors has the focus');
    }

    lead.expects();
    await setUp(lead, link);
    assert.equal(new URL(lead.page.url()).pathname, '/caseload');

    const again = await Visitor.arrive(service, way);
    again.expects(404);
    await again.open(link);
    await again.look('nothing-here');
    again.expects(422);
    await signIn(again, 'ada@example.org', `${PASSWORD}?`);
    await again.look('sign-in-errors');
    again.expects();
    await signIn(again, 'ada@example.org');
    assert.equal(new URL(again.page.url()).pathname, '/caseload');
  });
}

export default Object.fromEntries(WAYS.map((way) => [inWords(way), () => journey(way)]));
