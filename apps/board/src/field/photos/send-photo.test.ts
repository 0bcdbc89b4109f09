import type { PhotoArrival } from '@ullage/contracts';
import { expect, test } from 'vitest';
import type { Answer } from '../../lib/client.ts';
import { offlineProblem } from '../../lib/problem.ts';
import { sendPhoto, type Put } from './send-photo.ts';

const hash = 'a'.repeat(64);
const PART = 4;

/** A server that keeps parts and loses the line before the call of a given number. */
function server({ size, lostAt }: { size: number; lostAt: number[] }): {
  put: Put;
  parts: Map<number, string>;
  calls: () => number;
} {
  const parts = new Map<number, string>();
  const count = Math.ceil(size / PART);
  let calls = 0;
  const arrival = (): Answer<PhotoArrival> => {
    const missing = Array.from({ length: count }, (_, number) => number).filter((number) => !parts.has(number));
    const state = missing.length === 0 ? 'complete' : 'arriving';
    return { ok: true, status: 200, data: { hash, state, partBytes: PART, missing } };
  };
  const put: Put = async (path, { bytes }) => {
    if (lostAt.includes(++calls)) return { ok: false, problem: offlineProblem() };
    const number = /parts\/(\d+)$/.exec(path)?.[1];
    if (number !== undefined) parts.set(Number(number), await (bytes ?? new Blob()).text());
    return arrival();
  };
  return { put, parts, calls: () => calls };
}

test('a photo goes out in parts, the last one shorter', async () => {
  const { put, parts } = server({ size: 10, lostAt: [] });
  const answer = await sendPhoto({ hash, blob: new Blob(['0123456789']) }, put);
  expect(answer).toMatchObject({ ok: true, data: { state: 'complete' } });
  expect([...parts.entries()]).toEqual([
    [0, '0123'],
    [1, '4567'],
    [2, '89'],
  ]);
});

test('broken off, it goes on with what is missing and sends no part twice', async () => {
  const { put, parts, calls } = server({ size: 10, lostAt: [3] });
  const photo = { hash, blob: new Blob(['0123456789']) };
  expect(await sendPhoto(photo, put)).toMatchObject({ ok: false });
  expect([...parts.keys()]).toEqual([0]);
  expect(await sendPhoto(photo, put)).toMatchObject({ ok: true, data: { state: 'complete' } });
  // Named, part 0, lost; named, parts 1 and 2.
  expect(calls()).toBe(6);
});

test('what the server has whole is only asked after', async () => {
  const { put, calls } = server({ size: 0, lostAt: [] });
  expect(await sendPhoto({ hash, blob: new Blob([]) }, put)).toMatchObject({ ok: true, data: { state: 'complete' } });
  expect(calls()).toBe(1);
});
