import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod';
import { COMMAND_NAMES, COMMANDS, Refusal, ROLES, may } from '@ullage/contracts';
import type { CommandName, Role } from '@ullage/contracts';
import { checksums } from '../support/api-checksums.ts';
import { bodiesOf, decided } from '../support/bodies.ts';
import type { Bodies, Scene } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { told } from '../support/told.ts';

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/gi;
const OTHER = 'Heron Cold Works';

let world: TestOffice;
let admin: pg.Client;
let theirs: Contractor; // whose wall it is
let ours: Contractor;
let scene: Scene;
let bodies: Bodies;
/** Every id that a row of the other contractor bears, with the table it stands in. */
let foreign: { id: string; table: string }[];

beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
  admin = new pg.Client({ connectionString: world.database.adminUrl });
  await admin.connect();
  const other = await told(world, OTHER);
  theirs = other.firm;
  await decided({ world, ...other });
  ({ firm: ours, scene } = await told(world));
  await decided({ world, firm: ours, scene });
  bodies = bodiesOf({ world, firm: ours, scene });
  foreign = await idsOf(theirs.tenantId);
}, 120_000);
afterAll(() => admin.end());

async function tables(): Promise<string[]> {
  const found = await admin.query<{ name: string }>(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r'
     AND relname <> '_prisma_migrations' ORDER BY 1`,
  );
  return found.rows.map((row) => row.name);
}
const tenantKey = (table: string) => (table === 'tenant' ? 'id' : 'tenant_id');

async function idsOf(tenantId: string) {
  const found: { id: string; table: string }[] = [];
  const columns = await admin.query<{ table: string; column: string }>(
    `SELECT table_name AS table, column_name AS column FROM information_schema.columns
     WHERE table_schema = 'public' AND data_type = 'uuid' ORDER BY column_name <> 'id'`,
  );
  for (const { table, column } of columns.rows) {
    const rows = await admin.query<{ id: string }>(
      `SELECT DISTINCT ${column} AS id FROM ${table} WHERE ${tenantKey(table)} = $1 AND ${column} IS NOT NULL`,
      [tenantId],
    );
    for (const { id } of rows.rows) if (!found.some((one) => one.id === id)) found.push({ id, table });
  }
  return found;
}

/** The rows of a tenant, table by table, as one text each. */
async function rowsOf(tenantId: string): Promise<Record<string, string>> {
  const sums: Record<string, string> = {};
  for (const table of await tables()) {
    const sum = await admin.query<{ sum: string }>(
      `SELECT count(*) || ' ' || coalesce(md5(string_agg(t::text, E'\\n' ORDER BY t::text)), '') AS sum
       FROM ${table} t WHERE ${tenantKey(table)} = $1`,
      [tenantId],
    );
    sums[table] = sum.rows[0]!.sum;
  }
  return sums;
}

/** Everything a caller learns, as text; ids blotted out, because a made record bears the id that was given. */
async function learnt(work: () => Promise<unknown>): Promise<string> {
  try {
    return JSON.stringify(await work()).replaceAll(UUID, 'an id');
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { code, message, errors, rules } = error;
    return `refused ${JSON.stringify({ code, message, errors, rules })}`;
  }
}

describe('reading', () => {
  const reads: Record<string, (id: string) => Promise<unknown>> = {
    unit: (id) => world.office.unit(ours.actors.owner, id),
    visit: (id) => world.office.visit(ours.actors.owner, id),
    serviceRecord: (id) => world.office.serviceRecord(ours.actors.owner, id),
    cylinder: (id) => world.office.cylinder(ours.actors.owner, id),
    recall: (id) => world.office.recall(ours.actors.owner, id),
    leakRateSheet: (id) => world.office.leakRateSheet(ours.actors.owner, id),
    statement: (accountId) => world.office.statement(ours.actors.owner, { accountId }),
    manifest: (id) => world.office.manifest(ours.actors.owner, id),
    'evacuation of a visit': (visitId) => advice({ visitId, circuitId: scene.of.circuit }),
    'evacuation of a circuit': (circuitId) => advice({ visitId: scene.onSite, circuitId }),
    'suggestions for a visit': (visitId) => world.office.suggestions(ours.actors.owner, { visitId }),
    'ground of a placing': (id) => world.office.placingGround(ours.actors.owner, id),
    'use of a cylinder': (cylinderId) => use({ cylinderId, circuitId: scene.of.circuit, act: 'charge' }),
    'use for a circuit': (circuitId) => use({ cylinderId: scene.of.recovery, circuitId, act: 'recovery' }),
    'use into a cylinder': (intoId) => use({ cylinderId: scene.of.recovery, intoId, act: 'transfer' }),
    'repeat list after': (after) => world.office.repeats(ours.actors.owner, { after }),
    'visits of a person': (personId) => world.office.visits(ours.actors.owner, { personId }),
  };
  const use = (asked: Parameters<typeof world.office.cylinderUse>[1]) =>
    world.office.cylinderUse(ours.actors.owner, asked);
  const advice = (of: { visitId: string; circuitId: string }) =>
    world.office.evacuation(ours.actors.owner, { ...of, part: 'isolated', openLeak: true, evacuateAfter: true });

  for (const [name, read] of Object.entries(reads)) {
    test(`${name}: every id of another contractor answers as one that does not exist`, async () => {
      const before = await checksums(admin);
      const nothing = await learnt(() => read(newId()));
      expect(foreign.length).toBeGreaterThan(150);
      for (const { id, table } of foreign) expect(await learnt(() => read(id)), table).toBe(nothing);
      expect(await checksums(admin)).toEqual(before);
      if (name !== 'visits of a person') expect(nothing).toContain('"code":"not-found"');
    }, 60_000);
  }

  test('lists, books, notices, attention and changes name nothing of another contractor', async () => {
    const { actors } = ours;
    const all = [
      await world.office.me(actors.owner),
      await world.office.people(actors.owner, { invitations: [], mailsLinks: false }),
      await world.office.places(actors.owner, {}),
      await world.office.units(actors.owner, {}),
      await world.office.visits(actors.owner, {}),
      await world.office.returns(actors.owner, {}),
      await world.office.cylinders(actors.owner, {}),
      await world.office.recalls(actors.owner),
      await world.office.manifests(actors.owner, {}),
      await world.office.books(actors.owner),
      await world.office.repeats(actors.owner, {}),
      await world.office.oneAway(actors.owner),
      await world.office.prices(actors.owner),
      await world.office.gasUsed(actors.owner, { billed: 'all' }),
      await world.office.gasUsedWhole(actors.owner, { billed: 'all' }),
      await world.office.attention(actors.owner),
      await world.office.notices(actors.owner),
      await world.office.settings(actors.owner),
      await world.office.locations(actors.owner),
      await world.office.instruments(actors.owner),
      await world.office.webhooks(actors.owner),
      await world.office.changes(actors.owner, { epoch: 1, number: 0 }),
    ];
    const text = JSON.stringify(all);
    const known = new Set(text.match(UUID));
    expect(known.size).toBeGreaterThan(50);
    expect(foreign.filter(({ id }) => known.has(id))).toEqual([]);
    expect(text).not.toContain(OTHER);
  });
});

/** Paths of the ids in a body. */
function idPaths(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value === 'string') return value.match(UUID)?.[0] === value ? [path] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => idPaths(inner, [...path, key]));
}
interface Shape {
  readonly format?: string;
  /** An id that may be nobody's. */
  readonly anyOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly items?: Shape;
}
const shapeOf = (kind: CommandName): Shape => {
  const { body } = COMMANDS[kind];
  const { $defs } = z.toJSONSchema(body, { io: 'input' });
  return $defs?.[body.meta()?.id ?? ''] as Shape;
};
/** Paths of every id that a body may carry, by its schema. */
function idsIn(shape: Shape, path: (string | number)[] = []): (string | number)[][] {
  if (shape.format === 'uuid' || shape.anyOf?.some(({ format }) => format === 'uuid')) return [path];
  const inner = [...Object.entries(shape.properties ?? {}), ...(shape.items ? [[0, shape.items] as const] : [])];
  return inner.flatMap(([key, one]) => idsIn(one, [...path, key]));
}
function withId(body: unknown, path: readonly (string | number)[], id: string): unknown {
  const copy = structuredClone(body) as Record<string | number, unknown>;
  let at = copy;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  at[path.at(-1)!] = id;
  return copy;
}
const roleFor = (kind: CommandName): Role => ROLES.find((role) => may(role, COMMANDS[kind].permission))!;

/** Ways in which the same kind of thing comes into being: a past addition, a cylinder, a recall. */
const SAME_MADE: readonly (readonly string[])[] = [
  ['take-call history/0/id', 'register-equipment history/0/id', 'record-past-additions additions/0/id'],
  ['register-cylinder cylinderId', 'record-delivery cylinders/0/cylinderId'],
  ['open-recall recallId', 'recall-gas recallId'],
];
/** What comes into being under an id that the caller makes: ids of another contractor are free for that, and stay whose they are. */
const MADE = new Set([
  ...SAME_MADE.flat(),
  'take-call visit/id',
  'register-person personId',
  'register-person certificates/0/id',
  'register-instrument instrumentId',
  'register-location locationId',
  'record-leak-point leakPointId',
  'set-price priceId',
  'bill-gas billId',
  'plan-replacement planId',
  'withdraw-command commandId',
]);

describe('commands', () => {
  const send = (kind: CommandName, body: unknown) => ours.send(roleFor(kind), kind, body as never);
  /** What the caller learns from a good body with one id put in one field. */
  const swap = (kind: CommandName, path: readonly (string | number)[]) => async (id: string) =>
    learnt(async () => send(kind, withId(await bodies[kind](), path, id)));
  const isMade = (kind: CommandName, path: readonly (string | number)[]) => MADE.has(`${kind} ${path.join('/')}`);
  /** The sign-in library's ids are of another version, and answer as any other of that version does. */
  const strangers = async (answerTo: (id: string) => Promise<string>): Promise<Record<string, string>> => ({
    7: await answerTo(newId()),
    4: await answerTo(randomUUID()),
  });

  /** Reading has tried them all; here two of each table, for there are many fields. */
  let fewOfEach: typeof foreign;
  beforeAll(() => {
    fewOfEach = Object.values(Object.groupBy(foreign, ({ table }) => table)).flatMap((rows = []) => rows.slice(0, 2));
  });

  test('every id that a body may carry is in the good bodies: none is left untried', async () => {
    const carried = async (kind: CommandName) =>
      idPaths(await bodies[kind]()).map((path) => `${kind} ${path.join('/')}`);
    const known = COMMAND_NAMES.flatMap((kind) => idsIn(shapeOf(kind)).map((path) => `${kind} ${path.join('/')}`));
    expect((await Promise.all(COMMAND_NAMES.map(carried))).flat().sort()).toEqual(known.sort());
    expect(known).toContain('record-leak-point lookId');
  });

  // A visit is left last.
  const order = [...COMMAND_NAMES].sort((a, b) => Number(a === 'finish-visit') - Number(b === 'finish-visit'));
  for (const kind of order) {
    test(`${kind}: an id of another contractor, in each field that names something, answers as one that does not exist`, async () => {
      const before = await checksums(admin);
      for (const path of idPaths(await bodies[kind]())) {
        if (isMade(kind, path)) continue;
        const nothing = await strangers(swap(kind, path));
        expect(nothing[7], path.join('/')).toContain('"code":"not-found"');
        for (const { id, table } of fewOfEach)
          expect(await swap(kind, path)(id), `${path.join('/')}: ${table}`).toBe(nothing[id[14]!]);
      }
      expect(await checksums(admin)).toEqual(before);
      const theirRows = await rowsOf(theirs.tenantId);
      // The body was good but for that one field.
      expect(await send(kind, await bodies[kind]())).toMatchObject({ outcome: 'applied' });
      expect(await rowsOf(theirs.tenantId)).toEqual(theirRows);
    }, 240_000);
  }

  test('a command that waits for another contractor’s command waits as for one that never comes', async () => {
    const { of } = scene;
    const wait = (id: string) =>
      learnt(() =>
        ours.send('technician', 'record-owner-told', { circuitId: of.circuit, who: 'Ines' }, { dependsOn: [id] }),
      );
    const nothing = await wait(newId());
    expect(nothing).toContain('waiting');
    const commands = foreign.filter(({ id, table }) => table === 'command' && id[14] === '7');
    for (const { id } of commands) expect(await wait(id)).toBe(nothing);
    expect(commands.length).toBeGreaterThan(0);
  });

  test('a command under an id that another contractor has used is ours, and theirs stands', async () => {
    const theirRows = await rowsOf(theirs.tenantId);
    const used = foreign.find(({ id, table }) => table === 'command' && id[14] === '7');
    const said = { circuitId: scene.of.circuit, who: 'Ines' };
    expect(await ours.send('technician', 'record-owner-told', said, { id: used!.id })).toMatchObject({
      outcome: 'applied',
    });
    expect(await rowsOf(theirs.tenantId)).toEqual(theirRows);
  });

  test('what is made under an id that another contractor uses is ours, and theirs stands', async () => {
    const theirRows = await rowsOf(theirs.tenantId);
    const byTable = Object.values(Object.groupBy(foreign, ({ table }) => table));
    // What one way has made, the next would find taken, and taken by us: each takes other ids.
    const perTable = (made: string) => {
      const nth = SAME_MADE.map((ways) => ways.indexOf(made)).find((index) => index >= 0) ?? 0;
      return byTable.flatMap((rows = []) => rows.at(-1 - nth) ?? []);
    };
    const tried = new Set<string>();
    for (const kind of COMMAND_NAMES) {
      for (const path of idPaths(await bodies[kind]()).filter((found) => isMade(kind, found))) {
        const nothing = await strangers(swap(kind, path));
        expect(nothing[7], `${kind} ${path.join('/')}`).toContain('"outcome":"applied"');
        for (const { id } of perTable(`${kind} ${path.join('/')}`))
          expect(await swap(kind, path)(id), `${kind} ${path.join('/')}`).toBe(nothing[id[14]!]);
        tried.add(`${kind} ${path.join('/')}`);
      }
    }
    expect(tried).toEqual(MADE);
    expect(await rowsOf(theirs.tenantId)).toEqual(theirRows);
  }, 120_000);
});

describe('the database by itself', () => {
  let app: pg.Client;
  let owner: pg.Client;
  beforeAll(async () => {
    const { application, owner: ofTables } = world.database.urls;
    [app, owner] = [new pg.Client({ connectionString: application }), new pg.Client({ connectionString: ofTables })];
    await Promise.all([app.connect(), owner.connect()]);
  });
  afterAll(() => Promise.all([app.end(), owner.end()]));
  const as = async <T>(tenantId: string, work: () => Promise<T>, login = app): Promise<T> => {
    await login.query(`BEGIN; SET LOCAL app.tenant_id = '${tenantId}'`);
    try {
      return await work();
    } finally {
      await login.query('ROLLBACK');
    }
  };
  const count = async (table: string) =>
    (await app.query<{ n: number }>(`SELECT count(*)::int AS n FROM ${table}`)).rows[0]!.n;

  test('without a tenant there are no rows in any table, on a fresh connection and on a used one', async () => {
    const filled = await tables();
    for (const table of filled) expect(await count(table), table).toBe(0);
    await as(theirs.tenantId, async () => {
      expect(await count('movement')).toBeGreaterThan(0);
      expect(await count('tenant')).toBe(1);
    });
    for (const table of filled) expect(await count(table), table).toBe(0);
    await app.query(`SELECT set_config('app.tenant_id', '', false)`);
    for (const table of filled) expect(await count(table), table).toBe(0);
  });

  test('with a tenant only its own rows are there, in every table', async () => {
    for (const table of await tables()) {
      const others = `SELECT count(*)::int AS n FROM ${table} WHERE ${tenantKey(table)} <> $1`;
      const seen = await as(ours.tenantId, () => app.query<{ n: number }>(others, [ours.tenantId]));
      expect(seen.rows[0]!.n, table).toBe(0);
    }
  });

  test('a row for another contractor is refused by every table', async () => {
    for (const table of await tables()) {
      const insert = `INSERT INTO ${table} (${tenantKey(table)}) VALUES ($1)`;
      const refused = await as(ours.tenantId, () => app.query(insert, [theirs.tenantId]).catch((error) => error));
      expect(refused, table).toMatchObject({ code: '42501' });
      const byWall = !['balance', 'feed_counter', 'tenant'].includes(table); // these three take no row from the application at all
      expect(refused.message, table).toContain(byWall ? 'row-level security' : 'permission denied');
    }
  });

  test('a row is not handed over to another contractor, and cannot point at one of theirs', async () => {
    const refusal = (login: pg.Client, text: string, values: unknown[]) =>
      as(ours.tenantId, () => login.query(text, values).catch((error) => error), login);
    const hand = (login: pg.Client) => refusal(login, 'UPDATE unit SET tenant_id = $1', [theirs.tenantId]);
    expect(await hand(app)).toMatchObject({ code: '42501' });
    // The owner of the tables may change any column: the wall itself stands in the way.
    expect((await hand(owner)).message).toContain('row-level security');
    const visit = foreign.find(({ table }) => table === 'visit')!;
    expect(await refusal(owner, 'UPDATE leak_point SET visit_id = $1', [visit.id])).toMatchObject({ code: '23503' });
    const link = 'INSERT INTO visit_circuit (tenant_id, visit_id, circuit_id) VALUES ($1, $2, $3)';
    const values = [ours.tenantId, visit.id, scene.of.circuit];
    expect(await refusal(app, link, values)).toMatchObject({ code: '23503' });
  });
});
