/** Calls of the sign-in library whose refusals become ours. */
import { Refusal } from '@ullage/contracts';
import type { ProblemCode } from '@ullage/contracts';
import { APIError } from 'better-auth/api';

const CODES: Readonly<Record<number, ProblemCode>> = { 401: 'not-signed-in', 403: 'not-allowed', 404: 'not-found' };

/** @throws Refusal with the library's words for what it refuses */
export async function asked<T>(call: Promise<T>): Promise<T> {
  try {
    return await call;
  } catch (error) {
    if (!(error instanceof APIError) || error.statusCode >= 500) throw error;
    throw new Refusal(CODES[error.statusCode] ?? 'not-possible', error.body?.message ?? 'This is not possible.');
  }
}
