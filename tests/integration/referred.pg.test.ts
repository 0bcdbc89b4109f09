/** An id in a body that refers to what another command wrote down. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Scene } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { expectPlainWords, faultsIn, refusalOf } from '../support/refused.ts';
import { theCall, ids } from '../support/story.ts';
import { told } from '../support/told.ts';

let world: TestOffice;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
  ({ firm, scene } = await told(world));
}, 60_000);

const on = () => ({ visitId: scene.onSite, circuitId: scene.of.circuit });
const look = () => ({
  ...on(),
  places: ['flare-nut' as const],
  method: 'electronic' as const,
  unitState: 'off' as const,
  result: 'hit' as const,
});
const leakPoint = (lookId: string) => ({
  ...on(),
  leakPointId: newId(),
  lookId,
  place: 'flare-nut' as const,
  where: 'Case 9',
});
/** A device's batch, in which the leak comes before the look it was seen in. */
async function push(lookId: string, more: { dependsOn?: string[]; lookToo?: boolean } = {}) {
  const device = newId();
  const envelope = (deviceSeq: number, id: string, what: { schema: string; body: object; dependsOn?: string[] }) => ({
    id,
    device,
    deviceSeq,
    happenedAt: world.clock.now,
    dependsOn: [],
    ...what,
  });
  const { dependsOn = [], lookToo = false } = more;
  const leak = newId();
  const commands = [
    envelope(1, leak, { schema: 'record-leak-point', body: leakPoint(lookId), dependsOn }),
    ...(lookToo ? [envelope(2, lookId, { schema: 'record-look', body: look() })] : []),
  ];
  const { answers } = await world.office.push(firm.actors.technician, { sentAt: world.clock.now, device, commands });
  const [row] = await world.sql<{ state: string }>('SELECT state FROM command WHERE id = $1', [leak]);
  return { answers, state: row?.state };
}

describe('the look in which a leak was seen', () => {
  test('may be of an earlier visit of the circuit', async () => {
    await firm.send('technician', 'record-leak-point', leakPoint(scene.of.look));
    const fresh = newId();
    await firm.send('technician', 'record-look', look(), { id: fresh });
    await firm.send('technician', 'record-leak-point', leakPoint(fresh));
  });

  test('that nobody knows, or that is no look, is not there: kept for a person with the leak whole', async () => {
    for (const lookId of [newId(), scene.of.chargeMore]) {
      const { answers, state } = await push(lookId);
      expect(answers[0]).toMatchObject({ outcome: 'needs-attention', problem: { type: '/problems/not-found' } });
      expect(state).toBe('attention');
    }
  });

  test('is waited for when the device says so, and the leak then stands', async () => {
    const lookId = newId();
    const { answers, state } = await push(lookId, { dependsOn: [lookId], lookToo: true });
    expect(answers.map(({ outcome }) => outcome)).toEqual(['waiting', 'applied']);
    expect(state).toBe('applied');
  });

  test('at another circuit is a slip, and the field is named', async () => {
    const other = ids();
    const days = { first: '2025-12-01', second: '2026-02-14' };
    await firm.send('dispatcher', 'take-call', {
      ...theCall(other, days),
      unit: { id: other.unit, new: { tag: '0999' } },
    });
    const elsewhere = newId();
    await firm.send(
      'technician',
      'record-look',
      { ...look(), visitId: other.visit, circuitId: other.circuit },
      { id: elsewhere },
    );
    const refusal = await refusalOf(firm.send('technician', 'record-leak-point', leakPoint(elsewhere)));
    expect(faultsIn(refusal)).toEqual({ '#/body/lookId': 'Look: at another circuit; choose one at this circuit.' });
    expectPlainWords(refusal, 'lookId');
  });
});

test('a certificate’s id that stands with another person is refused, and not lost unseen', async () => {
  const certificate = { id: newId(), scheme: 'us-608' as const, type: 'II' as const };
  const ada = { personId: newId(), name: 'Ada Moss', certificates: [certificate] };
  await firm.send('manager', 'register-person', ada);
  await firm.send('manager', 'register-person', ada);
  const certificates = [{ ...certificate, id: newId() }, certificate];
  const refusal = await refusalOf(
    firm.send('manager', 'register-person', { personId: newId(), name: 'Ivo Birch', certificates }),
  );
  expect(faultsIn(refusal)).toEqual({
    '#/body/certificates/1/id': 'Certificate: stands with another person; give it a new id.',
  });
  expectPlainWords(refusal, 'certificates');
});
