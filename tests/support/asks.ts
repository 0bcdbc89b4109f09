/** What a route that reads or changes a contractor's data ought to ask, told from its address and not from what it says of itself. */
import { COMMANDS, isCommandName } from '@ullage/contracts';
import type { Permission } from '@ullage/contracts';
import type { Route } from '@ullage/api';

const BY_ADDRESS: readonly (readonly [request: RegExp, asks: Permission])[] = [
  [/^\w+ \/v1\/sums\//, 'sums.ask'],
  [/^\w+ \/v1\/sync\/(push|pull)$/, 'visit.record'],
  [/^PUT \/v1\/photos\//, 'visit.record'],
  [/^\w+ \/v1\/visits\/:id\/(suggestions|placing)$/, 'visit.place'],
  [/^\w+ \/v1\/(repeats|prices|gas-used)(\/|$)/, 'costs.read'],
  [/^GET \/v1\/imports/, 'import.read'],
  [/^\w+ \/v1\/imports/, 'import.run'],
  // The list is everybody's to read; the whole of a firm in a file is its owner's.
  [/^\w+ \/v1\/leaving\//, 'leave'],
];

/** Undefined for a change that stands in no table. */
export function asksOf({ method, path }: Route): Permission | undefined {
  const found = BY_ADDRESS.find(([request]) => request.test(`${method} ${path}`));
  if (found) return found[1];
  const kind = path.replace('/v1/commands/', '');
  if (isCommandName(kind)) return COMMANDS[kind].permission;
  return method === 'GET' && path.startsWith('/v1/') ? 'books.read' : undefined;
}
