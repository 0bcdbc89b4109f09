import { beforeAll, describe, expect, test } from 'vitest';
import type { CylinderView, DoubtView } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { airCheck, bottle, charge, g, gross, place, recover, transfer } from '../support/mixing.ts';
import type { Act } from '../support/mixing.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { permutations } from '../support/outcome.ts';

const today = onDay('2026-05-04');
let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(today('18:00'));
});

interface Scene {
  readonly firm: Contractor;
  readonly A: string;
  readonly B: string;
  readonly units: readonly string[];
  readonly acts: readonly Act[];
}
/** Circuits 1 and 2 of one customer, 3 of another with another gas; the acts in the order in which they happened. */
async function scene(): Promise<Scene> {
  const firm = await world.contractor();
  const [ann, bob] = [newId(), newId()];
  const one = await place(firm, { tag: 'One', refrigerant: 'R-448A', customerId: ann, customer: 'Ann’s Foods' });
  const two = await place(firm, { tag: 'Two', refrigerant: 'R-448A', customerId: ann });
  const three = await place(firm, { tag: 'Three', refrigerant: 'R-410A', customerId: bob, customer: 'Bob’s Ice' });
  const [A, B] = [await bottle(firm, 'A'), await bottle(firm, 'B')];
  await firm.send(
    'technician',
    'record-leak-point',
    {
      ...one,
      leakPointId: newId(),
      place: 'flare-nut',
      where: 'Case 7',
      highGramsPerYear: 6000,
    },
    { at: today('08:00') },
  );
  const openLeak = { stop: { value: '-20', unit: 'kpa-gauge' as const }, openLeak: true, minutesBelowSite: 10 };
  const acts: Act[] = [
    ['technician', 'record-recovery', recover(one, { into: A, net: [0, 8_000], but: openLeak }), '09:00'],
    ['warehouse', 'record-transfer', transfer({ from: A, into: B, left: [8_000, 5_000], came: [0, 2_990] }), '10:00'],
    ['technician', 'record-charge', charge(two, { from: B, net: [2_990, 2_390] }), '11:00'],
    [
      'technician',
      'record-recovery',
      recover(three, { into: B, net: [2_390, 2_890], but: { cylinderEvacuated: false } }),
      '12:00',
    ],
    ['warehouse', 'record-air-check', airCheck(A), '13:00'],
    ['technician', 'record-charge', charge(two, { from: B, net: [2_890, 2_590] }), '14:00'],
  ];
  const { items } = await world.office.units(firm.actors.owner, {});
  const units = ['One', 'Two', 'Three'].map((tag) => items.find((item) => item.tag === `${tag}-A`)!.unitId);
  return { firm, A, B, units, acts };
}

async function tell({ firm, acts }: Scene, order: readonly number[]): Promise<void> {
  for (const index of order) {
    const [role, kind, body, clock] = acts[index]!;
    await firm.send(role, kind, body as never, { at: today(clock) });
  }
}

const inWords = ({ title, cause, highGrams, confirmed, path }: DoubtView): unknown => [
  title,
  cause,
  highGrams,
  confirmed,
  path.map((step) => `${step.title} by ${step.factTitle} at ${step.at}`),
];
const byText = (a: unknown, b: unknown): number => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
const cylinderWords = ({ contents, cylinder, doubts, clearedDoubts, composition }: CylinderView): unknown => ({
  contents: contents.map(({ refrigerant, grams, owner, state }) => [refrigerant, grams, owner, state]).sort(byText),
  composition,
  mixed: cylinder.mixed,
  fit: cylinder.fit,
  doubts: doubts.map(inWords).sort(byText),
  cleared: clearedDoubts.map(inWords).sort(byText),
});

