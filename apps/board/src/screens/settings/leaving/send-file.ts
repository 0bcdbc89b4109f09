import type { ParcelArrival } from '@ullage/contracts';
import { call, send, worthRetrying, type Answer } from '../../../lib/client.ts';

const END_BYTES = 262_144;
const PAUSE_MS = 3_000;
const TRIES = 20;
const hex = (bytes: ArrayBuffer): string =>
  Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');

/** By its two ends a file is known that is sent again: nobody holds two gigabytes in a page to hash them. */
async function markOf(file: Blob): Promise<string> {
  const ends = new Blob([file.slice(0, END_BYTES), file.slice(-END_BYTES)]);
  return hex(await crypto.subtle.digest('SHA-256', await ends.arrayBuffer()));
}

/**
 * Sends a file part by part; begun again it sends what is missing. A line that is down for a minute, or a server that asks
 * to go slower, is waited for. Gives the id it is begun by.
 */
export async function sendFile(file: Blob, told: (share: number) => void): Promise<Answer<{ id: string }>> {
  const named = await send<ParcelArrival>('/v1/leaving/take-overs', {
    body: { bytes: file.size, mark: await markOf(file) },
  });
  if (!named.ok) return named;
  const { id, partBytes, missing } = named.data;
  const all = Math.ceil(file.size / partBytes);
  let there = all - missing.length;
  for (const number of missing) {
    const bytes = file.slice(number * partBytes, (number + 1) * partBytes);
    const answer = await sendPart(`/v1/leaving/take-overs/${id}/parts/${number}`, bytes);
    if (!answer.ok) return answer;
    told(++there / all);
  }
  const begun = await send<unknown>(`/v1/leaving/take-overs/${id}/begin`, { method: 'POST' });
  return begun.ok ? { ok: true, data: { id }, status: begun.status } : begun;
}

async function sendPart(path: `/v1/${string}`, bytes: Blob): Promise<Answer<unknown>> {
  for (let tried = 1; ; tried++) {
    const answer = await call<unknown>(path, { method: 'PUT', bytes });
    if (answer.ok || tried >= TRIES || !worthRetrying(answer.problem)) return answer;
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}
