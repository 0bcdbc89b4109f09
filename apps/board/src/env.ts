/** Every environment variable the board reads, in one place. */
export interface Env {
  /** Where the API listens, without a trailing slash; loopback by default. */
  readonly apiOrigin: string;
  /** Addresses of proxies whose `X-Forwarded-For` is believed, as `loopback, 10.0.0.0/8`; nobody's without it. */
  readonly trustProxy: string | undefined;
  readonly development: boolean;
}

/** Read at each call: the same build serves wherever it is started. */
export function env(): Env {
  return {
    apiOrigin: (process.env['API_ORIGIN'] ?? 'http://127.0.0.1:3100').replace(/\/+$/, ''),
    trustProxy: process.env['TRUST_PROXY'] || undefined,
    development: process.env.NODE_ENV === 'development',
  };
}
