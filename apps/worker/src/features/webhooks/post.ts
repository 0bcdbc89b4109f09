/** One POST of a message, to a public address over TLS and nowhere else. Redirects are not followed. */
import { request } from 'node:https';
import type { RequestOptions } from 'node:https';
import { isIP } from 'node:net';
import { isPublic, lookupPublic, Unreachable } from './reachable.ts';

/** Shorter than the first pause between tries, so that no other worker takes the message meanwhile. */
const WITHIN_MS = 15_000;
const NAME = 'Ullage-Webhooks/1';

export interface Posting {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}
/** What a test hands in to reach a server of its own: nothing else may. */
export type Reach = Pick<RequestOptions, 'lookup' | 'ca'>;

/** Gives the status of the answer; what it says beside that is not read. @throws Unreachable for an address that is not public */
export async function post({ url, headers, body }: Posting, reach?: Reach): Promise<number> {
  const at = new URL(url);
  // A literal address is not looked up: it is judged here.
  const literal = at.hostname.replaceAll(/[[\]]/g, '');
  if (at.protocol !== 'https:' || (isIP(literal) > 0 && !isPublic(literal))) throw new Unreachable();
  return new Promise((resolve, reject) => {
    const sent = request(
      at,
      {
        method: 'POST',
        lookup: lookupPublic,
        agent: false,
        signal: AbortSignal.timeout(WITHIN_MS),
        headers: {
          ...headers,
          'content-type': 'application/json; charset=utf-8',
          'content-length': Buffer.byteLength(body),
          'user-agent': NAME,
        },
        ...reach,
      },
      (answer) => {
        answer.on('error', () => undefined);
        resolve(answer.statusCode ?? 0);
        answer.destroy();
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });
}
