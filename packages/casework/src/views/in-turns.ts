import { setImmediate } from 'node:timers/promises';

/** So many at a stretch take some tens of milliseconds. */
const STRETCH = 250;

/** Works through a long list without holding up what else this process has to answer. */
export async function inTurns<Item, Made>(
  items: readonly Item[],
  work: (item: Item) => readonly Made[],
): Promise<Made[]> {
  const made: Made[] = [];
  for (const [at, item] of items.entries()) {
    if (at > 0 && at % STRETCH === 0) await setImmediate();
    made.push(...work(item));
  }
  return made;
}
