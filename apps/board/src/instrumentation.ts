import { inNode } from './env.ts';

/**
 * Runs once before the first request. Next fills `X-Forwarded-For` only when a client sent none, so a client could name
 * its own address there; we take it from the socket, before Next sees the request, into a header of our own.
 */
export async function register(): Promise<void> {
  if (!inNode()) return;
  const { watchAddresses } = await import('./lib/watch-addresses.ts');
  watchAddresses();
}
