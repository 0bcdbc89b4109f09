import { afterEach, describe, expect, test, vi } from 'vitest';
import { call, newKey, send } from './client.ts';

const json = (status: number, body: unknown) => new Response(JSON.stringify(body), { status });
const server = (...answers: (Response | Error)[]) => {
  const spy = vi.fn(async (_path: string, _init: RequestInit) => {
    const next = answers.shift();
    if (!next || next instanceof Error) throw next ?? new Error('one call too many');
    return next;
  });
  vi.stubGlobal('fetch', spy);
  return spy;
};
const keyOf = (init: RequestInit) => (init.headers as Headers).get('idempotency-key');

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe('send', () => {
  test('a lost connection is tried again with the same key, so the act happens once', async () => {
    vi.useFakeTimers();
    const spy = server(new TypeError('lost'), json(503, {}), json(200, { done: true }));
    const answer = send<{ done: boolean }>('/v1/x', { body: { a: 1 } });
    await vi.runAllTimersAsync();
    expect(await answer).toEqual({ ok: true, data: { done: true }, status: 200 });
    const keys = spy.mock.calls.map(([, init]) => keyOf(init));
    expect(new Set(keys).size).toBe(1);
    expect(keys[0]).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
  test('a refusal is not tried again', async () => {
    const spy = server(json(422, { title: 'No', errors: [{ pointer: '/a', detail: 'too much' }] }));
    const answer = await send('/v1/x', { body: {} });
    expect(spy).toHaveBeenCalledTimes(1);
    expect(answer).toMatchObject({ ok: false, problem: { status: 422, errors: [{ pointer: '/a' }] } });
  });
  test('a key made by the caller is the one sent', async () => {
    const spy = server(json(200, {}));
    const key = newKey();
    await send('/v1/x', { body: {}, key });
    expect(keyOf(spy.mock.calls[0]![1])).toBe(key);
  });
});

test('call: GET without a body, no key, and 204 is an answer without data', async () => {
  const spy = server(new Response(null, { status: 204 }));
  expect(await call('/v1/x')).toEqual({ ok: true, data: undefined, status: 204 });
  expect(spy.mock.calls[0]![1].method).toBe('GET');
  expect(keyOf(spy.mock.calls[0]![1])).toBeNull();
});