/** Everything that follows, without the ids, which differ from run to run. */
async function outcome({ firm, A, B, units }: Scene) {
  const { accounts, totals } = await world.office.books(firm.actors.auditor);
  const unit = await world.office.unit(firm.actors.auditor, units[1]!);
  return {
    books: accounts
      .map(({ title, balances }) => [
        title,
        balances.map(({ refrigerant, grams, owner, state }) => [refrigerant, grams, owner, state]).sort(byText),
      ])
      .sort(byText),
    totals,
    A: cylinderWords(await world.office.cylinder(firm.actors.warehouse, A)),
    B: cylinderWords(await world.office.cylinder(firm.actors.warehouse, B)),
    two: { mixed: unit.circuits[0]?.mixed, doubts: unit.circuits[0]?.doubts.map(inWords).sort(byText) },
  };
}
const IN_ORDER = [0, 1, 2, 3, 4, 5];

describe('a mistake told in order', () => {
  let told: Scene;
  let result: Awaited<ReturnType<typeof outcome>>;
  let bound: number;
  beforeAll(async () => {
    told = await scene();
    await tell(told, IN_ORDER);
    result = await outcome(told);
    bound = (await world.office.cylinder(told.firm.actors.owner, told.A)).clearedDoubts[0]!.highGrams!;
  });

  test('every gram is where it went, gas by gas and owner by owner', () => {
    // 100 lb = 45,359 g each. B: 3,000 g left A, 2,990 came; 600 go on; 500 g of R-410A come on 2,390. Of the 300 g that
    // go then, 300 x 2,390 / 2,890 = 248.1 and 300 x 500 / 2,890 = 51.9: 248 g and 52 g by the largest remainder.
    expect(Object.fromEntries(result.books as [string, unknown][])).toMatchObject({
      A: [['R-448A', 5_000, 'Ann’s Foods', 'recovered']],
      B: [
        ['R-410A', 448, 'Bob’s Ice', 'recovered'],
        ['R-448A', 2_142, 'Ann’s Foods', 'recovered'],
      ],
      'One-A': [['R-448A', 37_359, 'Ann’s Foods', 'in-use']],
      'Two-A': [
        ['R-410A', 52, 'Ann’s Foods', 'in-use'],
        ['R-448A', 46_207, 'Ann’s Foods', 'in-use'],
      ],
      'Three-A': [['R-410A', 44_859, 'Bob’s Ice', 'in-use']],
      Discrepancy: [['R-448A', 10, 'Ann’s Foods', 'recovered']],
    });
    expect(result.totals).toEqual(
      expect.arrayContaining(['R-410A', 'R-448A'].map((refrigerant) => ({ refrigerant, grams: 0 }))),
    );
  });

  test('what left the mixed cylinder is two movements of one fact, which come to what the scale showed', async () => {
    const rows = await world.sql<{ refrigerant: string; grams: number }>(
      `SELECT refrigerant, grams FROM movement WHERE tenant_id = $1 AND derived_cause IS NULL AND happened_at = $2 ORDER BY 1`,
      [told.firm.tenantId, today('14:00')],
    );
    expect(rows).toEqual([
      { refrigerant: 'R-410A', grams: 52 },
      { refrigerant: 'R-448A', grams: 248 },
    ]);
  });

  test('B is mixed beyond the purity limit, for the reclaimer or for destruction and for nothing else', async () => {
    const view = await world.office.cylinder(told.firm.actors.warehouse, told.B);
    expect(view.cylinder).toMatchObject({ mixed: true, refrigerant: 'R-448A', fit: ['return', 'destroy'] });
    expect(view.composition.map(({ refrigerant, percent }) => [refrigerant, percent.toFixed(2)])).toEqual([
      ['R-448A', '82.70'],
      ['R-410A', '17.30'],
    ]);
    const charging = view.fitness.find(({ use }) => use === 'charging');
    expect(charging?.reasons.map(({ source }) => source)).toContain('40 CFR 82 subpart F appendix A, 5.11.2');
    const { items } = await world.office.cylinders(told.firm.actors.warehouse, {});
    expect(items.find(({ id }) => id === told.B)?.fit).toEqual(view.cylinder.fit);
  });

  test('the doubt went along by its share, with its path; the check cleared it where it was made, and not where gas had gone', async () => {
    const { actors } = told.firm;
    const a = await world.office.cylinder(actors.warehouse, told.A);
    expect(a.cylinder).toMatchObject({ doubtText: null, fit: ['recovery', 'same-owner-only', 'return'] });
    expect(a.clearedDoubts).toMatchObject([
      { cause: 'recovery-below-site-pressure-open-leak', clearedAt: today('13:00') },
    ]);
    const b = await world.office.cylinder(actors.warehouse, told.B);
    // 3,000 of 8,000 g: three eighths of the bound, rounded up to the microgram.
    expect(b.doubts).toHaveLength(1);
    expect(b.doubts[0]?.highGrams).toBeCloseTo((bound * 3) / 8, 5);
    expect(b.doubts[0]?.text).toMatch(/^Gas came from A, which was recovered below site pressure/);
    expect(b.doubts[0]?.path.map(({ title, factTitle }) => [title, factTitle])).toEqual([
      ['A', 'Recovery'],
      ['B', 'Transfer'],
    ]);
    const { circuits } = await world.office.unit(actors.owner, told.units[1]!);
    expect(circuits[0]?.mixed).toBe(false); // 52 of 46,259 g is 0.11 %
    const shares = circuits[0]?.doubts.map(({ highGrams }) => highGrams!) ?? [];
    expect(shares).toHaveLength(2);
    expect(shares[0]).toBeCloseTo((((bound * 3) / 8) * 600) / 2_990, 5);
    expect(shares[1]).toBeCloseTo((((bound * 3) / 8) * 300) / 2_890, 5);
    expect(circuits[0]?.doubts[0]?.path.map(({ title }) => title)).toEqual(['A', 'B', 'Two-A']);
  });

  test('what was done wrong is booked, and somebody is asked', async () => {
    const { items } = await world.office.attention(told.firm.actors.owner);
    const ofB = items.filter(({ subjectId }) => subjectId === told.B).map(({ reason }) => reason);
    // The other gas, the mixed gas charged, another's used gas charged, and why gas under doubt was.
    expect(ofB.sort()).toEqual(['mixed', 'not-same-owner', 'other-gas', 'suspected']);
  });
});

