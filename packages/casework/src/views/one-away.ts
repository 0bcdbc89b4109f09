/** Circuits that one more addition of the usual size would take over the legal threshold. */
import type { OneAwayView } from '@ullage/contracts';
import { oneAdditionAway } from '@ullage/insight';
import type { OneAdditionAway } from '@ullage/insight';
import { editionOn, headroom, RULEBOOK_IDS } from '@ullage/rulebook';
import { compare, parseFraction, toDecimal, ZERO } from '@ullage/units';
import type { Rational } from '@ullage/units';
import type { CircuitFile } from '../law/circuit-file.ts';
import { wholeGrams } from './figures.ts';
import { fleetOf } from './fleet.ts';
import type { FleetCircuit } from './fleet.ts';
import { inTurns } from './in-turns.ts';
import { namedOf } from './repeats.ts';
import type { Viewer } from './viewer.ts';

/** Nobody works down a longer list in a day; how many there are in all is said. */
const MOST = 50;

interface Room {
  readonly grams: Rational;
  readonly thresholdPercent: number;
  readonly clause: string;
}
/** What may still go in today: the least that the rulebooks in force leave; undefined where none covers the circuit. */
function roomOf({ world, now }: Viewer, { facts, method, timeZone, events }: CircuitFile): Room | undefined {
  const onDay = world.calendar.dayOf(now, timeZone);
  const rooms = RULEBOOK_IDS.flatMap((rulebook): Room[] => {
    const { exactGrams, reasons } = headroom(
      { ...facts, rulebook, method, timeZone, asOf: now, events },
      world.calendar,
    );
    const threshold = editionOn(rulebook, onDay)?.thresholdPercent[facts.use];
    if (exactGrams === null || threshold === undefined) return [];
    return [
      { grams: parseFraction(exactGrams), thresholdPercent: Number(threshold), clause: reasons[0]?.source ?? '' },
    ];
  });
  return rooms.toSorted((a, b) => compare(a.grams, b.grams))[0];
}

function sizeView(size: OneAdditionAway['usual'], { repeat }: FleetCircuit) {
  const from = repeat.additions.filter(({ factIds }) => factIds.some((id) => size.factIds.includes(id)));
  return {
    grams: wholeGrams(size.grams),
    from: from.map(({ factIds, day, visitId }) => ({ factIds: [...factIds], day, visitId })),
  };
}
interface Near {
  readonly one: FleetCircuit;
  readonly room: Room;
}
/** Rounded down: what is said to fit, fits. */
const roomGrams = (grams: Rational): number => Number(toDecimal(grams, 0, 'down'));

export async function oneAwayView(viewer: Viewer): Promise<OneAwayView> {
  const { world, now } = viewer;
  const fleet = await fleetOf(viewer, { prices: new Map(), gwpSet: 'AR4' });
  const rooms = await inTurns(fleet.added, (one): Near[] => {
    // Without a weighed addition there is no usual size, and no need to work the law out.
    if (!one.repeat.additions.some(({ netGrams, purpose }) => netGrams && purpose === 'service')) return [];
    const room = roomOf(viewer, one.file);
    return room && compare(room.grams, ZERO) >= 0 ? [{ one, room }] : [];
  });
  const near = new Map(rooms.map((known) => [known.one.row.circuitId, known]));
  const away = oneAdditionAway(
    rooms.map(({ one, room }) => ({
      id: one.repeat.id,
      tag: one.repeat.tag,
      headroomGrams: room.grams,
      additions: one.repeat.additions,
    })),
  );
  const items = away.slice(0, MOST).flatMap((found): OneAwayView['items'] => {
    const known = near.get(found.id);
    if (!known) return [];
    const { one, room } = known;
    return [
      {
        ...namedOf(one.row),
        fullCharge: one.file.facts.fullCharges.at(-1)?.mass ?? null,
        onDay: world.calendar.dayOf(now, one.file.timeZone),
        thresholdPercent: room.thresholdPercent,
        headroomGrams: roomGrams(found.headroomGrams),
        usual: sizeView(found.usual, one),
        largest: sizeView(found.largest, one),
        reachedBy: found.reachedBy,
        overGrams: wholeGrams(found.overGrams),
        clause: room.clause,
      },
    ];
  });
  return { items, total: away.length };
}
