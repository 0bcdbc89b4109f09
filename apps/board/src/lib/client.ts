import { uuidv7 } from '@ullage/units';
import { offlineProblem, parseProblem, type Problem } from './problem.ts';

export type Answer<T> =
  { readonly ok: true; readonly data: T; readonly status: number } | { readonly ok: false; readonly problem: Problem };

export interface Call {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Sent as JSON. */
  readonly body?: unknown;
  /** Sent as they are, in place of a body. */
  readonly bytes?: Blob;
  /** Made with `newKey()` before the first try and kept for every further one, so that the act happens once. */
  readonly key?: string;
  /** The `ETag` the change is based on. */
  readonly ifMatch?: string;
  readonly signal?: AbortSignal;
}

/** An id for something about to be made or done: UUIDv7, from this device's clock. */
export const newKey = (): string => uuidv7(Date.now(), crypto.getRandomValues(new Uint8Array(10)));

function headersOf(call: Call): Headers {
  const headers = new Headers({ accept: 'application/json' });
  if (call.body !== undefined) headers.set('content-type', 'application/json');
  if (call.bytes !== undefined) headers.set('content-type', 'application/octet-stream');
  if (call.key !== undefined) headers.set('idempotency-key', call.key);
  if (call.ifMatch !== undefined) headers.set('if-match', call.ifMatch);
  return headers;
}

async function bodyOf(response: Response): Promise<unknown> {
  if (response.status === 204) return undefined;
  return response.json().catch(() => undefined);
}

/**
 * One call to the API from the browser. A refusal comes back as a value.
 * `T` is what the contract promises for this path; the API checks its own answers against it.
 */
export async function call<T>(path: `/v1/${string}`, options: Call = {}): Promise<Answer<T>> {
  const init: RequestInit = {
    method: options.method ?? (options.body === undefined ? 'GET' : 'POST'),
    headers: headersOf(options),
    credentials: 'same-origin',
    cache: 'no-store',
  };
  if (options.body !== undefined) init.body = JSON.stringify(options.body);
  if (options.bytes !== undefined) init.body = options.bytes;
  if (options.signal) init.signal = options.signal;
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch (fault) {
    if (options.signal?.aborted) throw fault;
    return { ok: false, problem: offlineProblem() };
  }
  const body = await bodyOf(response);
  if (!response.ok) return { ok: false, problem: parseProblem(response.status, body) };
  return { ok: true, data: body as T, status: response.status };
}

/** Whether sending the same again, with the same key, may still succeed. */
export const worthRetrying = (problem: Problem): boolean =>
  problem.status === 0 || problem.status === 429 || problem.status === 502 || problem.status === 503;

/** An unsafe call with its key made once, before sending, and kept while the connection fails. */
export async function send<T>(path: `/v1/${string}`, options: Call, tries = 3): Promise<Answer<T>> {
  const kept: Call = { ...options, key: options.key ?? newKey() };
  for (let tried = 1; ; tried++) {
    const answer = await call<T>(path, kept);
    if (answer.ok || tried >= tries || !worthRetrying(answer.problem)) return answer;
    await new Promise((resolve) => setTimeout(resolve, 400 * 2 ** (tried - 1)));
  }
}