test('told in 24 orders of the first four acts, with check and last charge in between, it ends in equal books and doubts', async () => {
  const first = await scene();
  await tell(first, IN_ORDER);
  const expected = await outcome(first);
  for (const [index, order] of permutations([0, 1, 2, 3]).entries()) {
    const arrival = order.toSpliced(index % 5, 0, 4).toSpliced((index * 2) % 6, 0, 5);
    const told = await scene();
    await tell(told, arrival);
    expect(await outcome(told), `order ${arrival.join('')}`).toEqual(expected);
    const { items } = await world.office.attention(told.firm.actors.owner);
    const ofB = items.filter(({ subjectId }) => subjectId === told.B).map(({ reason }) => reason);
    expect(ofB, `order ${arrival.join('')}`).toEqual(expect.arrayContaining(['mixed', 'not-same-owner', 'other-gas']));
  }
}, 240_000);

describe('what is told later reaches the gas that has gone on', () => {
  test('a leak found smaller at the same visit shrinks the bound along the whole chain; one without a size removes it', async () => {
    const told = await scene();
    await tell(told, [0, 1, 2]);
    const { firm } = told;
    const high = async () => (await world.office.cylinder(firm.actors.owner, told.B)).doubts[0]?.highGrams;
    const before = await high();
    expect(before).toBeGreaterThan(0);
    const [recovery] = told.acts;
    const { visitId, circuitId } = recovery![2] as { visitId: string; circuitId: string };
    const leak = { visitId, circuitId, place: 'flare-nut', where: 'Case 9' };
    await firm.send(
      'technician',
      'record-leak-point',
      { ...leak, leakPointId: newId(), highGramsPerYear: 6000 },
      { at: today('09:30') },
    );
    expect(await high()).toBeCloseTo(before! * 2, 4); // two holes of the same size let in twice as much
    await firm.send('technician', 'record-leak-point', { ...leak, leakPointId: newId() }, { at: today('09:31') });
    expect(await high()).toBeNull();
  });

  test('a corrected weight moves the shares and the split, and the first reading stays in the record', async () => {
    const told = await scene();
    const { firm, acts } = told;
    const ids: string[] = [];
    for (const [role, kind, body, clock] of acts) {
      const id = newId();
      ids.push(id);
      await firm.send(role, kind, body as never, { at: today(clock), id });
    }
    // The other gas was 1,000 g, not 500: B was weighed 1,890 g before it.
    await firm.send(
      'technician',
      'correct-weighing',
      { factId: ids[3]!, before: gross(1_890), why: 'Read from the wrong line' },
      { at: today('15:00') },
    );
    const { circuits } = await world.office.unit(firm.actors.owner, told.units[1]!);
    expect(circuits[0]?.balanceGrams).toBe(45_359 + 600 + 300);
    const rows = await world.sql<{ refrigerant: string; grams: number; standing: boolean }>(
      `SELECT m.refrigerant, m.grams, c.id IS NULL AS standing FROM movement m
       LEFT JOIN movement c ON c.tenant_id = m.tenant_id AND c.corrects_id = m.id
       WHERE m.tenant_id = $1 AND m.fact_id = $2 AND m.derived_cause IS NULL AND m.corrects_id IS NULL ORDER BY 3, 1`,
      [firm.tenantId, ids[5]],
    );
    // 300 x 1,000 / 2,890 = 103.8 and 196.2 g.
    expect(rows).toEqual([
      { refrigerant: 'R-410A', grams: 52, standing: false },
      { refrigerant: 'R-448A', grams: 248, standing: false },
      { refrigerant: 'R-410A', grams: 104, standing: true },
      { refrigerant: 'R-448A', grams: 196, standing: true },
    ]);
  });

  test('but not a height of the site: what was read stays as it was read', async () => {
    const firm = await world.contractor();
    const one = await place(firm, { tag: 'One', refrigerant: 'R-448A', customerId: newId(), customer: 'Ann’s Foods' });
    const [A, B] = [await bottle(firm, 'A'), await bottle(firm, 'B')];
    // 90 kPa absolute is above the 83.5 kPa of 1,600 m and below the 101.3 kPa of sea level (ISO 2533).
    const stop = { value: '90', unit: 'kpa' as const };
    const open = { stop, openLeak: true };
    await firm.send('technician', 'record-recovery', recover(one, { into: A, net: [0, 2_000], but: open }), {
      at: today('09:00'),
    });
    const { site } = await world.office.visit(firm.actors.owner, one.visitId);
    await firm.send('dispatcher', 'describe-site', { siteId: site.id, elevationM: 0 });
    await firm.send('warehouse', 'record-transfer', transfer({ from: A, into: B, left: [2_000, 1_000] }), {
      at: today('10:00'),
    });
    const doubtOf = async (id: string) => (await world.office.cylinder(firm.actors.owner, id)).cylinder.doubtText;
    expect([await doubtOf(A), await doubtOf(B)]).toEqual([null, null]);
    const next = recover(one, { into: A, net: [1_000, 2_000], but: { ...open, cylinderEvacuated: false } });
    await firm.send('technician', 'record-recovery', next, { at: today('11:00') });
    expect([await doubtOf(A), await doubtOf(B)]).toEqual(['suspected air', null]);
  });

  test('of a transfer, the cylinder that was read wrong has to be named where both were weighed', async () => {
    const told = await scene();
    const { firm, A, B } = told;
    const id = newId();
    await tell(told, [0]);
    const [, body] = [0, told.acts[1]![2]] as const;
    await firm.send('warehouse', 'record-transfer', body as never, { at: today('10:00'), id });
    const correct = (cylinderId?: string) =>
      firm.send('technician', 'correct-weighing', {
        factId: id,
        after: gross(4_900),
        why: 'Read again',
        ...(cylinderId === undefined ? {} : { cylinderId }),
      });
    await expect(correct()).rejects.toMatchObject({ errors: [{ pointer: '#/body/cylinderId' }] });
    expect(await correct(A)).toMatchObject({ outcome: 'applied' });
    const { accounts } = await world.office.books(firm.actors.auditor);
    const grams = Object.fromEntries(
      accounts.map(({ title, balances }) => [title, balances.reduce((sum, row) => sum + row.grams, 0)]),
    );
    // 3,100 g left A; B holds what its own scale showed, so 110 g are missing.
    expect(grams).toMatchObject({ A: 4_900, B: 2_990, Discrepancy: 110 });
    expect(B).not.toBe(A);
  });
});

