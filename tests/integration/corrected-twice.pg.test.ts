/** Several people put one weighing right: books, law and record are the same whatever arrives first. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandBody, Role } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { outcome, permutations } from '../support/outcome.ts';
import { expectPlainWords, faultsIn, refusalOf } from '../support/refused.ts';
import { cylinders, ids, theCall } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

const today = onDay('2026-04-30');
let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(today('17:00'));
});

const g = (grams: number) => ({ value: String(grams), unit: 'g' as const });
type Right = Pick<CommandBody<'correct-weighing'>, 'before' | 'after' | 'full'>;
interface Correction {
  readonly by: Role;
  readonly at: string;
  readonly right: Right;
  readonly id?: string;
}
interface Told {
  readonly firm: Contractor;
  readonly of: StoryIds;
  readonly charge: string;
  /** Sends the charge or a correction of it; a correction that comes too early waits for the charge. */
  send(what: 'charge' | Correction): Promise<string>;
}
/** A circuit and a full cylinder; 12,000 g are charged at 14:00, once that is sent. */
async function begin(): Promise<Told> {
  const firm = await world.contractor();
  const of = ids();
  const charge = newId();
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
    at: today('07:30'),
  });
  await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
  return {
    firm,
    of,
    charge,
    async send(what) {
      if (what === 'charge') {
        const weights = { before: g(72_575), after: g(60_575), full: 'yes' as const };
        const body = { visitId: of.visit, circuitId: of.circuit, cylinderId: of.newGas, ...weights };
        await firm.send('technician', 'record-charge', body, { at: today('14:00'), id: charge });
        return charge;
      }
      const { by, at, right, id = newId() } = what;
      const body = { factId: charge, ...right, why: `Read again at ${at}` };
      await firm.send(by, 'correct-weighing', body, { at: today(at), id, dependsOn: [charge] });
      return id;
    },
  };
}
const asked = async ({ firm }: Told) =>
  (await world.office.attention(firm.actors.owner)).items
    .filter(({ reason }) => reason === 'corrected-twice')
    .map(({ text, subjectKind, closedAt }) => [text, subjectKind, closedAt]);
/** What each correction is struck out by, in the words of its reason. */
async function struck({ firm, of }: Told) {
  const { facts } = await world.office.visit(firm.actors.owner, of.visit);
  const words = new Map(facts.map(({ id, body }) => [id, typeof body['why'] === 'string' ? body['why'] : 'charge']));
  return Object.fromEntries(
    facts
      .filter(({ correctedById }) => correctedById !== null)
      .map(({ id, correctedById }) => [words.get(id), words.get(correctedById ?? '')]),
  );
}
async function after(told: Told) {
  return { ...(await outcome(world, told.firm, told.of.unit)), asked: await asked(told), struck: await struck(told) };
}

const EARLY: Correction = { by: 'technician', at: '15:50', right: { after: g(60_075) } };
const BEFORE: Correction = { by: 'technician', at: '16:00', right: { before: g(72_675) } };
const LATE: Correction = { by: 'manager', at: '16:05', right: { after: g(61_575) } };

