import { describe, expect, test } from 'vitest';
import { draftedSteps, dropDraft, readDraft, valuesOver, writeDraft } from './drafts.ts';
import { makeKeep, type TextStore } from './keep.ts';

/** A phone's storage that survives its page. */
function aStore(): TextStore & { full: boolean; map: Map<string, string> } {
  const map = new Map<string, string>();
  return {
    map,
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
const place = { visitId: 'v1', step: 'charge', circuitId: 'c1' };
const ids = { command: 'k1' };

describe('a draft', () => {
  test('is there again when the page was closed in the same task', () => {
    const store = aStore();
    writeDraft(makeKeep(store, 'p|'), place, { ids, values: { before: { text: '145.3', unit: 'lb' } } });
    const reopened = makeKeep(store, 'p|');
    expect(readDraft(reopened, place)?.values).toEqual({ before: { text: '145.3', unit: 'lb' } });
    expect(readDraft(reopened, place)?.ids).toEqual(ids);
  });
  test('belongs to its visit, step, circuit and person alone', () => {
    const store = aStore();
    writeDraft(makeKeep(store, 'kim|'), place, { ids, values: { a: 1 } });
    expect(readDraft(makeKeep(store, 'lee|'), place)).toBeUndefined();
    expect(readDraft(makeKeep(store, 'kim|'), { ...place, circuitId: 'c2' })).toBeUndefined();
    expect(readDraft(makeKeep(store, 'kim|'), { ...place, step: 'recovery' })).toBeUndefined();
    expect(draftedSteps(makeKeep(store, 'kim|'), 'v1')).toEqual(['charge']);
    expect(draftedSteps(makeKeep(store, 'kim|'), 'v2')).toEqual([]);
  });
  test('of another version, or damaged, is passed over and not destroyed', () => {
    const store = aStore();
    const keep = makeKeep(store, 'p|');
    keep.write('draft|v1|charge|c1', { v: 99, ids, values: {} });
    expect(readDraft(keep, place)).toBeUndefined();
    store.map.set('p|draft|v1|charge|c1', '{"v":1,');
    expect(readDraft(keep, place)).toBeUndefined();
    expect(store.map.size).toBe(1);
  });
  test('that the phone will not keep is said to be so', () => {
    const store = aStore();
    store.full = true;
    expect(writeDraft(makeKeep(store, 'p|'), place, { ids, values: {} })).toBe(false);
  });
  test('is gone after it is dropped', () => {
    const keep = makeKeep(aStore(), 'p|');
    writeDraft(keep, place, { ids, values: {} });
    dropDraft(keep, place);
    expect(readDraft(keep, place)).toBeUndefined();
  });
});

describe('valuesOver', () => {
  test('keeps what was typed, starts new fields fresh, leaves out what went', () =>
    expect(valuesOver({ a: '', b: [] as string[], c: 'new' }, { a: 'typed', b: ['x'], gone: 1 })).toEqual({
      a: 'typed',
      b: ['x'],
      c: 'new',
    }));
  test('a field that changed its shape starts fresh', () =>
    expect(valuesOver({ a: { text: '', unit: 'lb' }, b: [] as string[] }, { a: '18', b: 'x' })).toEqual({
      a: { text: '', unit: 'lb' },
      b: [],
    }));
});
