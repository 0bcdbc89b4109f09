import type { PhotoArrival } from '@ullage/contracts';
import type { Answer, Call } from '../../lib/client.ts';

export type Put = (path: `/v1/${string}`, options: Call) => Promise<Answer<PhotoArrival>>;

/**
 * Sends what the server lacks of a photo, part by part. Broken off at any point, the next call goes on with the parts
 * that are missing then. The last answer comes back; a problem as soon as there is one.
 */
export async function sendPhoto({ hash, blob }: { hash: string; blob: Blob }, put: Put): Promise<Answer<PhotoArrival>> {
  const named = await put(`/v1/photos/${hash}`, { method: 'PUT', body: { bytes: blob.size } });
  if (!named.ok) return named;
  const { partBytes, missing } = named.data;
  let last = named;
  for (const number of missing) {
    const bytes = blob.slice(number * partBytes, (number + 1) * partBytes);
    const answer = await put(`/v1/photos/${hash}/parts/${number}`, { method: 'PUT', bytes });
    if (!answer.ok) return answer;
    last = answer;
  }
  return last;
}
