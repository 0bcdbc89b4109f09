/** Contractors of many sizes, out of one told through real commands. */
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { createOffice, systemClock } from '@ullage/casework';
import type { Actor, Office } from '@ullage/casework';
import { ROLES } from '@ullage/contracts';
import type { CommandBody, CommandName, Role } from '@ullage/contracts';
import { Database } from '@ullage/database';
import { makeCalendar } from '@ullage/units';
import { DEMO_ZONE, seedDemo } from '../../prisma/seed/demo.ts';
import type { Place } from './ground.ts';

const calendar = makeCalendar(Temporal as never);
const system = systemClock(calendar);
export const newId = (): string => system.newId();

export type Actors = Readonly<Record<Role, Actor>>;
/** A contractor with a person for each role. */
export async function aFirm(admin: pg.Client, name: string): Promise<Actors> {
  const tenantId = await aTenant(admin, name);
  const actors: Partial<Record<Role, Actor>> = {};
  for (const role of ROLES) {
    const user = await admin.query<{ id: string }>(
      `INSERT INTO auth."user" (name, email, "emailVerified", "updatedAt") VALUES ($1, $2, true, now()) RETURNING id`,
      [role, `${role}-${name}@firm.example`],
    );
    const userId = user.rows[0]?.id ?? '';
    const member = `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, $3, now())`;
    await admin.query(member, [tenantId, userId, role]);
    actors[role] = { tenantId, userId, role };
  }
  return actors as Actors;
}
export async function aTenant(admin: pg.Client, name: string): Promise<string> {
  const made = await admin.query<{ id: string }>(
    `INSERT INTO auth.organization (name, slug, "createdAt", metadata) VALUES ($1, $1, now(), $2) RETURNING id`,
    [name, JSON.stringify({ timeZone: DEMO_ZONE })],
  );
  return made.rows[0]?.id ?? '';
}

/** An office of this process, under a clock that is set. */
export async function withOffice(
  { urls }: Place,
  work: (office: Office, setClock: (at: string) => void) => Promise<void>,
): Promise<void> {
  const database = new Database({ url: urls.application, name: 'bench office', connections: 2 });
  let now = system.now();
  const office = createOffice({ database, calendar, now: () => now, newId });
  try {
    await work(office, (at) => (now = at));
  } finally {
    await database.close();
  }
}

/** The demo's stories; gives how many units they are about. */
export async function tellDemo(place: Place, admin: pg.Client, actors: Actors): Promise<number> {
  await withOffice(place, async (office, setClock) => {
    const today = calendar.dayOf(system.now(), DEMO_ZONE);
    await seedDemo({ office, calendar, actors, today, newId, setClock, step: () => undefined });
  });
  const values = [actors.owner.tenantId];
  const told = await admin.query<{ n: number }>('SELECT count(*)::int AS n FROM unit WHERE tenant_id = $1', values);
  return told.rows[0]?.n ?? 0;
}

const lb = (value: string) => ({ value, unit: 'lb' as const });
const g = (grams: number) => ({ value: String(grams), unit: 'g' as const });
const GROSS = 72_575;
const CHARGE = 100;
export interface Charged {
  readonly visitId: string;
  readonly circuitId: string;
  readonly cylinderId: string;
}
/** The body of the charge after `before` others out of the same cylinder. */
export const chargeAfter = (before: number, of: Charged): CommandBody<'record-charge'> => ({
  ...of,
  before: g(GROSS - before * CHARGE),
  after: g(GROSS - (before + 1) * CHARGE),
  full: 'no',
});

/** One circuit into which gas went each quarter for so many years up to last week; gives what the next charge names. */
export async function tellYears(place: Place, actors: Actors, years: number): Promise<Charged> {
  const of: Charged = { visitId: newId(), circuitId: newId(), cylinderId: newId() };
  const nowMs = calendar.epochMs(system.now());
  const quarters = years * 4;
  const at = (quarter: number): string => calendar.fromEpochMs(nowMs - (7 + (quarters - quarter) * 91) * 86_400_000);
  await withOffice(place, async (office, setClock) => {
    const send = async <K extends CommandName>(kind: K, body: CommandBody<K>): Promise<void> => {
      await office.apply(actors.owner, { id: newId(), kind, received: { body } });
    };
    setClock(at(-1));
    await send('take-call', {
      customer: { id: newId(), new: { name: 'Larkspur Foods' } },
      site: { id: newId(), new: { address: '14 Quarry Bend, Dunmoor', timeZone: DEMO_ZONE, elevationM: 1600 } },
      unit: { id: newId(), new: { tag: '0417', description: 'Dairy rack' } },
      circuit: {
        id: of.circuitId,
        new: {
          refrigerant: 'R-448A',
          use: 'commercial-refrigeration',
          equipment: 'rack',
          fullCharge: { mass: lb('220'), method: 'manufacturer' },
        },
      },
      history: [],
      visit: { id: of.visitId, symptom: 'Short of gas again.' },
    });
    await send('register-cylinder', {
      cylinderId: of.cylinderId,
      kind: 'refillable',
      specification: 'DOT-4BA400',
      serial: 'NG-2207',
      label: 'N-22',
      waterCapacity: lb('123'),
      tare: lb('55'),
      servicePressurePsig: 400,
      testedMonth: '2023-06',
      gas: { refrigerant: 'R-448A', state: 'new', gross: lb('160') },
    });
    for (let quarter = 0; quarter < quarters; quarter += 1) {
      setClock(at(quarter));
      await send('record-charge', chargeAfter(quarter, of));
    }
  });
  return of;
}
