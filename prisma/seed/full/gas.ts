/** Cylinders on their way to a visit, and what is charged from them. */
import type { On } from './calls.ts';
import { delivery, lbOf } from './stock.ts';
import type { Cylinder, Weighed } from './stock.ts';
import type { Page, Stop } from './studio.ts';

/** Cylinders that a visit needs are bought and brought to the van before the technician sets out. */
export function bring(
  page: Page,
  stop: Stop,
  { cylinders, bought }: { cylinders: Cylinder[]; bought: Cylinder[] },
): void {
  const { studio } = page;
  const { store } = studio.known;
  const van = studio.vans[stop.driver];
  page.go(studio.workdayBefore(stop.offset, 6), 9 * 60 + studio.chance.int(0, 180));
  for (const cylinder of bought) {
    page.wait(2).say('warehouse', 'record-delivery', delivery(cylinder, store));
    cylinder.place = store;
  }
  page.go(studio.workdayBefore(stop.offset, 5), 16 * 60 + 30);
  for (const cylinder of new Set(cylinders)) {
    page.touch(cylinder.id);
    if (cylinder.place === van) continue;
    page.wait(2).say('warehouse', 'hand-over', {
      cylinders: [{ cylinderId: cylinder.id, fromId: cylinder.place ?? null }],
      toId: van,
    });
    cylinder.place = van;
  }
}

/** Draws a weight for the length of a visit. */
export function drawn(page: Page, stop: Stop, weight: number) {
  const { studio } = page;
  const { moments } = studio;
  const from = moments.at(stop.offset, stop.start);
  const until = moments.after(from, stop.minutes);
  return studio.stock.draw({ gas: stop.unit.refrigerant, weight, from, until, place: studio.vans[stop.driver] });
}

/** Charges from one cylinder after the other; the last one reaches full. */
export function charge(page: Page, given: { stop: Stop; on: On; weighed: readonly Weighed[] }): void {
  const { stop, on, weighed } = given;
  weighed.forEach(({ cylinder, before, after }, at) => {
    const full = at === weighed.length - 1 ? 'yes' : 'no';
    page.say(stop.driver, 'record-charge', {
      ...on,
      cylinderId: cylinder.id,
      before: lbOf(before),
      after: lbOf(after),
      full,
    });
    page.wait(12);
  });
}
