/** People's papers, and what stands in the warehouse. */
import { CYLINDERS } from './things.ts';
import type { Teller } from './teller.ts';

/** Who works here, by id: the technician who signs in, and the two who have no sign-in. */
export interface Staff {
  readonly technicianId: string;
  readonly helperIds: readonly string[];
}
export async function givePapers(tell: Teller): Promise<Staff> {
  const { office, actors, newId } = tell.stage;
  tell.go(-200, '09:00');
  const { items } = await office.people(actors.owner, { invitations: [], mailsLinks: false });
  const technician = items.find((person) => person.role === 'technician');
  if (!technician) throw new Error('the demo has no technician');
  const universal = { id: newId(), scheme: 'us-608', type: 'universal', registeredOn: tell.day(-2000) } as const;
  await tell.say('manager', 'register-person', {
    personId: technician.id,
    name: technician.name,
    certificates: [universal],
  });
  const others = [
    ['Odell Marsh', 'II', -900],
    ['Juno Pell', 'apprentice', -120],
  ] as const;
  const helperIds: string[] = [];
  for (const [name, type, since] of others) {
    const personId = newId();
    helperIds.push(personId);
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type, registeredOn: tell.day(since) }];
    await tell.say('manager', 'register-person', { personId, name, certificates });
  }
  return { technicianId: technician.id, helperIds };
}

export interface Things {
  readonly newGas448: string;
  readonly newGas404: string;
  readonly recovery: string;
  readonly detector: string;
  /** Locations. */
  readonly store: string;
  readonly van: string;
}
export async function registerThings(tell: Teller): Promise<Things> {
  const { newId } = tell.stage;
  tell.go(-100, '08:00');
  const ids: Things = {
    newGas448: newId(),
    newGas404: newId(),
    recovery: newId(),
    detector: newId(),
    store: newId(),
    van: newId(),
  };
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.newGas448, ...CYLINDERS.newGas448 });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.newGas404, ...CYLINDERS.newGas404 });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: ids.recovery, ...CYLINDERS.recovery });
  await tell.say('warehouse', 'register-cylinder', { cylinderId: newId(), ...CYLINDERS.spare });
  await tell.say('warehouse', 'register-instrument', {
    instrumentId: ids.detector,
    kind: 'detector',
    tag: 'D-6',
    senseGramsPerYear: 5,
  });
  const scale = newId();
  await tell.say('warehouse', 'register-instrument', { instrumentId: scale, kind: 'scale', tag: 'S-1' });
  await registerPlaces(tell, ids, scale);
  return ids;
}

/** Where cylinders stand, and the scale that was calibrated. */
async function registerPlaces(tell: Teller, { store, van }: Things, scale: string): Promise<void> {
  for (const [kind, name, locationId] of [
    ['warehouse', 'Main store', store],
    ['van', 'Van 1', van],
  ] as const)
    await tell.say('warehouse', 'register-location', { locationId, kind, name, elevationM: 1580 });
  await tell.say('warehouse', 'record-calibration', {
    instrumentId: scale,
    calibratedOn: tell.day(-101),
    by: 'Sorrel Weighing',
    result: 'pass',
    nextOn: tell.day(264),
  });
}
