/** The second firm: small, and behind a wall that the first one's people never see through. */
import type { Role } from '@ullage/contracts';
import { lb } from './entered.ts';
import { Teller, takeCall } from './teller.ts';
import type { Stage } from './teller.ts';
import type { Thing } from './things.ts';

export const NEIGHBOUR = {
  name: 'Rowan & Slate Cooling',
  domain: 'rowanslate.example',
  people: [
    ['owner', 'Sylvie Rowan'],
    ['dispatcher', 'Hugh Slate'],
    ['warehouse', 'Wren Ottley'],
    ['technician', 'Tam Burrell'],
  ] as readonly (readonly [Role, string])[],
};

const BAKERY = {
  customer: 'Juniper Lane Bakery',
  site: {
    name: 'Juniper Lane Bakery',
    address: '12 Juniper Lane, Harrowgate Flats',
    elevationM: 1605,
    coordinates: { latitude: 39.755, longitude: -104.985 },
    accessNotes: 'Back door, before six.',
  },
} as const;
const made = (value: string) => ({ mass: lb(value), method: 'manufacturer' as const });
const THINGS = {
  retarder: {
    ...BAKERY,
    unit: { tag: '1', description: 'Dough retarder' },
    circuit: { refrigerant: 'R-449A', use: 'commercial-refrigeration', equipment: 'other', fullCharge: made('22') },
    symptom: 'Dough too warm in the morning.',
  },
  school: {
    customer: 'Sedge Valley School',
    site: { name: 'Sedge Valley School', address: '3 Weir Road, Upper Sedge', elevationM: 1640 },
    unit: { tag: '1', description: 'Rooftop, gym' },
    circuit: { refrigerant: 'R-410A', use: 'comfort-cooling', equipment: 'rooftop', fullCharge: made('16') },
    symptom: 'Rattles, and warm in the afternoon.',
  },
} as const satisfies Record<string, Thing>;

export async function tellNeighbour(stage: Stage): Promise<void> {
  const tell = new Teller(stage);
  const { newId, office, actors } = stage;
  tell.go(-60, '08:30');
  const cylinderId = newId();
  await tell.say('warehouse', 'register-cylinder', {
    cylinderId,
    kind: 'disposable',
    specification: 'DOT-39',
    serial: 'RS-118',
    label: 'N-1',
    waterCapacity: lb('29.7'),
    tare: lb('6.60'),
    gas: { refrigerant: 'R-449A', state: 'new', gross: lb('31.60') },
  });
  const { items } = await office.people(actors.owner, { invitations: [], mailsLinks: false });
  const technician = items.find((person) => person.role === 'technician');
  if (!technician) throw new Error('the second firm has no technician');
  const certificates = [
    { id: newId(), scheme: 'us-608' as const, type: 'universal' as const, registeredOn: tell.day(-1900) },
  ];
  await tell.say('owner', 'register-person', { personId: technician.id, name: technician.name, certificates });
  tell.go(-21, '11:00');
  const on = await takeCall(tell, THINGS.retarder, []);
  await tell.place(on.visitId, { personId: technician.id, offset: -20, time: '09:00', minutes: 120 });
  tell.go(-20, '09:05');
  await tell.say('technician', 'arrive', { visitId: on.visitId });
  tell.go(-20, '10:10');
  await tell.say('technician', 'record-charge', {
    ...on,
    cylinderId,
    before: lb('31.60'),
    after: lb('30.80'),
    full: 'yes',
  });
  await tell.say('technician', 'finish-visit', { visitId: on.visitId, summary: 'A little gas added; watch it.' });
  tell.go(-1, '14:00');
  await takeCall(tell, THINGS.school, []);
}