test('24 orders of a charge and three corrections by two people end in equal books, law, questions and record', async () => {
  const tell = async (order: readonly ('charge' | Correction)[]) => {
    const told = await begin();
    for (const what of order) await told.send(what);
    return after(told);
  };
  const [first, ...others] = permutations(['charge', EARLY, BEFORE, LATE] as const);
  const expected = await tell(first!);
  // By hand: 72,675 - 61,575 = 11,100 g went in, all of which had leaked; 8,165 g of February's addition had before it.
  // The cylinder held 72,575 - 24,948 = 47,627 g by its label; 100 g more by the corrected reading.
  expect(expected.books).toEqual(
    expect.arrayContaining([
      ['0417-A', [[99_790, 'in-use']]],
      ['Atmosphere', [[19_265, 'in-use']]],
      ['Discrepancy', [[-100, 'new']]],
      ['N-22', [[36_627, 'new']]],
    ]),
  );
  expect(expected.totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
  expect(expected.additions?.[0]).toEqual(['2026-04-30', 11_100]);
  expect(expected.asked).toEqual([
    ['Two people corrected one weighing of N-22. What was corrected last stands; look which is right.', 'visit', null],
  ]);
  expect(expected.struck).toEqual({
    charge: 'Read again at 16:05',
    'Read again at 15:50': 'Read again at 16:05',
  });
  for (const order of others) {
    const names = order.map((what) => (what === 'charge' ? what : what.at)).join(' ');
    expect(await tell(order), names).toEqual(expected);
  }
}, 120_000);

test('any corrections that are possible by themselves, in any two orders, end in equal books and law', async () => {
  const minute = fc.integer({ min: 0, max: 3 }).map((at) => `15:0${at}`);
  // 12,000 g were charged: either weight may be off by less than that.
  const slip = fc.option(fc.integer({ min: -11_000, max: 11_000 }), { nil: undefined });
  const right = fc.record({ before: slip, after: slip, full: fc.constantFrom('yes', 'no', 'unknown', undefined) });
  const one = fc.tuple(fc.constantFrom<Role>('technician', 'manager', 'owner'), minute, right);
  const possible = one.filter(
    ([, , { before = 0, after: less = 0, full }]) =>
      12_000 + before - less >= 0 && (before !== 0 || less !== 0 || full !== undefined),
  );
  const orders = fc.array(possible, { minLength: 2, maxLength: 4 }).chain((made) => {
    const corrections = made.map(([by, at, { before, after: less, full }]): Correction => ({
      by,
      at,
      id: newId(),
      right: {
        ...(before === undefined ? {} : { before: g(72_575 + before) }),
        ...(less === undefined ? {} : { after: g(60_575 + less) }),
        ...(full === undefined ? {} : { full }),
      },
    }));
    return fc.tuple(fc.constant(corrections), fc.shuffledSubarray(corrections, { minLength: corrections.length }));
  });
  const tell = async (order: readonly Correction[]) => {
    const told = await begin();
    await told.send('charge');
    for (const what of order) await told.send(what);
    return after(told);
  };
  await fc.assert(
    fc.asyncProperty(orders, async ([made, shuffled]) => {
      expect(await tell(shuffled)).toEqual(await tell(made));
    }),
    { numRuns: 12, endOnFailure: true },
  );
}, 120_000);

describe('a person is asked', () => {
  test('once, by whichever arrives second, and again when a third one overtakes after they have looked', async () => {
    const told = await begin();
    for (const what of ['charge', LATE, EARLY] as const) await told.send(what);
    expect(await asked(told)).toHaveLength(1);
    const { items } = await world.office.attention(told.firm.actors.owner);
    const attentionId = items.find(({ reason }) => reason === 'corrected-twice')!.id;
    await told.firm.send('dispatcher', 'settle-attention', { attentionId, how: 'looked-at' });
    await told.send({ by: 'owner', at: '16:20', right: { after: g(61_000) } });
    expect((await asked(told)).filter(([, , closedAt]) => closedAt === null)).toHaveLength(1);
    expect(await asked(told)).toHaveLength(2);
  });

  test('not when one person corrects twice, nor when two read the same', async () => {
    const told = await begin();
    for (const what of ['charge', EARLY, { ...LATE, by: 'technician' }] as const) await told.send(what);
    expect(await struck(told)).toMatchObject({ 'Read again at 15:50': 'Read again at 16:05' });
    const other = await begin();
    for (const what of ['charge', EARLY, { ...EARLY, by: 'manager', at: '16:30' }] as const) await other.send(what);
    expect([await asked(told), await asked(other)]).toEqual([[], []]);
  });

  test('when a correction does not count, because with another one a weight would go the wrong way', async () => {
    const told = await begin();
    await told.send('charge');
    await told.send({ by: 'technician', at: '15:00', right: { before: g(61_000) } });
    const then = { factId: told.charge, after: g(62_000), why: 'Read again' };
    const answer = await told.firm.send('technician', 'correct-weighing', then, { at: today('15:10') });
    const text =
      'A correction of N-22 goes the wrong way with another; it is kept and not counted. Look which is right.';
    expect(answer).toMatchObject({ outcome: 'applied', asks: [{ code: 'correction-set-aside', text }] });
    expect((await outcome(world, told.firm, told.of.unit)).additions?.[0]).toEqual(['2026-04-30', 425]);
  });
});

describe('a correction that makes a weight go the wrong way', () => {
  test('by itself is refused', async () => {
    const told = await begin();
    await told.send('charge');
    const refusal = await refusalOf(told.send({ by: 'technician', at: '15:00', right: { before: g(60_000) } }));
    expect(faultsIn(refusal)).toEqual({
      '#/body/after': 'Gross after: an emptied cylinder gets lighter; check both weights.',
    });
    expectPlainWords(refusal, 'correct-weighing');
  });

  test('but for the one before it waits for that one, where its device says so', async () => {
    const [less, then] = [newId(), newId()];
    const lighter = { by: 'technician', at: '15:00', right: { after: g(50_000) }, id: less } as const;
    for (const early of [true, false]) {
      const told = await begin();
      await told.send('charge');
      const body = { factId: told.charge, before: g(60_000), why: 'Both lines were wrong' };
      const correct = () =>
        told.firm.send('technician', 'correct-weighing', body, { at: today('15:01'), id: then, dependsOn: [less] });
      if (early) await correct();
      await told.send(lighter);
      if (!early) await correct();
      const { additions } = await outcome(world, told.firm, told.of.unit);
      expect(additions?.[0]).toEqual(['2026-04-30', 10_000]);
    }
  });
});

test('the service record hands over the weights that stand, and every correction with the word that another one stands', async () => {
  const told = await begin();
  for (const what of ['charge', LATE, EARLY] as const) await told.send(what);
  const record = await world.office.serviceRecord(told.firm.actors.owner, told.of.visit);
  expect(record.gas).toMatchObject([{ direction: 'added', grams: 11_000 }]);
  expect(record.corrections.map(({ why }) => why)).toEqual([
    'Read again at 15:50 (a later correction stands)',
    'Read again at 16:05',
  ]);
});
