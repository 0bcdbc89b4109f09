/** Standard Webhooks (standardwebhooks.com, specification 1.0): `id.timestamp.body`, HMAC-SHA256, base64, version v1. */
import { createHmac } from 'node:crypto';

const PREFIX = 'whsec_';
/** `seconds`: since 1970, of this try. */
export function signatureOf(secret: string, of: { id: string; seconds: number; body: string }): string {
  const key = Buffer.from(secret.startsWith(PREFIX) ? secret.slice(PREFIX.length) : secret, 'base64');
  const mac = createHmac('sha256', key).update(`${of.id}.${of.seconds}.${of.body}`).digest('base64');
  return `v1,${mac}`;
}
