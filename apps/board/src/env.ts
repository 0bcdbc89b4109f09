/** Every environment variable the board reads, in one place. */
export interface Env {
  /** Where the API listens, without a trailing slash; loopback by default. */
  readonly apiOrigin: string;
  /** A proxy in front of us writes `X-Forwarded-For`; only then is that header believed. */
  readonly trustProxy: boolean;
  readonly development: boolean;
}

/** Read at each call: the same build serves wherever it is started. */
export function env(): Env {
  return {
    apiOrigin: (process.env['API_ORIGIN'] ?? 'http://127.0.0.1:4310').replace(/\/+$/, ''),
    trustProxy: ['1', 'true'].includes(process.env['TRUST_PROXY'] ?? ''),
    development: process.env.NODE_ENV === 'development',
  };
}
