import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { afterAll } from 'vitest';
import { createNight, createOffice } from '@ullage/casework';
import type { Actor, Night, Office } from '@ullage/casework';
import type { CommandAnswer, CommandBody, CommandName, Role } from '@ullage/contracts';
import { Database } from '@ullage/database';
import { makeCalendar, uuidv7 } from '@ullage/units';
import type { Instant } from '@ullage/units';
import { freshDatabase } from './database.ts';
import type { FreshDatabase } from './database.ts';

export const calendar = makeCalendar(Temporal as never);
let idClock = 1_700_000_000_000;
/** Ids in the order they are made, whatever the story's clock says. */
export const newId = (): string => uuidv7(idClock++, randomBytes(10));

/** A contractor's office on a database of its own, with a clock that stands until it is set. */
export interface TestOffice {
  readonly office: Office;
  /** What a worker would do, for tests that do its work themselves. */
  readonly night: Night;
  readonly database: FreshDatabase;
  readonly clock: { now: Instant };
  /** A contractor with one person of each role; gives the actors. */
  contractor(name?: string, timeZone?: string): Promise<Contractor>;
  /** A statement as superuser: to look past the walls. */
  sql<Row extends pg.QueryResultRow>(text: string, values?: unknown[]): Promise<Row[]>;
}
export interface Contractor {
  readonly tenantId: string;
  readonly actors: Readonly<Record<Role, Actor>>;
  /** Sends a desk command as somebody, at the story's clock unless a time is said. */
  send<K extends CommandName>(role: Role, kind: K, body: CommandBody<K>, more?: SendOptions): Promise<CommandAnswer>;
}
export interface SendOptions {
  readonly at?: Instant;
  readonly id?: string;
  readonly dependsOn?: readonly string[];
}
const ROLES: readonly Role[] = ['owner', 'manager', 'dispatcher', 'warehouse', 'technician', 'auditor'];

/** On a fresh database, unless one is given. */
export async function openTestOffice(start: Instant, given?: FreshDatabase): Promise<TestOffice> {
  const database = given ?? (await freshDatabase());
  const clock = { now: start };
  const app = new Database({ url: database.urls.application, name: 'test office', connections: 10 });
  const admin = new pg.Pool({ connectionString: database.adminUrl, max: 2 });
  // A test may end its server under it.
  admin.on('error', () => undefined);
  afterAll(async () => {
    await app.close();
    await admin.end();
  });
  const own = { database: app, calendar, now: () => clock.now, newId };
  const office = createOffice(own);
  const night = createNight(own);
  const sql = async <Row extends pg.QueryResultRow>(text: string, values: unknown[] = []): Promise<Row[]> =>
    (await admin.query<Row>(text, values)).rows;

  const contractor = async (name = 'Tarn & Bracken Cooling', timeZone = 'America/Denver'): Promise<Contractor> => {
    const [organization] = await sql<{ id: string }>(
      `INSERT INTO auth.organization (name, slug, "createdAt", metadata) VALUES ($1, $2, $3, $4) RETURNING id`,
      [name, `firm-${newId()}`, clock.now, JSON.stringify({ timeZone })],
    );
    const tenantId = organization!.id;
    const actors = {} as Record<Role, Actor>;
    for (const role of ROLES) {
      const [user] = await sql<{ id: string }>(
        `INSERT INTO auth."user" (name, email, "emailVerified", "updatedAt") VALUES ($1, $2, true, $3) RETURNING id`,
        [`${role} of ${name}`, `${role}-${newId()}@firm.example`, clock.now],
      );
      await sql(`INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, $3, $4)`, [
        tenantId,
        user!.id,
        role,
        clock.now,
      ]);
      actors[role] = { tenantId, userId: user!.id, role };
    }
    return {
      tenantId,
      actors,
      send: (role, kind, body, more = {}) =>
        office.apply(actors[role], {
          id: more.id ?? newId(),
          kind,
          received: {
            happenedAt: more.at ?? clock.now,
            body,
            ...(more.dependsOn ? { dependsOn: [...more.dependsOn] } : {}),
          },
        }),
    };
  };
  return { office, night, database, clock, contractor, sql };
}
