// Every page of everybody, phone and desk, light and dark: sound, accessible, and pictured under target/screens.
import { serve, SHAPES, Visitor } from './harness.mjs';
import { during, setUp } from './steps.mjs';

/** The pages of each role: a name for the picture, and the path. */
const PAGES = {
  visitor: [
    ['sign-in', '/sign-in'],
  ],
  lead: [
    ['first-page', '/'],
  ],
};

/** How somebody of each role comes to be signed in: by a visitor who then is them. */
const ARRIVALS = {
  visitor: async () => {},
  lead: async (visitor, service) => setUp(visitor, service.newPractice()),
};

async function walk(role) {
  await during(serve, async (service) => {
    const first = await Visitor.arrive(service, { shape: 'desk' });
    await ARRIVALS[role](first, service);
    const state = await first.state();
    await first.close();
    for (const shape of Object.keys(SHAPES)) {
      const visitor = await Visitor.arrive(service, { shape, state });
      for (const [name, path] of PAGES[role]) {
        await visitor.open(path);
        await visitor.look(`${role}-${name}`);
      }
      await visitor.close();
    }
  });
}

export default Object.fromEntries(Object.keys(PAGES).map((role) => [role, () => walk(role)]));
