// An owner's passkey: made on the phone that a link signed in, used after signing out, refused once it is removed.
// Chromium's virtual authenticator stands in for the phone's lock.
import assert from 'node:assert/strict';
import { serve, Visitor } from './harness.mjs';
import { during, setUp } from './steps.mjs';

/** Gives the visitor's page a phone's lock that always opens. */
async function unlock(visitor) {
  const devTools = await visitor.context.newCDPSession(visitor.page);
  await devTools.send('WebAuthn.enable');
  const options = {
    protocol: 'ctap2', transport: 'internal', hasResidentKey: true, hasUserVerification: true, isUserVerified: true,
    automaticPresenceSimulation: false,
  };
  const { authenticatorId } = await devTools.send('WebAuthn.addVirtualAuthenticator', { options });
  /** The finger on the sensor: nothing is answered before it. */
  return (on) => devTools.send('WebAuthn.setAutomaticPresenceSimulation', { authenticatorId, enabled: on });
}

/** A household with a dog and an owner; gives the owner's link. */
async function linkOfAnOwner(lead) {
  await lead.open('/households/new');
  await lead.fill({ Name: 'Okoro' });
  await lead.press('Add the household');
  await lead.follow('Add an owner');
  await lead.fill({ Name: 'Ada Okoro' });
  await lead.press('Add and make the link');
  return new URL(await lead.page.locator('.link-out').inputValue()).pathname;
}

async function journey(shape) {
  await during(serve, async (service) => {
    const lead = await Visitor.arrive(service, { shape: 'desk' });
    await setUp(lead, service.newPractice());
    const link = await linkOfAnOwner(lead);

    const ada = await Visitor.arrive(service, { shape });
    const finger = await unlock(ada);
    await ada.open(link);
    await ada.press('Sign in as Ada Okoro');
    await ada.open('/account');
    await ada.look('account-without-passkeys');
    await finger(true);
    await ada.press('Add a passkey on this device');
    await ada.fill({ Name: 'Ada’s own phone' });
    await ada.look('passkey-added');
    await ada.press('Save the name');
    assert.ok(await ada.page.getByText('Ada’s own phone').first().isVisible());
    await ada.look('account-with-a-passkey');

    await finger(false);
    await ada.press('Sign out');
    await ada.page.getByRole('button', { name: 'Use a passkey' }).waitFor();
    await ada.look('sign-in-with-passkeys');
    await finger(true);
    await ada.press('Use a passkey');
    assert.equal(new URL(ada.page.url()).pathname, '/today');

    await ada.open('/account');
    await ada.leave(ada.page.getByRole('link', { name: 'Remove the passkey Ada’s own phone' }));
    await ada.look('passkey-remove');
    await ada.press('Remove the passkey');
    await finger(false);
    await ada.press('Sign out');
    await finger(true);
    ada.expects(422);
    await ada.page.getByRole('button', { name: 'Use a passkey' }).click();
    await ada.page.getByText('This passkey was not taken').waitFor();
    await ada.look('passkey-refused');
    assert.equal(new URL(ada.page.url()).pathname, '/sign-in');
  });
}

async function withoutJavaScript() {
  await during(serve, async (service) => {
    const lead = await Visitor.arrive(service, { shape: 'phone', javaScript: false });
    await setUp(lead, service.newPractice());
    await lead.open('/account');
    assert.ok(await lead.page.getByText('Adding a passkey needs JavaScript').isVisible());
    assert.equal(await lead.page.getByRole('button', { name: 'Add a passkey on this device' }).count(), 0);
  });
}

export default {
  'on a phone': () => journey('phone'),
  'on a desk': () => journey('desk'),
  'without JavaScript': withoutJavaScript,
};
