/** How a visit comes about: somebody calls, it is placed, the technician arrives; or the law has proposed it. */
import type { CommandBody } from '@ullage/contracts';
import { KINDS } from './equipment.ts';
import type { Unit } from './fleet.ts';
import { clockOf } from './moments.ts';
import type { Return } from './steps.ts';
import type { Page, Stop } from './studio.ts';

type Call = CommandBody<'take-call'>;
/** What most of a technician's commands name. */
export interface On {
  readonly visitId: string;
  readonly circuitId: string;
}

function newCircuit(unit: Unit): NonNullable<Call['circuit']['new']> {
  const { use, equipment } = KINDS[unit.kind];
  return {
    refrigerant: unit.refrigerant,
    use,
    equipment,
    installedOn: unit.installedOn,
    fullCharge: { mass: { value: String(unit.pounds), unit: 'lb' }, method: 'manufacturer' },
  };
}

/** A call for a unit. What the office has never heard of is described. */
export function callFor(page: Page, unit: Unit, visit: Call['visit']): Call {
  const { studio } = page;
  const { site } = unit;
  const { customer } = site;
  page.touch(customer.id, unit.circuitId);
  return {
    customer: { id: customer.id, ...(studio.meets(customer.id) ? { new: { name: customer.name } } : {}) },
    site: { id: site.id, ...(studio.meets(site.id) ? { new: site.made } : {}) },
    unit: {
      id: unit.id,
      ...(studio.meets(unit.id) ? { new: { tag: unit.tag, description: unit.description } } : {}),
    },
    circuit: { id: unit.circuitId, ...(studio.meets(unit.circuitId) ? { new: newCircuit(unit) } : {}) },
    history: [],
    visit,
  };
}

function place(page: Page, stop: Stop, visitId: string): void {
  const { studio } = page;
  const { driver, helper, offset, start, minutes } = stop;
  const { people } = studio;
  page.touch(people[driver], ...(helper ? [people[helper]] : []));
  page.say('dispatcher', 'place-visit', {
    visitId,
    version: 1,
    personId: people[driver],
    ...(helper ? { withPersonIds: [people[helper]] } : {}),
    day: studio.moments.day(offset),
    time: clockOf(start),
    minutes,
  });
}

/** Somebody calls some days before, and a visit is placed. Gives the visit; the page then stands at its start. */
export function calledVisit(page: Page, stop: Stop, daysBefore = page.studio.chance.int(1, 4)): On {
  const { studio } = page;
  const day = studio.workdayBefore(stop.offset, daysBefore);
  page.go(day, 8 * 60 + studio.chance.int(0, 420));
  const visitId = page.newId();
  page.say('dispatcher', 'take-call', callFor(page, stop.unit, { id: visitId, symptom: stop.symptom }));
  page.wait(studio.chance.int(5, 60));
  place(page, stop, visitId);
  page.go(stop.offset, stop.start);
  return { visitId, circuitId: stop.unit.circuitId };
}

/** The visit that the law has proposed is placed, the workday before unless said. */
export function proposedVisit(
  page: Page,
  stop: Stop,
  { purpose, daysBefore = 1 }: { purpose: Return['purpose']; daysBefore?: number },
): On {
  const { studio } = page;
  const { unit } = stop;
  page.go(studio.workdayBefore(stop.offset, daysBefore), 15 * 60 + studio.chance.int(0, 90));
  const visitId = page.newId();
  page.steps.push({
    kind: 'return',
    at: page.at,
    tag: `${unit.tag}-A`,
    purpose,
    visitId,
    callId: page.newId(),
    call: callFor(page, unit, { id: visitId, symptom: stop.symptom }),
  });
  page.wait(2);
  place(page, stop, visitId);
  page.go(stop.offset, stop.start);
  return { visitId, circuitId: unit.circuitId };
}
