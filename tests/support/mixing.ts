/**
 * A mistake told in five acts: gas recovered below site pressure from an open leak into A, some of it moved into B, B
 * used for a second circuit, another gas recovered into B by mistake, and A found good by an air check. Figures of our own.
 */
import type { CommandBody, CommandName, Role } from '@ullage/contracts';
import { newId } from './office.ts';
import type { Contractor } from './office.ts';

export const g = (grams: number) => ({ value: String(grams), unit: 'g' as const });
/** Every cylinder of the story weighs 12,701 g empty (28 lb) and holds 47.6 lb of water. */
export const TARE = 12_701;
export const gross = (net: number) => g(TARE + net);

/** A circuit with a visit on it. */
export interface Place {
  readonly circuitId: string;
  readonly visitId: string;
}
interface PlaceOf {
  readonly tag: string;
  readonly refrigerant: string;
  readonly customerId: string;
  /** Set for a customer that is new. */
  readonly customer?: string;
}
/** Takes the call that makes unit, circuit and visit; full with 100 lb (45,359 g). At 1,600 m: 83.5 kPa. */
export async function place(firm: Contractor, { tag, refrigerant, customerId, customer }: PlaceOf): Promise<Place> {
  const [circuitId, visitId] = [newId(), newId()];
  await firm.send('dispatcher', 'take-call', {
    customer: { id: customerId, ...(customer === undefined ? {} : { new: { name: customer } }) },
    site: { id: newId(), new: { address: `${tag} Quarry Bend`, timeZone: 'America/Denver', elevationM: 1600 } },
    unit: { id: newId(), new: { tag } },
    circuit: {
      id: circuitId,
      new: {
        refrigerant,
        use: 'commercial-refrigeration',
        fullCharge: { mass: { value: '100', unit: 'lb' }, method: 'manufacturer' },
      },
    },
    history: [],
    visit: { id: visitId },
  });
  return { circuitId, visitId };
}

type But = Partial<CommandBody<'register-cylinder'>>;
/** A recovery cylinder, empty and in date, but for what is said. */
export async function bottle(firm: Contractor, label: string, but: But = {}): Promise<string> {
  const cylinderId = newId();
  await firm.send('warehouse', 'register-cylinder', {
    cylinderId,
    kind: 'recovery',
    specification: 'DOT-4BA400',
    serial: `S-${label}`,
    label,
    waterCapacity: { value: '47.6', unit: 'lb' },
    tare: g(TARE),
    servicePressurePsig: 400,
    testedMonth: '2024-03',
    ...but,
  });
  return cylinderId;
}

/** Who reports what, and the wall-clock time at which it happened. */
export type Act = { [K in CommandName]: readonly [Role, K, CommandBody<K>, string] }[CommandName];

export const recover = (
  { circuitId, visitId }: Place,
  given: { into: string; net: readonly [before: number, after: number]; but?: Partial<CommandBody<'record-recovery'>> },
): CommandBody<'record-recovery'> => ({
  visitId,
  circuitId,
  part: 'isolated',
  work: {},
  cylinderId: given.into,
  cylinderEvacuated: true,
  before: gross(given.net[0]),
  after: gross(given.net[1]),
  stop: { value: '0', unit: 'psig' },
  openLeak: false,
  ...given.but,
});

export const charge = (
  { circuitId, visitId }: Place,
  given: { from: string; net: readonly [before: number, after: number]; why?: string },
): CommandBody<'record-charge'> => ({
  visitId,
  circuitId,
  cylinderId: given.from,
  before: gross(given.net[0]),
  after: gross(given.net[1]),
  full: 'unknown',
  ...(given.why === undefined ? {} : { whyUnderDoubt: given.why }),
});

export const transfer = (given: {
  from: string;
  into: string;
  left?: readonly [before: number, after: number];
  came?: readonly [before: number, after: number];
  evacuated?: boolean;
}): CommandBody<'record-transfer'> => {
  const weights = (net: readonly [number, number] | undefined) =>
    net === undefined ? {} : { weights: { before: gross(net[0]), after: gross(net[1]) } };
  return {
    from: { cylinderId: given.from, ...weights(given.left) },
    to: { cylinderId: given.into, evacuated: given.evacuated ?? true, ...weights(given.came) },
  };
};

/** R-448A at 75 °F has a bubble pressure of 1,252.6 kPa absolute (see tests/reference): 5 kPa above it, by a fine gauge. */
export const airCheck = (
  cylinderId: string,
  but: Partial<CommandBody<'record-air-check'>> = {},
): CommandBody<'record-air-check'> => ({
  cylinderId,
  refrigerant: 'R-448A',
  restedHours: 24,
  liquidPresent: true,
  temperature: { value: '297.04', unit: 'K' },
  pressure: { value: '1257.6', unit: 'kpa' },
  temperatureSigmaK: 0.1,
  pressureSigmaKpa: 1,
  ...but,
});
