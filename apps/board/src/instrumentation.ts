/**
 * Runs once before the first request. Next fills `X-Forwarded-For` only when a client sent none, so a client could name
 * its own address there; we take it from the socket, before Next sees the request, into a header of our own.
 */
export async function register(): Promise<void> {
  // Read here and not in env.ts: the bundler must see it to leave Node's modules out of bundles for other runtimes.
  // oxlint-disable-next-line ullage/env-in-env-file
  if (process.env['NEXT_RUNTIME'] !== 'nodejs') return;
  const { watchAddresses } = await import('./lib/watch-addresses.ts');
  watchAddresses();
}
