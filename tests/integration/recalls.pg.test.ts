/** What a failed detector, bad gas, a wrong scale and a wrong tare touched, worked off item by item. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { RecallView } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { airCheck, bottle, charge, g, gross, place, recover, transfer } from '../support/mixing.ts';
import type { Place } from '../support/mixing.ts';
import { statementsOf } from '../support/statements.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';

import { told } from '../support/told.ts';
import type { Scene } from '../support/bodies.ts';

let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
});

type Item = RecallView['items'][number];
const inWords = ({ kind, title, grams, way, settled }: Item) => ({
  what: `${kind}: ${title}`,
  grams,
  way: way.map(({ from, to, by, grams: moved }) => `${from} to ${to} by ${by}${moved === null ? '' : ` ${moved} g`}`),
  settled: settled?.how ?? null,
});
const read = (firm: Contractor, id: string): Promise<RecallView> => world.office.recall(firm.actors.auditor, id);
const waiting = async (firm: Contractor) =>
  (await world.office.attention(firm.actors.dispatcher)).items.filter(({ closedAt }) => closedAt === null);

describe('a detector fails its check', () => {
  let firm: Contractor;
  let scene: Scene;
  let recallId: string;
  const failedId = newId();
  const followUp = newId();
  const day = onDay('2026-05-05');

  const dutiesOf = async (kind: string) => {
    const unit = await world.office.unit(firm.actors.auditor, scene.of.unit);
    return unit.circuits[0]!.duties.filter((duty) => duty.kind === kind);
  };
  beforeAll(async () => {
    ({ firm, scene } = await told(world));
    world.clock.now = day('18:00');
    const { of, onSite } = scene;
    const on = { visitId: onSite, circuitId: of.circuit };
    const look = { ...on, method: 'electronic' as const, instrumentId: of.detector, unitState: 'off' as const };
    // By D-14: a clear look before (30 April, told), on 5 May a clear look, a hit, and the follow-up test.
    await firm.send(
      'technician',
      'record-look',
      { ...look, places: ['receiver'], result: 'clear' },
      { at: day('09:00') },
    );
    await firm.send(
      'technician',
      'record-look',
      { ...look, places: ['accumulator'], result: 'hit' },
      { at: day('09:10') },
    );
    await firm.send(
      'technician',
      'record-verification',
      {
        ...on,
        stage: 'follow-up',
        leakPointIds: [of.leak],
        method: 'electronic',
        instrumentId: of.detector,
        result: 'pass',
      },
      { at: day('09:30'), id: followUp },
    );
  });

  test('before that nothing is doubted: the follow-up test is done', async () => {
    expect((await dutiesOf('follow-up-verification')).map(({ state }) => state)).toEqual(['discharged']);
  });

  test('it is left to a person, and the recall that begins at it lists what lost its weight since the last good check', async () => {
    const { of, onSite } = scene;
    await firm.send(
      'technician',
      'record-tool-check',
      { visitId: onSite, instrumentId: of.detector, against: 'leak-standard', result: 'fail' },
      { at: day('17:00'), id: failedId },
    );
    const [item] = (await waiting(firm)).filter(({ reason }) => reason === 'instrument-failed');
    expect(item).toMatchObject({ subjectKind: 'instrument', subjectId: of.detector, commandId: failedId });
    expect(item?.text).toMatch(/^D-14 failed its check\./);

    recallId = newId();
    await firm.send('dispatcher', 'open-recall', { recallId, factId: failedId });
    const recall = await read(firm, recallId);
    expect(recall).toMatchObject({
      kind: 'instrument',
      subject: { kind: 'instrument', id: of.detector, title: 'D-14' },
      since: onDay('2026-04-30')('09:03'), // the check it passed that morning
      until: null,
      settled: 0,
      closedAt: null,
    });
    expect(recall.items.map(inWords)).toEqual([
      { what: 'look: 0417-A: Service valve core', grams: null, way: ['D-14 to 0417-A by Look'], settled: null },
      { what: 'look: 0417-A: Receiver or fusible plug', grams: null, way: ['D-14 to 0417-A by Look'], settled: null },
      {
        what: 'test: 0417-A: Follow-up verification test',
        grams: null,
        way: ['D-14 to 0417-A by Verification test'],
        settled: null,
      },
    ]);
    expect(recall.items[2]?.text).toContain('It discharges: Follow-up verification test, 40 CFR 84.106(e)');
    expect((await waiting(firm)).filter(({ reason }) => reason === 'instrument-failed')).toEqual([]);
    // Clear looks are in doubt on the unit's page by themselves.
    const unit = await world.office.unit(firm.actors.auditor, of.unit);
    const looks = unit.circuits[0]!.looks.filter(({ instrument }) => instrument === 'D-14');
    expect(looks.map(({ result, inDoubt }) => [result, inDoubt])).toEqual([
      ['hit', false],
      ['clear', true],
      ['clear', true],
    ]);
  });

  test('the test made with it must be made again: the duty is open with its first date, and a visit is proposed', async () => {
    await firm.send('dispatcher', 'settle-recall-item', {
      recallId,
      item: { kind: 'test', id: followUp },
      how: 'test-again',
    });
    const [duty] = await dutiesOf('follow-up-verification');
    // 40 CFR 84.106(e): within 10 days of normal operation on 30 April. Counted by hand: 10 May.
    expect(duty).toMatchObject({ state: 'open', dueOn: '2026-05-10' });
    const returns = await world.office.returns(firm.actors.dispatcher, {});
    expect(returns.items.filter(({ title }) => title === 'Follow-up verification test')).toHaveLength(1);
    const recall = await read(firm, recallId);
    expect(recall.settled).toBe(1);
    expect(recall.items[2]?.settled).toMatchObject({ how: 'test-again', by: expect.stringContaining('dispatcher') });
    // The fact stays, struck out by the one that set it aside.
    const unit = await world.office.unit(firm.actors.auditor, scene.of.unit);
    const events = unit.circuits[0]!.events;
    const away = events.find(({ kind }) => kind === 'set-aside');
    expect(events.find(({ id }) => id === followUp)?.correctedById).toBe(away?.id);
  });

  test('two looks at one circuit ask for one visit; the last one settled closes the recall', async () => {
    const looks = (await read(firm, recallId)).items.filter(({ kind }) => kind === 'look');
    for (const { id } of looks)
      await firm.send('dispatcher', 'settle-recall-item', { recallId, item: { kind: 'look', id }, how: 'look-again' });
    const recall = await read(firm, recallId);
    expect([recall.settled, recall.items.length, recall.closedAt]).toEqual([3, 3, world.clock.now]);
    const visits = new Set(recall.items.flatMap(({ settled }) => settled?.visitId ?? []));
    expect(visits.size).toBe(1);
    const { calls } = await world.office.returns(firm.actors.dispatcher, {});
    const [call] = calls.filter(({ id }) => visits.has(id));
    expect(call?.symptom).toBe('Recall: look again with a checked detector. D-14 failed its check.');
  });

  test('a clear look that is told later opens it again with one item; a good check ends the span', async () => {
    const { of, onSite } = scene;
    const late = { visitId: onSite, circuitId: of.circuit, places: ['ball-valve-stem' as const] };
    const by = { method: 'electronic' as const, instrumentId: of.detector, unitState: 'off' as const };
    await firm.send(
      'technician',
      'record-look',
      { ...late, ...by, result: 'clear' },
      { at: onDay('2026-05-04')('10:00') },
    );
    await firm.send('dispatcher', 'open-recall', { recallId: newId(), factId: failedId });
    const recall = await read(firm, recallId);
    expect([recall.closedAt, recall.settled, recall.items.length]).toEqual([null, 3, 4]);
    await firm.send(
      'technician',
      'record-tool-check',
      { visitId: onSite, instrumentId: of.detector, against: 'leak-standard', result: 'pass' },
      { at: day('17:30') },
    );
    await firm.send('technician', 'record-look', { ...late, ...by, result: 'clear' }, { at: day('17:40') });
    expect(await read(firm, recallId)).toMatchObject({ until: day('17:30'), items: { length: 4 } });
  });

  test('a test that names no detector is touched by the one that was in hand at that visit', async () => {
    const { of, onSite } = scene;
    const on = { visitId: onSite, circuitId: of.circuit };
    const [first, second] = [newId(), newId()];
    await firm.send('warehouse', 'register-instrument', { instrumentId: first, kind: 'detector', tag: 'D-20' });
    const checked = { visitId: onSite, instrumentId: first, against: 'leak-standard' as const };
    await firm.send('technician', 'record-tool-check', { ...checked, result: 'pass' }, { at: day('11:00') });
    await firm.send(
      'technician',
      'record-verification',
      { ...on, stage: 'follow-up', leakPointIds: [of.leak], method: 'electronic', result: 'pass' },
      { at: day('11:30'), id: second },
    );
    const factId = newId();
    await firm.send(
      'technician',
      'record-tool-check',
      { ...checked, result: 'fail' },
      { at: day('12:00'), id: factId },
    );
    const id = newId();
    await firm.send('warehouse', 'open-recall', { recallId: id, factId });
    const { items } = await read(firm, id);
    expect(items.map((item) => [item.id, item.way[0]?.by])).toEqual([
      [second, 'Verification test, at a visit where it was in hand'],
    ]);
  });
});

describe('bad gas', () => {
  let firm: Contractor;
  let [one, two] = [{} as Place, {} as Place];
  let [A, B] = ['', ''];
  const today = onDay('2026-05-04');
  const opened = newId();
  beforeAll(async () => {
    world.clock.now = today('18:00');
    firm = await world.contractor();
    const ann = newId();
    one = await place(firm, { tag: 'One', refrigerant: 'R-448A', customerId: ann, customer: 'Ann’s Foods' });
    two = await place(firm, { tag: 'Two', refrigerant: 'R-448A', customerId: ann });
    [A, B] = [await bottle(firm, 'A'), await bottle(firm, 'B')];
    await firm.send('technician', 'record-recovery', recover(one, { into: A, net: [0, 8_000] }), {
      at: today('08:00'),
    });
    // Good at nine: what left before is not touched.
    await firm.send('technician', 'record-charge', charge(two, { from: A, net: [8_000, 7_900] }), {
      at: today('08:30'),
    });
    await firm.send('warehouse', 'record-air-check', airCheck(A), { at: today('09:00') });
    const moved = transfer({ from: A, into: B, left: [7_900, 4_900], came: [0, 3_000] });
    await firm.send('warehouse', 'record-transfer', moved, { at: today('10:00') });
    await firm.send('technician', 'record-charge', charge(two, { from: B, net: [3_000, 2_400] }), {
      at: today('11:00'),
    });
    await firm.send('technician', 'record-charge', charge(one, { from: B, net: [2_400, 2_100] }), {
      at: today('12:00'),
    });
  });

  test('an air check over the limit leads to where the gas went since the last good one, with masses and the way', async () => {
    const factId = newId();
    const over = airCheck(A, { pressure: { value: '1402.6', unit: 'kpa' } });
    await firm.send('warehouse', 'record-air-check', over, { at: today('17:00'), id: factId });
    const [item] = await waiting(firm);
    expect(item).toMatchObject({ reason: 'air-check-over', subjectId: A, commandId: factId });
    await firm.send('warehouse', 'open-recall', { recallId: opened, factId });
    const recall = await read(firm, opened);
    expect(recall.since).toBe(today('09:00'));
    expect(recall.items.map(inWords)).toEqual([
      { what: 'cylinder: A', grams: null, way: [], settled: null },
      { what: 'cylinder: B', grams: 3_000, way: ['A to B by Transfer 3000 g'], settled: null },
      {
        what: 'circuit: Two-A',
        grams: 600,
        way: ['A to B by Transfer 3000 g', 'B to Two-A by Charge 600 g'],
        settled: null,
      },
      {
        what: 'circuit: One-A',
        grams: 300,
        way: ['A to B by Transfer 3000 g', 'B to One-A by Charge 300 g'],
        settled: null,
      },
    ]);
  });

  test('opened by eight at once it is one recall, and each is told which', async () => {
    const factId = newId();
    const over = airCheck(B, { pressure: { value: '1402.6', unit: 'kpa' } });
    await firm.send('warehouse', 'record-air-check', over, { at: today('17:10'), id: factId });
    const answers = await Promise.all(
      Array.from({ length: 8 }, () => firm.send('warehouse', 'open-recall', { recallId: newId(), factId })),
    );
    const named = answers.flatMap(({ records }) => records.filter(({ kind }) => kind === 'recall'));
    expect(named).toHaveLength(8);
    expect(new Set(named.map(({ id }) => id)).size).toBe(1);
    const { items } = await world.office.recalls(firm.actors.auditor);
    expect(items.filter(({ title }) => title === 'B')).toHaveLength(1);
  });

  test('a cylinder that is set aside is blocked until somebody releases it, whatever an air check says', async () => {
    const id = newId();
    const body = { recallId: opened, item: { kind: 'cylinder' as const, id: A }, how: 'set-aside' as const };
    const first = await firm.send('warehouse', 'settle-recall-item', body, { id });
    expect((await firm.send('warehouse', 'settle-recall-item', body, { id })).outcome).toBe('already-applied');
    expect(first.outcome).toBe('applied');
    await firm.send('warehouse', 'record-air-check', airCheck(A), { at: today('17:20') });
    const held = await world.office.cylinder(firm.actors.warehouse, A);
    expect(held.doubts.map(({ cause, blocks }) => [cause, blocks])).toEqual([['set-aside', true]]);
    expect(held.cylinder.fit).not.toContain('charging');
    await firm.send('technician', 'release-cylinder', { cylinderId: A, why: 'Read again by the shop gauge' });
    const free = await world.office.cylinder(firm.actors.warehouse, A);
    expect([free.doubts, free.clearedDoubts.some(({ cause }) => cause === 'set-aside')]).toEqual([[], true]);
    const again = await refusalOf(firm.send('technician', 'release-cylinder', { cylinderId: A, why: 'Once more' }));
    expect(Object.keys(faultsIn(again))).toEqual(['#/body/cylinderId']);
  });

  test('of two who settle one circuit at once, one proposes the visit and the other is told who', async () => {
    const send = () =>
      firm.send('dispatcher', 'settle-recall-item', {
        recallId: opened,
        item: { kind: 'circuit', id: two.circuitId },
        how: 'return-visit',
      });
    const results = await Promise.allSettled([send(), send()]);
    const lost = results.flatMap((result) => (result.status === 'rejected' ? [result.reason as Error] : []));
    expect(lost).toHaveLength(1);
    expect(lost[0]?.message).toMatch(/^Item: dispatcher .* has settled it already\.$/);
    const { calls } = await world.office.returns(firm.actors.dispatcher, {});
    const ours = calls.filter(({ symptom }) => symptom?.startsWith('Recall: gas from A came to this circuit.'));
    expect(ours).toHaveLength(1);
  });

  test('nothing to do needs a reason, and the action of another kind is refused', async () => {
    const item = { kind: 'circuit' as const, id: one.circuitId };
    const bare = await refusalOf(
      firm.send('dispatcher', 'settle-recall-item', { recallId: opened, item, how: 'nothing' }),
    );
    expect(Object.keys(faultsIn(bare))).toEqual(['#/body/why']);
    const wrong = firm.send('dispatcher', 'settle-recall-item', { recallId: opened, item, how: 'set-aside' });
    expect(Object.keys(faultsIn(await refusalOf(wrong)))).toEqual(['#/body/how']);
    const early = await refusalOf(firm.send('dispatcher', 'close-recall', { recallId: opened }));
    // A and Two were settled; B was not, nor One.
    expect(faultsIn(early)).toEqual({
      '#/body/recallId': 'Recall: 2 of 4 are not settled; settle them first.',
    });
    const why = 'It was evacuated and filled anew the same evening.';
    await firm.send('dispatcher', 'settle-recall-item', { recallId: opened, item, how: 'nothing', why });
    const done = (await read(firm, opened)).items.find(({ id }) => id === one.circuitId);
    expect(done?.settled).toMatchObject({ how: 'nothing', why });
  });

  test('a cylinder found good by an air check since is settled by that; gas that comes to it later asks again', async () => {
    world.clock.now = today('18:30');
    await firm.send('warehouse', 'record-air-check', airCheck(B), { at: today('18:10') });
    const itemB = async () => (await read(firm, opened)).items.find(({ id }) => id === B);
    expect((await itemB())?.settled?.how).toBe('checked');
    await firm.send('warehouse', 'close-recall', { recallId: opened });
    world.clock.now = today('19:00');
    const more = transfer({ from: A, into: B, left: [4_900, 4_400], came: [2_100, 2_600], evacuated: false });
    await firm.send('warehouse', 'record-transfer', more, { at: today('18:40') });
    expect(await itemB()).toMatchObject({ settled: null, grams: 3_500, more: [{ from: 'A', to: 'B', grams: 500 }] });
    // B's own list began at its own check: closed, it is still another recall.
    const again = { cylinderId: A, since: today('09:00'), why: 'Air in it' };
    await firm.send('warehouse', 'recall-gas', { recallId: newId(), ...again });
    expect((await read(firm, opened)).closedAt).toBeNull();
  });

  test('a recall asks as much of the database for thirty things as for three', async () => {
    const id = newId();
    await firm.send('warehouse', 'recall-gas', { recallId: id, cylinderId: B, since: today('09:00'), why: 'Count' });
    const few = (await statementsOf(() => read(firm, id))).length;
    const before = (await read(firm, id)).items.length;
    for (let n = 0; n < 12; n += 1) {
      const next = await bottle(firm, `N-${n}`);
      const net = 2_600 - 10 * n;
      const moved = transfer({ from: B, into: next, left: [net, net - 10], came: [0, 10] });
      await firm.send('warehouse', 'record-transfer', moved, { at: today(`18:${41 + n}`) });
    }
    expect((await read(firm, id)).items).toHaveLength(before + 12);
    expect((await statementsOf(() => read(firm, id))).length).toBe(few);
  });

  test('a cylinder that somebody says is bad counts from the moment said, and not from one ahead', async () => {
    const id = newId();
    const from = { cylinderId: A, since: today('08:15'), why: 'Smells of acid' };
    await firm.send('warehouse', 'recall-gas', { recallId: id, ...from });
    const titles = (await read(firm, id)).items.map(({ title, grams }) => [title, grams]);
    expect(titles.slice(0, 4)).toEqual([
      ['A', null],
      ['Two-A', 700],
      ['B', 3_500],
      ['One-A', 300],
    ]);
    const ahead = { ...from, since: onDay('2026-05-09')('08:00') };
    const refused = await refusalOf(firm.send('warehouse', 'recall-gas', { recallId: newId(), ...ahead }));
    expect(Object.keys(faultsIn(refused))).toEqual(['#/body/since']);
  });
});

describe('a scale and a tare', () => {
  let firm: Contractor;
  let on = {} as Place;
  let [A, scale] = ['', ''];
  const today = onDay('2026-05-04');
  const chargeId = newId();
  beforeAll(async () => {
    world.clock.now = today('18:00');
    firm = await world.contractor();
    on = await place(firm, { tag: 'Five', refrigerant: 'R-448A', customerId: newId(), customer: 'Ann’s Foods' });
    scale = newId();
    await firm.send('warehouse', 'register-instrument', { instrumentId: scale, kind: 'scale', tag: 'S-9' });
    A = await bottle(firm, 'A', { gas: { refrigerant: 'R-448A', state: 'reclaimed', gross: gross(9_000) } });
    const body = { ...charge(on, { from: A, net: [9_000, 8_100] }), scaleId: scale };
    await firm.send('technician', 'record-charge', body, { at: today('10:00'), id: chargeId });
    await firm.send(
      'warehouse',
      'weigh-cylinder',
      { cylinderId: A, gross: gross(8_000), scaleId: scale },
      { at: today('11:00') },
    );
  });

  test('what was weighed by a scale that failed: the acts with what was posted, the cylinder and the circuit', async () => {
    const factId = newId();
    const failed = { calibratedOn: '2026-05-04', by: 'Front Range Metrology', result: 'fail' as const };
    await firm.send('warehouse', 'record-calibration', { instrumentId: scale, ...failed }, { id: factId });
    const id = newId();
    await firm.send('warehouse', 'open-recall', { recallId: id, factId });
    const { items } = await read(firm, id);
    // At rest the scale showed 100 g less than the books had: 900 g were charged, 8,100 g left.
    expect(items.map(({ kind, title, grams }) => [kind, title, grams])).toEqual([
      ['circuit', 'Five-A', 900],
      ['cylinder', 'A', 1_000],
      ['weighing', 'Charge: A, Five-A', 900],
      ['weighing', 'Weighed: A', 100],
    ]);
    world.clock.now = today('18:30');
    await firm.send('technician', 'correct-weighing', { factId: chargeId, after: gross(8_050), why: 'Shop scale' });
    await firm.send('warehouse', 'weigh-cylinder', { cylinderId: A, gross: gross(8_040) }, { at: today('18:20') });
    const after = await read(firm, id);
    expect(after.items.map(({ kind, settled }) => [kind, settled?.how ?? null])).toEqual([
      ['circuit', null],
      ['cylinder', 'weighed'],
      ['weighing', 'put-right'],
      ['weighing', null],
    ]);
    expect(after.items[2]?.grams).toBe(950);
  });

  test('a tare put right leads to what was weighed under the old one; a cylinder nobody weighed touched nothing', async () => {
    world.clock.now = today('18:45');
    const factId = newId();
    await firm.send(
      'warehouse',
      'correct-tare',
      { cylinderId: A, tare: g(12_500), since: 'always', why: 'The stamp reads 12.5 kg.' },
      { id: factId },
    );
    expect((await waiting(firm)).map(({ reason }) => reason)).toContain('tare-corrected');
    const id = newId();
    await firm.send('warehouse', 'open-recall', { recallId: id, factId });
    const { items } = await read(firm, id);
    expect(items.map(({ kind, title }) => `${kind} ${title}`)).toEqual([
      'cylinder A',
      'weighing Charge: A, Five-A',
      'weighing Weighed: A',
      'weighing Cylinder registered: A',
      'weighing Weighed: A',
    ]);
    expect((await waiting(firm)).map(({ reason }) => reason)).not.toContain('tare-corrected');

    const empty = await bottle(firm, 'E');
    const emptyId = newId();
    await firm.send(
      'warehouse',
      'correct-tare',
      { cylinderId: empty, tare: g(12_500), since: 'now', why: 'New valve' },
      { id: emptyId },
    );
    const none = newId();
    await firm.send('warehouse', 'open-recall', { recallId: none, factId: emptyId });
    expect((await read(firm, none)).items).toEqual([]);
    await firm.send('warehouse', 'close-recall', { recallId: none });
    expect((await read(firm, none)).closedAt).not.toBeNull();
  });

  test('a check that was passed opens nothing, and neither does what another contractor wrote down', async () => {
    const factId = newId();
    const good = { calibratedOn: '2026-05-04', by: 'Front Range Metrology', result: 'pass' as const };
    await firm.send('warehouse', 'record-calibration', { instrumentId: scale, ...good }, { id: factId });
    const refused = await refusalOf(firm.send('warehouse', 'open-recall', { recallId: newId(), factId }));
    expect(Object.keys(faultsIn(refused))).toEqual(['#/body/factId']);
    const other = await world.contractor('Heron Cold Works');
    const theirs = other.send('warehouse', 'open-recall', { recallId: newId(), factId });
    expect((await refusalOf(theirs)).code).toBe('not-found');
    const gas = other.send('warehouse', 'recall-gas', { recallId: newId(), cylinderId: A, why: 'Theirs' });
    expect((await refusalOf(gas)).code).toBe('not-found');
  });
});
