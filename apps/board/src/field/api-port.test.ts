import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { makeApiPort } from './api-port.ts';
import type { DraftPlace } from './drafts.ts';
import { makeKeep, type TextStore } from './keep.ts';
import { Outbox } from './outbox.ts';

function aStore(): TextStore {
  const map = new Map<string, string>();
  return {
    get length() {
      return map.size;
    },
    key: (i) => [...map.keys()][i] ?? null,
    getItem: (key) => map.get(key) ?? null,
    setItem: (key, value) => void map.set(key, value),
    removeItem: (key) => void map.delete(key),
  };
}
type Answer = { outcome: string; problem?: object } | number | 'lost';
/** A server that answers each command id by what `says` tells, and keeps the bytes it was sent. */
function server(says: (id: string) => Answer) {
  const sent: { id: string; bytes: string; commands: number }[] = [];
  vi.stubGlobal('fetch', async (_path: string, init: RequestInit) => {
    const push = JSON.parse(init.body as string) as { commands: { id: string }[] };
    const id = push.commands[0]?.id ?? '';
    sent.push({ id, bytes: JSON.stringify(push.commands[0]), commands: push.commands.length });
    const answer = says(id);
    if (answer === 'lost') throw new TypeError('lost');
    if (typeof answer === 'number') return new Response('{}', { status: answer });
    return Response.json({ answers: [{ id, records: [], asks: [], ...answer }], epoch: 1, number: 1 });
  });
  return sent;
}
let made = 0;
function aPort(store = aStore()) {
  const began = Date.now();
  const keep = makeKeep(store, 'p|');
  const outbox = new Outbox({ keep, newId: () => `new-${++made}`, exclusive: async (work) => work() });
  const port = makeApiPort({
    outbox,
    now: () => new Date(Date.parse('2026-04-30T23:40:00Z') + Date.now() - began),
    waits: [100],
    alone: (work) => work(),
    watch: () => () => undefined,
  });
  const note = (id: string, step = id) => {
    const place: DraftPlace = { visitId: 'v', step, circuitId: 'c' };
    return port.send({
      kind: 'record-service-loss',
      body: { visitId: 'v', circuitId: 'c', mass: { value: '1', unit: 'g' }, how: id },
      happenedAt: '2026-04-30T23:40:00.000Z',
      place,
      draft: { v: 1, ids: { command: id }, values: { how: id } },
      said: id,
    });
  };
  return { port, note, store, keep };
}
const applied = { outcome: 'applied' };

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe('sending', () => {
  test('one envelope a push, in the order it was done, also when all were pressed at once', async () => {
    const sent = server(() => applied);
    const { note, port } = aPort();
    const answers = await Promise.all([note('a'), note('b'), note('c')]);
    expect(sent.map(({ id, commands }) => `${id}${commands}`)).toEqual(['a1', 'b1', 'c1']);
    expect(answers.every((one) => one.is === 'answered')).toBe(true);
    expect(port.sync()).toMatchObject({ queued: [], line: { is: 'sent' } });
  });
  test('without a signal notes are kept and go out in order by themselves, each byte for byte as first tried', async () => {
    let up = false;
    const sent = server(() => (up ? applied : 'lost'));
    const { note, port } = aPort();
    expect(await note('a')).toEqual({ is: 'kept' });
    expect(await note('b')).toEqual({ is: 'kept' });
    expect(port.sync().line).toEqual({ is: 'offline', since: '2026-04-30T23:40:00.000Z' });
    expect(port.sync().queued.map((one) => one.said)).toEqual(['a', 'b']);
    await vi.advanceTimersByTimeAsync(90);
    up = true;
    await vi.advanceTimersByTimeAsync(150);
    expect(sent.map((one) => one.id)).toEqual(['a', 'a', 'a', 'b']);
    expect(new Set(sent.filter((one) => one.id === 'a').map((one) => one.bytes)).size).toBe(1);
    expect(port.sync()).toMatchObject({ queued: [], line: { is: 'sent' } });
  });
  test('how long there is no signal is counted from its loss, however often it is tried', async () => {
    server(() => 'lost');
    const { note, port } = aPort();
    await note('a');
    const lost = port.sync().line;
    const lines: string[] = [];
    port.subscribe(() => void lines.push(port.sync().line.is));
    await vi.advanceTimersByTimeAsync(1_000);
    expect(port.sync().line).toEqual(lost);
    expect(new Set(lines)).toEqual(new Set(['offline']));
  });
  test('what waited when the page was closed goes out when it is opened again', async () => {
    server(() => 'lost');
    const store = aStore();
    await aPort(store).note('a');
    vi.clearAllTimers();
    const sent = server(() => applied);
    const { port } = aPort(store);
    await vi.advanceTimersByTimeAsync(0);
    expect(sent.map((one) => one.id)).toEqual(['a']);
    expect(port.sync().queued).toEqual([]);
  });
  test.each([[503], [429], [502]])('a %i is asked again later', async (status) => {
    server(() => status);
    expect(await aPort().note('a')).toEqual({ is: 'kept' });
  });
  test('a refused command never blocks those after it, and is given back', async () => {
    const problem = { type: '/problems/not-possible', title: 'That cannot be', status: 422 };
    server((id) => (id === 'a' ? { outcome: 'needs-attention', problem } : applied));
    const { note, port, keep } = aPort();
    const [first, second] = await Promise.all([note('a'), note('b')]);
    expect(first).toMatchObject({ is: 'answered', answer: { outcome: 'needs-attention', problem } });
    expect(second).toMatchObject({ is: 'answered', answer: { outcome: 'applied' } });
    expect(port.sync().queued).toEqual([]);
    expect(keep.read('draft|v|a|c')).toMatchObject({ values: { how: 'a' }, problem });
  });
  test('what the server holds for another command stays here until it is applied, and is asked once a round', async () => {
    let other = false;
    const sent = server((id) => (id === 'a' && !other ? { outcome: 'waiting' } : applied));
    const { note, port } = aPort();
    await note('a');
    expect(port.sync().queued.map((one) => one.said)).toEqual(['a']);
    await note('b');
    expect(sent.map((one) => one.id)).toEqual(['a', 'a', 'b']);
    other = true;
    await vi.advanceTimersByTimeAsync(40_000);
    expect(sent.map((one) => one.id)).toEqual(['a', 'a', 'b', 'a']);
    expect(port.sync().queued).toEqual([]);
  });
  test('signed out, nothing is lost and nothing is tried in vain', async () => {
    const sent = server(() => 401);
    const { note, port } = aPort();
    expect(await note('a')).toEqual({ is: 'kept' });
    await vi.advanceTimersByTimeAsync(10_000);
    expect(sent).toHaveLength(1);
    expect(port.sync()).toMatchObject({ line: { is: 'signed-out' }, queued: [{ said: 'a' }] });
  });
  test('a role that may not record gets the reason, with what was typed', async () => {
    server(() => 403);
    const { note, keep } = aPort();
    expect(await note('a')).toMatchObject({ answer: { outcome: 'needs-attention', problem: { status: 403 } } });
    expect(keep.read('draft|v|a|c')).toMatchObject({ values: { how: 'a' } });
  });
});