describe('a transfer', () => {
  const cylinders = async (into: Parameters<typeof bottle>[2] = {}) => {
    const firm = await world.contractor();
    const gas = { refrigerant: 'R-448A', state: 'new' as const, gross: g(20_701) };
    const from = await bottle(firm, 'N', { kind: 'refillable', gas });
    return { firm, from, into: await bottle(firm, 'T', into) };
  };
  const netOf = async (firm: Contractor, id: string) =>
    (await world.office.cylinder(firm.actors.warehouse, id)).cylinder.netGrams;

  test('weighed on one side only moves what that side shows', async () => {
    const { firm, from, into } = await cylinders();
    await firm.send('warehouse', 'record-transfer', transfer({ from, into, came: [0, 2_000] }));
    expect([await netOf(firm, from), await netOf(firm, into)]).toEqual([6_000, 2_000]);
    await firm.send('warehouse', 'record-transfer', transfer({ from, into, left: [6_000, 5_500], evacuated: false }));
    expect([await netOf(firm, from), await netOf(firm, into)]).toEqual([5_500, 2_500]);
  });

  test('has each cylinder corrected by itself, by the correction made last, whatever arrives first', async () => {
    const corrections = [
      ['technician', 'from', 5_900, '18:03'],
      ['owner', 'to', 1_950, '18:04'],
      ['manager', 'from', 5_800, '18:05'],
    ] as const;
    const told = async (order: readonly (typeof corrections)[number][]) => {
      world.clock.now = today('18:00');
      const { firm, from, into } = await cylinders();
      const factId = newId();
      world.clock.now = today('18:10');
      const body = transfer({ from, into, left: [8_000, 6_000], came: [0, 1_900] });
      await firm.send('warehouse', 'record-transfer', body, { at: today('18:01'), id: factId });
      for (const [by, side, net, at] of order) {
        const cylinderId = side === 'from' ? from : into;
        const right = { factId, cylinderId, after: gross(net), why: `Read again at ${at}` };
        await firm.send(by, 'correct-weighing', right, { at: today(at) });
      }
      const { items } = await world.office.attention(firm.actors.owner);
      return {
        net: [await netOf(firm, from), await netOf(firm, into)],
        asked: items.flatMap(({ reason, text, subjectKind }) =>
          reason === 'corrected-twice' ? [[text, subjectKind]] : [],
        ),
      };
    };
    // By hand: 8,000 - 5,800 = 2,200 g left, of which the other scale found 1,950.
    const expected = {
      net: [5_800, 1_950],
      asked: [
        ['Two people corrected one weighing of N. What was corrected last stands; look which is right.', 'cylinder'],
      ],
    };
    for (const order of permutations(corrections))
      expect(await told(order), order.map(([, , , at]) => at).join(' ')).toEqual(expected);
  });

  test.each([
    ['into a disposable', { kind: 'disposable', specification: 'DOT-39' }, 2_000, 'disposable-used-for-recovery'],
    ['past its requalification', { testedMonth: '2020-01' }, 2_000, 'requalification-overdue'],
    ['kept for another gas', { dedicatedTo: 'R-22' }, 2_000, 'other-gas'],
    [
      'too weak for the gas',
      { specification: 'DOT-4BA150', servicePressurePsig: 150 },
      2_000,
      'service-pressure-too-low',
    ],
    ['beyond its legal fill', { waterCapacity: { value: '5', unit: 'lb' } }, 3_000, 'overfill'],
  ] as const)('%s: said before, booked and asked after', async (_name, but, grams, code) => {
    const { firm, from, into } = await cylinders(but as never);
    const advice = await world.office.cylinderUse(firm.actors.technician, {
      cylinderId: from,
      act: 'transfer',
      intoId: into,
      grams,
    });
    expect(advice.stops.map((stop) => stop.code)).toContain(code);
    const answer = await firm.send(
      'warehouse',
      'record-transfer',
      transfer({ from, into, left: [8_000, 8_000 - grams] }),
    );
    expect(answer.outcome).toBe('applied');
    expect(answer.asks.map((ask) => ask.code)).toContain(code);
    expect(await netOf(firm, into)).toBe(grams);
  });

  test('into the cylinder it comes from, or weighed on neither side, is refused at the field', async () => {
    const { firm, from, into } = await cylinders();
    const pointers = (body: Parameters<typeof transfer>[0]) =>
      firm.send('warehouse', 'record-transfer', transfer(body)).then(
        () => [],
        (error: { errors: { pointer: string }[] }) => error.errors.map(({ pointer }) => pointer),
      );
    expect(await pointers({ from, into: from, left: [8_000, 7_000] })).toEqual(['#/body/to/cylinderId']);
    expect(await pointers({ from, into })).toEqual(['#/body/from/weights']);
    expect(await pointers({ from, into, left: [7_000, 8_000] })).toEqual(['#/body/from/weights/after']);
    expect(await pointers({ from, into, came: [2_000, 1_000] })).toEqual(['#/body/to/weights/after']);
  });

  test('said to be done with hoses that were not purged, puts the second cylinder in doubt', async () => {
    const { firm, from, into } = await cylinders();
    const body = { ...transfer({ from, into, left: [8_000, 6_000] }), doubts: ['hoses-not-purged' as const] };
    await firm.send('warehouse', 'record-transfer', body);
    const view = await world.office.cylinder(firm.actors.warehouse, into);
    expect(view.doubts).toMatchObject([{ cause: 'hoses-not-purged', title: 'suspected air', blocks: true }]);
    expect((await world.office.cylinder(firm.actors.warehouse, from)).doubts).toEqual([]);
  });
});

