import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandAnswer, CommandName, Role } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { booksAfter } from './ledger-model.ts';
import type { Act, Books } from './ledger-model.ts';

const today = onDay('2026-04-30');
let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(today('20:00'));
});

/** Tare of the two cylinders: 28 lb = 12701 g and 55 lb = 24948 g. */
const TARE = [12_701, 24_948] as const;
/** 220 lb = 99790 g and 2 lb = 907 g: from the second, more is taken than the books held. */
const PREMISES = { fullGrams: [99_790, 907], bought: 72_575 - 24_948 } as const;
const NAMES: Readonly<Record<string, string>> = {
  'C-0': 'cylinder 0',
  'C-1': 'cylinder 1',
  'U0-A': 'circuit 0',
  'U1-A': 'circuit 1',
};
interface Scene {
  readonly circuits: readonly [string, string];
  readonly visits: readonly [string, string];
  readonly cylinders: readonly [string, string];
}

/** Two customers with a circuit each, a recovery cylinder and one of new gas. */
async function premises(firm: Contractor): Promise<Scene> {
  const pair = (): [string, string] => [newId(), newId()];
  const scene = { circuits: pair(), visits: pair(), cylinders: pair() };
  for (const at of [0, 1] as const) {
    await firm.send('dispatcher', 'take-call', {
      customer: { id: newId(), new: { name: `Customer ${at}` } },
      site: { id: newId(), new: { address: `${at} Quarry Bend`, timeZone: 'America/Denver', elevationM: 1600 } },
      unit: { id: newId(), new: { tag: `U${at}` } },
      circuit: {
        id: scene.circuits[at],
        new: {
          refrigerant: 'R-448A',
          use: 'commercial-refrigeration',
          fullCharge: { mass: { value: ['220', '2'][at]!, unit: 'lb' }, method: 'manufacturer' },
        },
      },
      history: [],
      visit: { id: scene.visits[at] },
    });
    await firm.send(
      'warehouse',
      'register-cylinder',
      {
        cylinderId: scene.cylinders[at],
        kind: at === 0 ? 'recovery' : 'refillable',
        specification: 'DOT-4BA400',
        serial: `S-${at}`,
        label: `C-${at}`,
        waterCapacity: { value: '123', unit: 'lb' },
        tare: { value: String(TARE[at]), unit: 'g' },
        testedMonth: '2024-03',
        ...(at === 1
          ? { gas: { refrigerant: 'R-448A', state: 'new' as const, gross: { value: '72575', unit: 'g' as const } } }
          : {}),
      },
      { at: today('00:00') },
    );
  }
  return scene;
}

const readings = fc
  .record({
    before: fc.integer({ min: 0, max: 40_000 }),
    moved: fc.oneof(fc.integer({ min: 0, max: 3_000 }), fc.constant(0)),
  })
  .map(({ before, moved }) => ({ before: Math.max(before, moved), moved }));
const acts: fc.Arbitrary<Act[]> = fc.uniqueArray(
  fc
    .record({
      kind: fc.constantFrom('recovery' as const, 'charge' as const, 'charge' as const, 'loss' as const),
      circuit: fc.constantFrom(0 as const, 1 as const),
      cylinder: fc.constantFrom(0 as const, 1 as const),
      read: readings,
      corrected: fc.option(readings, { freq: 2 }),
      full: fc.constantFrom('yes' as const, 'no' as const, 'unknown' as const),
      minute: fc.integer({ min: 60, max: 1_190 }),
    })
    .map(({ read, ...act }) => ({ ...act, ...read, moved: act.kind === 'loss' ? read.moved + 1 : read.moved })),
  { selector: ({ minute }) => minute, minLength: 1, maxLength: 9 },
);

interface Sending {
  readonly id: string;
  readonly kind: CommandName;
  readonly body: unknown;
  readonly at: string;
  readonly dependsOn: readonly string[];
}
const clockOf = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
const g = (grams: number) => ({ value: String(grams), unit: 'g' });

