/**
 * The demo: a contractor, places and figures of our own invention, made through the same commands as real work. The
 * office's clock is set to each moment of the story, so that what a person reads was written down when it happened.
 */
import { raisePrices, setPrices } from './prices.ts';
import { repairedRack } from './rack.ts';
import { givePapers, registerThings } from './stock.ts';
import type { Staff, Things } from './stock.ts';
import { missedClock, quietOnes } from './stories.ts';
import { Teller } from './teller.ts';
import type { Stage } from './teller.ts';

export { DEMO_ZONE } from './teller.ts';

/** Fills an empty contractor with the first stories. Gives what others may go on from. */
export async function seedDemo(stage: Stage): Promise<Staff & Things> {
  const tell = new Teller(stage);
  stage.step('demo: people and certificates');
  const people = await givePapers(tell);
  stage.step('demo: what gas costs');
  await setPrices(tell);
  stage.step('demo: cylinders and instruments');
  const cylinders = await registerThings(tell);
  await raisePrices(tell);
  stage.step('demo: a rack short of gas again, repaired three days ago');
  await repairedRack(tell, { ...people, ...cylinders });
  stage.step('demo: a cold room whose clock has run out');
  await missedClock(tell, { ...people, ...cylinders });
  stage.step('demo: a chiller in order, and two calls of today');
  await quietOnes(tell, people);
  return { ...people, ...cylinders };
}
