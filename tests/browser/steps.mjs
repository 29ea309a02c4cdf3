// What several journeys do on their way.
import { PASSWORD } from './harness.mjs';

/** Sets a practice up by its one-time link; the visitor is then its lead trainer. */
export async function setUp(visitor, link, { practice = 'Heath and Hollow', email = 'ada@example.org' } = {}) {
  await visitor.open(link);
  await visitor.fill({
    'Name of the practice': practice,
    'Your name': 'Ada Fell',
    'Your e-mail address': email,
    Password: PASSWORD,
  });
  return visitor.press('Set up the practice');
}

/** Signs in with the address and password that a journey gave somebody. */
export async function signIn(visitor, email, password = PASSWORD) {
  await visitor.open('/sign-in');
  await visitor.fill({ 'E-mail address': email, Password: password });
  return visitor.press('Sign in');
}

/** Runs a test with a service, a visitor for each way, and everything closed afterwards. */
export async function during(start, test) {
  const service = await start();
  try {
    await test(service);
  } finally {
    await service.stop();
  }
}
