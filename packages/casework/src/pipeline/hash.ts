import { createHash } from 'node:crypto';
import * as module from 'canonicalize';

// A CommonJS module: its function is the default export at run time, which its types do not say.
const canonicalize = module.default as unknown as (value: unknown) => string | undefined;

/**
 * SHA-256 over the canonical JSON (RFC 8785) of what was received, before any default is filled in: a newer app with
 * other defaults never turns a retry into a conflict.
 */
export const hashOf = (received: unknown): string =>
  createHash('sha256')
    .update(canonicalize(received) ?? 'null')
    .digest('hex');
