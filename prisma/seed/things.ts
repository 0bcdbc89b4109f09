/** What the demo's places and cylinders are. All of it is invented, and every firm, person and street with it. */
import type { CommandBody } from '@ullage/contracts';

type Call = CommandBody<'take-call'>;
type NewSite = NonNullable<Call['site']['new']>;
type NewCircuit = NonNullable<Call['circuit']['new']>;
export interface Thing {
  readonly customer: string;
  readonly site: Omit<NewSite, 'timeZone'>;
  readonly unit: { readonly tag: string; readonly description: string };
  readonly circuit: NewCircuit;
  readonly symptom: string;
}
const lb = (value: string) => ({ value, unit: 'lb' as const });
const maker = (value: string) => ({ mass: lb(value), method: 'manufacturer' as const });

export const CIRCUITS = {
  rack: {
    customer: 'Thorne Provisions',
    site: {
      name: 'Thorne Provisions, Millrace',
      address: '210 Millrace Lane, Harrowgate Flats',
      elevationM: 1600,
      coordinates: { latitude: 39.762, longitude: -104.984 },
      accessNotes: 'Roof key at the service desk.',
      contact: { name: 'Edda Thorne', phone: '555 0142' },
    },
    unit: { tag: '0305', description: 'Medium-temperature rack' },
    circuit: { refrigerant: 'R-448A', use: 'commercial-refrigeration', equipment: 'rack', fullCharge: maker('210') },
    symptom: 'Cases warm in the afternoon, short of gas again.',
  },
  coldRoom: {
    customer: 'Amsel Cold Store',
    site: {
      name: 'Amsel Cold Store',
      address: '7 Tannery Row, Ibis Crossing',
      elevationM: 1480,
      coordinates: { latitude: 39.958, longitude: -104.771 },
      accessNotes: 'Ring at the loading dock.',
      contact: { name: 'Bertil Amsel' },
    },
    unit: { tag: '0118', description: 'Cold room 2' },
    circuit: { refrigerant: 'R-404A', use: 'commercial-refrigeration', equipment: 'other', fullCharge: maker('64') },
    symptom: 'Room at 46 °F, ice on the coil.',
  },
  chiller: {
    customer: 'Ravelin Hall',
    site: {
      name: 'Ravelin Hall',
      address: '1 Ravelin Square, Harrowgate Flats',
      elevationM: 1610,
      coordinates: { latitude: 39.744, longitude: -104.998 },
      accessNotes: 'Plant room in the basement, two people.',
    },
    unit: { tag: '0520', description: 'Chiller, north wing' },
    circuit: { refrigerant: 'R-134a', use: 'comfort-cooling', equipment: 'chiller', fullCharge: maker('310') },
    symptom: 'Yearly check asked for.',
  },
  dairy: {
    customer: 'Lapwing Dairy',
    site: {
      name: 'Lapwing Dairy',
      address: '44 Weir Road, Lower Sedge',
      elevationM: 1550,
      coordinates: { latitude: 40.021, longitude: -105.083 },
      accessNotes: 'Hair net, hands washed, ask for the shift lead.',
      contact: { name: 'Mirren Oakes', phone: '555 0177' },
    },
    unit: { tag: '0233', description: 'Milk room rack' },
    circuit: { refrigerant: 'R-448A', use: 'commercial-refrigeration', equipment: 'rack', fullCharge: maker('180') },
    symptom: 'Low-pressure cut-out twice this week.',
  },
  iceRoom: {
    customer: 'Lapwing Dairy',
    site: {
      name: 'Lapwing Dairy, ice room',
      address: '46 Weir Road, Lower Sedge',
      elevationM: 1550,
      coordinates: { latitude: 40.022, longitude: -105.081 },
    },
    unit: { tag: '0240', description: 'Ice room' },
    circuit: { refrigerant: 'R-449A', use: 'commercial-refrigeration', equipment: 'other', fullCharge: maker('88') },
    symptom: 'Hisses near the receiver.',
  },
} as const satisfies Record<string, Thing>;

type NewCylinder = Omit<CommandBody<'register-cylinder'>, 'cylinderId'>;
export const CYLINDERS = {
  newGas448: {
    kind: 'refillable',
    specification: 'DOT-4BA400',
    serial: 'HV-20417',
    label: 'N-12',
    waterCapacity: lb('123'),
    tare: lb('55'),
    servicePressurePsig: 400,
    testedMonth: '2024-05',
    gas: { refrigerant: 'R-448A', state: 'new', gross: lb('158.00') },
  },
  newGas404: {
    kind: 'disposable',
    specification: 'DOT-39',
    serial: 'HV-7731',
    label: 'N-15',
    waterCapacity: lb('29.7'),
    tare: lb('28.10'),
    gas: { refrigerant: 'R-404A', state: 'new', gross: lb('52.10') },
  },
  recovery: {
    kind: 'recovery',
    specification: 'DOT-4BA400',
    serial: 'HV-90233',
    label: 'C-4',
    waterCapacity: lb('47.6'),
    tare: lb('28'),
    servicePressurePsig: 400,
    testedMonth: '2024-03',
  },
  spare: {
    kind: 'recovery',
    specification: 'DOT-4BA400',
    serial: 'HV-90234',
    label: 'C-5',
    waterCapacity: lb('47.6'),
    tare: lb('28'),
    servicePressurePsig: 400,
    testedMonth: '2023-11',
  },
} as const satisfies Record<string, NewCylinder>;

interface Given {
  readonly history: Call['history'];
  readonly newId: () => string;
}
/** The call that makes a thing known. */
export function callAt(thing: Thing, { newId, history }: Given): Call {
  return {
    customer: { id: newId(), new: { name: thing.customer } },
    site: { id: newId(), new: { ...thing.site, timeZone: 'America/Denver' } },
    unit: { id: newId(), new: { ...thing.unit } },
    circuit: { id: newId(), new: thing.circuit },
    history,
    visit: { id: newId(), symptom: thing.symptom },
  };
}