/** The commands of an act: what was reported, and the correction that follows it. */
function sendingsOf(act: Act, scene: Scene): Sending[] {
  const on = { visitId: scene.visits[act.circuit], circuitId: scene.circuits[act.circuit] };
  const at = today(clockOf(act.minute));
  const id = newId();
  if (act.kind === 'loss') {
    return [{ id, kind: 'record-service-loss', body: { ...on, mass: g(act.moved), how: 'Hose' }, at, dependsOn: [] }];
  }
  const direction = act.kind === 'recovery' ? 1 : -1;
  const weights = (read: { before: number; moved: number }) => ({
    before: g(TARE[act.cylinder] + read.before),
    after: g(TARE[act.cylinder] + read.before + direction * read.moved),
  });
  const shared = { ...on, cylinderId: scene.cylinders[act.cylinder], ...weights(act) };
  const recovery = {
    part: 'isolated',
    work: {},
    cylinderEvacuated: true,
    stop: { value: '0', unit: 'psig' },
    openLeak: false,
  };
  const first: Sending = {
    id,
    kind: act.kind === 'recovery' ? 'record-recovery' : 'record-charge',
    body: { ...shared, ...(act.kind === 'recovery' ? recovery : { full: act.full }) },
    at,
    dependsOn: [],
  };
  if (act.corrected === null) return [first];
  const body = { factId: id, ...weights(act.corrected), why: 'Read from the wrong line' };
  return [first, { id: newId(), kind: 'correct-weighing', body, at: today('19:59'), dependsOn: [id] }];
}

const WHO: readonly Role[] = ['technician', 'owner', 'manager'];
function send(firm: Contractor, { kind, body, ...rest }: Sending): Promise<CommandAnswer> {
  const who = WHO[rest.id.charCodeAt(35) % WHO.length]!; // the same person again when it is sent again
  return firm.send(who, kind, body as never, rest);
}

async function booksOf(firm: Contractor): Promise<{ books: Books; totals: unknown }> {
  const { accounts, totals } = await world.office.books(firm.actors.auditor);
  const rows = accounts.map(({ title, balances }): [string, number] => [
    NAMES[title] ?? title,
    balances.reduce((sum, { grams }) => sum + grams, 0),
  ]);
  return { books: Object.fromEntries(rows.filter(([, grams]) => grams !== 0)), totals };
}

/** Balances that are not the sum of their movements, or of a cylinder below nothing. */
const wrongBalances = (tenantId: string) =>
  world.sql(
    `WITH replay AS (
       SELECT account, refrigerant, owner, state, sum(grams) AS grams FROM (
         SELECT to_id AS account, refrigerant, to_owner AS owner, to_state AS state, grams FROM movement WHERE tenant_id = $1
         UNION ALL SELECT from_id, refrigerant, from_owner, from_state, -grams FROM movement WHERE tenant_id = $1) sides
       GROUP BY 1, 2, 3, 4),
     kept AS (SELECT account_id AS account, refrigerant, owner, state, grams, kind FROM balance WHERE tenant_id = $1)
     SELECT account, kept.grams AS kept, replay.grams AS replayed FROM kept FULL JOIN replay USING (account, refrigerant, owner, state)
     WHERE kept.grams IS DISTINCT FROM replay.grams OR (kept.kind = 'cylinder' AND kept.grams < 0)`,
    [tenantId],
  );
const rowsOf = async (tenantId: string) =>
  (
    await world.sql<{ n: number }>(
      `SELECT (SELECT count(*) FROM movement WHERE tenant_id = $1)::int + (SELECT count(*) FROM fact WHERE tenant_id = $1)::int
        + (SELECT count(*) FROM weighing WHERE tenant_id = $1)::int + (SELECT max(number) FROM feed WHERE tenant_id = $1)::int AS n`,
      [tenantId],
    )
  )[0]!.n;

describe('the books, whatever is done, by whomever, in whatever order it arrives', () => {
  test('equal an independent reckoning, close to zero, and move no gram twice', async () => {
    await fc.assert(
      fc.asyncProperty(acts, fc.infiniteStream(fc.nat()), fc.constantFrom(1, 3, 6), async (done, chance, writers) => {
        const firm = await world.contractor();
        const scene = await premises(firm);
        const draw = (): number => chance.next().value as number;
        const arrival = done
          .flatMap((act) => sendingsOf(act, scene))
          .map((sending) => ({ sending, place: draw() }))
          .toSorted((a, b) => a.place - b.place)
          .map(({ sending }) => sending);
        const lanes = Array.from({ length: writers }, (_, lane) => arrival.filter((__, at) => at % writers === lane));
        await Promise.all(
          lanes.map(async (lane) => {
            for (const sending of lane) await send(firm, sending);
          }),
        );
        const { books, totals } = await booksOf(firm);
        expect(books).toEqual(booksAfter(done, PREMISES));
        expect(totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
        expect(await wrongBalances(firm.tenantId)).toEqual([]);
        const rows = await rowsOf(firm.tenantId);
        const again = await Promise.all(arrival.map((sending) => send(firm, sending)));
        expect(again.map(({ outcome }) => outcome)).toEqual(arrival.map(() => 'already-applied'));
        expect(await rowsOf(firm.tenantId)).toBe(rows);
        expect((await booksOf(firm)).books).toEqual(books);
      }),
      { numRuns: 8, endOnFailure: false },
    );
  }, 600_000);
});
