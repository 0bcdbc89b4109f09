import { describe, expect, test } from 'vitest';
import { readDraft, writeDraft } from './drafts.ts';
import { makeKeep, type TextStore } from './keep.ts';
import { type NewCommand, Outbox } from './outbox.ts';

function aStore(): TextStore & { full: boolean } {
  const map = new Map<string, string>();
  return {
    full: false,
    get length() {
      return map.size;
    },
    key: (i) => [...map.keys()][i] ?? null,
    getItem: (key) => map.get(key) ?? null,
    setItem(key, value) {
      if (this.full) throw new DOMException('full', 'QuotaExceededError');
      map.set(key, value);
    },
    removeItem: (key) => void map.delete(key),
  };
}
let made = 0;
const openOn = (store: TextStore) => {
  const keep = makeKeep(store, 'p|');
  const outbox = new Outbox({ keep, newId: () => `id-${++made}`, exclusive: async (work) => work() });
  return { keep, outbox };
};
const place = { visitId: 'v1', step: 'charge', circuitId: 'c1' };
const aCharge = (id: string, more: Partial<NewCommand> = {}): NewCommand => ({
  kind: 'record-charge',
  body: { visitId: 'v1' },
  happenedAt: '2026-04-30T23:40:00.000Z',
  place,
  draft: { v: 1, ids: { command: id }, values: { after: '127.3' } },
  said: '18 lb',
  ...more,
});
const problem = { type: '/problems/not-valid', title: 'Not valid', status: 400 };

describe('the outbox', () => {
  test('gives strictly rising numbers, also after the page was closed', async () => {
    const store = aStore();
    const first = await openOn(store).outbox.add(aCharge('a'));
    const second = await openOn(store).outbox.add(aCharge('b'));
    openOn(store).outbox.settle('b', { outcome: 'applied' });
    const third = await openOn(store).outbox.add(aCharge('c'));
    expect([first, second, third].map((one) => one.envelope.deviceSeq)).toEqual([1, 2, 3]);
    expect(new Set([first, second, third].map((one) => one.envelope.device)).size).toBe(1);
  });
  test('keeps order past the tenth command', async () => {
    const { outbox } = openOn(aStore());
    for (let i = 0; i < 12; i++) await outbox.add(aCharge(`k${i}`));
    expect(outbox.waiting().map((one) => one.envelope.id)).toEqual(Array.from({ length: 12 }, (_, i) => `k${i}`));
  });
  test('the same draft pressed twice is one command, byte for byte', async () => {
    const { outbox } = openOn(aStore());
    const first = await outbox.add(aCharge('a'));
    const again = await outbox.add(
      aCharge('a', { body: { visitId: 'other' }, happenedAt: '2026-05-01T00:00:00.000Z' }),
    );
    expect(JSON.stringify(again.envelope)).toBe(JSON.stringify(first.envelope));
    expect(outbox.all()).toHaveLength(1);
  });
  test('what is queued leaves its draft, and only its own', async () => {
    const { outbox, keep } = openOn(aStore());
    writeDraft(keep, place, { ids: { command: 'a' }, values: { after: '127.3' } });
    await outbox.add(aCharge('a'));
    expect(readDraft(keep, place)).toBeUndefined();
    writeDraft(keep, place, { ids: { command: 'next' }, values: { after: '1' } });
    await outbox.add(aCharge('b'));
    expect(readDraft(keep, place)?.ids['command']).toBe('next');
  });
  test('is forgotten only when it was applied', async () => {
    const { outbox } = openOn(aStore());
    for (const id of ['a', 'b', 'c']) await outbox.add(aCharge(id));
    outbox.settle('a', { outcome: 'applied' });
    outbox.settle('b', { outcome: 'already-applied' });
    outbox.settle('c', { outcome: 'waiting' });
    outbox.settle('unknown', { outcome: 'applied' });
    expect(outbox.waiting().map((one) => one.envelope.id)).toEqual(['c']);
  });
  test('a refusal gives what was typed back, with the reason and a new command id but the same records', async () => {
    const { outbox, keep } = openOn(aStore());
    const draft = { v: 1, ids: { command: 'a', cylinder: 'cyl' }, values: { after: '127.3' } };
    await outbox.add(aCharge('a', { draft }));
    outbox.settle('a', { outcome: 'needs-attention', problem });
    expect(outbox.all()).toEqual([]);
    const back = readDraft(keep, place);
    expect(back).toMatchObject({ values: { after: '127.3' }, problem, ids: { cylinder: 'cyl' } });
    expect(back?.ids['command']).not.toBe('a');
  });
  test('a refusal never overwrites what is being typed, and waits to be put right', async () => {
    const { outbox, keep } = openOn(aStore());
    await outbox.add(aCharge('a'));
    writeDraft(keep, place, { ids: { command: 'b' }, values: { after: '99' } });
    outbox.settle('a', { outcome: 'needs-attention', problem });
    expect(readDraft(keep, place)?.values).toEqual({ after: '99' });
    expect(outbox.find('a')).toMatchObject({ state: 'refused', draft: { values: { after: '127.3' } } });
    expect(outbox.waiting()).toEqual([]);
    expect(outbox.giveBack('b')).toBe(false);
    expect(outbox.giveBack('a')).toBe(true);
    expect(readDraft(keep, place)?.values).toEqual({ after: '127.3' });
  });
  test('a command depends on those that make what it names', async () => {
    const { outbox } = openOn(aStore());
    await outbox.add(aCharge('register', { kind: 'register-cylinder', makes: ['cyl-9'] }));
    await outbox.add(aCharge('unrelated', { makes: ['cyl-8'] }));
    const charge = await outbox.add(aCharge('charge', { body: { cylinderId: 'cyl-9' }, dependsOn: ['given'] }));
    const correction = await outbox.add(aCharge('fix', { kind: 'correct-weighing', body: { factId: 'charge' } }));
    expect(charge.envelope.dependsOn).toEqual(['given', 'register']);
    expect(correction.envelope.dependsOn).toEqual(['charge']);
  });
  test('a full phone keeps the draft and queues nothing', async () => {
    const store = aStore();
    const { outbox, keep } = openOn(store);
    writeDraft(keep, place, { ids: { command: 'a' }, values: { after: '127.3' } });
    store.full = true;
    await expect(outbox.add(aCharge('a'))).rejects.toThrow('full');
    expect(outbox.all()).toEqual([]);
    expect(readDraft(keep, place)?.values).toEqual({ after: '127.3' });
  });
});