describe('before gas is charged the phone learns', () => {
  const inCircuit = async () => {
    const firm = await world.contractor();
    const ann = newId();
    const one = await place(firm, { tag: 'One', refrigerant: 'R-448A', customerId: ann, customer: 'Ann’s Foods' });
    const id = await bottle(firm, 'A');
    const use = () =>
      world.office.cylinderUse(firm.actors.technician, { cylinderId: id, act: 'charge', circuitId: one.circuitId });
    return { firm, one, id, use };
  };
  const below = { stop: { value: '-20', unit: 'kpa-gauge' as const }, openLeak: true };

  test('a doubt without a bound stops it', async () => {
    const { firm, one, id, use } = await inCircuit();
    await firm.send('technician', 'record-recovery', recover(one, { into: id, net: [0, 5_000], but: below }));
    expect(await use()).toMatchObject({ stops: [{ code: 'contaminated' }], reasonNeeded: false });
  });

  test('a bounded one warns and wants a reason, which is kept', async () => {
    const { firm, one, id, use } = await inCircuit();
    await firm.send('technician', 'record-leak-point', {
      ...one,
      leakPointId: newId(),
      place: 'flare-nut',
      where: 'Case 7',
      highGramsPerYear: 600,
    });
    const bounded = { ...below, minutesBelowSite: 5 };
    await firm.send('technician', 'record-recovery', recover(one, { into: id, net: [0, 5_000], but: bounded }));
    expect(await use()).toMatchObject({ stops: [], warnings: [{ code: 'suspected' }], reasonNeeded: true });
    const unsaid = await firm.send('technician', 'record-charge', charge(one, { from: id, net: [5_000, 4_900] }));
    expect(unsaid.asks.map(({ code }) => code)).toEqual(['suspected']);
    const why = 'Its own gas, and no other on the van';
    const said = await firm.send('technician', 'record-charge', charge(one, { from: id, net: [4_900, 4_800], why }));
    expect(said.asks).toEqual([]);
    const { facts } = await world.office.visit(firm.actors.owner, one.visitId);
    expect(facts.at(-1)?.body).toMatchObject({ whyUnderDoubt: why });
  });

  test('a check over the limit stops what a bound had let through', async () => {
    const { firm, one, id, use } = await inCircuit();
    await firm.send('technician', 'record-recovery', recover(one, { into: id, net: [0, 5_000] }), {
      at: today('16:00'),
    });
    expect(await use()).toMatchObject({ stops: [], warnings: [] });
    await firm.send('warehouse', 'record-air-check', airCheck(id, { pressure: { value: '1400', unit: 'kpa' } }), {
      at: today('17:00'),
    });
    expect(await use()).toMatchObject({ stops: [{ code: 'contaminated' }] });
    const view = await world.office.cylinder(firm.actors.warehouse, id);
    expect(view.cylinder).toMatchObject({ doubtText: 'air over limit', fit: ['return'] });
    expect(view.doubts).toMatchObject([{ cause: 'air-check-over', confirmed: true, blocks: true }]);
  });

  test('what has to be said for the answer is asked for', async () => {
    const { firm, id } = await inCircuit();
    const ask = (act: 'charge' | 'transfer') =>
      world.office.cylinderUse(firm.actors.technician, { cylinderId: id, act });
    await expect(ask('charge')).rejects.toMatchObject({
      errors: [{ detail: expect.stringContaining('Circuit') as string }],
    });
    await expect(ask('transfer')).rejects.toMatchObject({
      errors: [{ detail: expect.stringContaining('Cylinder') as string }],
    });
  });
});

describe('what the circuit was found in', () => {
  const found = async (standing: string, ambient = '75') => {
    const firm = await world.contractor();
    const one = await place(firm, { tag: 'One', refrigerant: 'R-448A', customerId: newId(), customer: 'Ann’s Foods' });
    const id = await bottle(firm, 'A');
    await firm.send(
      'technician',
      'record-readings',
      {
        ...one,
        stage: 'first',
        running: false,
        ambient: { value: ambient, unit: 'F' },
        standing: { value: standing, unit: 'psig' },
      },
      { at: today('09:00') },
    );
    const [item] = (await world.office.units(firm.actors.owner, {})).items;
    const doubts = async () => {
      const { circuits } = await world.office.unit(firm.actors.owner, item!.unitId);
      return circuits[0]!.doubts.map(({ cause }) => cause);
    };
    return { firm, one, id, doubts };
  };

  // At 1,600 m the barometer is 83.5 kPa; R-448A at 75 °F stands at 1,074 to 1,253 kPa absolute: 144 to 170 psig there.
  test.each([
    ['flat', '0', ['circuit-flat']],
    ['above saturation', '200', ['circuit-above-saturation']],
    ['with liquid inside', '160', []],
  ])('%s', async (_name, standing, causes) => expect(await (await found(standing)).doubts()).toEqual(causes));

  test('goes along with what is recovered, and ends where all was out and a vacuum held', async () => {
    const { firm, one, id, doubts } = await found('200');
    const whole = { part: 'whole' as const };
    await firm.send('technician', 'record-recovery', recover(one, { into: id, net: [0, 9_000], but: whole }), {
      at: today('10:00'),
    });
    const view = await world.office.cylinder(firm.actors.warehouse, id);
    expect(view.doubts).toMatchObject([{ cause: 'circuit-above-saturation', highGrams: null, blocks: true }]);
    expect(view.doubts[0]?.path.map(({ title }) => title)).toEqual(['One-A', 'A']);
    await firm.send(
      'technician',
      'record-vacuum',
      {
        ...one,
        readings: [
          { minutes: 0, vacuum: { value: '420', unit: 'micron' } },
          { minutes: 10, vacuum: { value: '480', unit: 'micron' } },
        ],
        result: 'pass',
      },
      { at: today('11:00') },
    );
    expect(await doubts()).toEqual([]);
    expect((await world.office.cylinder(firm.actors.warehouse, id)).doubts).toHaveLength(1);
  });
});
