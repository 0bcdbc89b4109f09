/** A device's batch of gas work, long enough to be killed in the middle of. */
import type { TestOffice, Contractor } from '../support/office.ts';
import { newId } from '../support/office.ts';
import { cylinders, ids, theCall } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';
import { onDay } from '../support/day.ts';

export const today = onDay('2026-04-30');
const g = (grams: number) => ({ value: String(grams), unit: 'g' });

/** A contractor with the story's circuit and a full cylinder of new gas; nobody has worked there yet. */
export async function ready(world: TestOffice): Promise<{ firm: Contractor; of: StoryIds }> {
  const firm = await world.contractor();
  const of = ids();
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
    at: today('07:30'),
  });
  await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
  return { firm, of };
}

export interface Envelope {
  readonly id: string;
  readonly deviceSeq: number;
  readonly [field: string]: unknown;
}
/** `count` charges of 100 g from one cylinder, one after the other; the last says that the circuit is full. */
export function batch(of: StoryIds, count: number): { device: string; sentAt: string; commands: Envelope[] } {
  const device = newId();
  const commands = Array.from({ length: count }, (_, at) => ({
    id: newId(),
    schema: 'record-charge',
    device,
    deviceSeq: at + 1,
    happenedAt: today(`${String(9 + Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}`),
    dependsOn: [],
    body: {
      visitId: of.visit,
      circuitId: of.circuit,
      cylinderId: of.newGas,
      before: g(72_575 - at * 100),
      after: g(72_475 - at * 100),
      full: at === count - 1 ? 'yes' : 'no',
    },
  }));
  return { device, sentAt: today('20:00'), commands };
}

/** Written by hand, in grams, for `count` charges: 220 lb = 99790 g were assumed, 18 lb = 8165 g came in February. */
export const booksAfter = (count: number) => ({
  '0417-A': 99_790,
  'N-22': 47_627 - count * 100,
  Opening: -99_790,
  'Other party': -8_165,
  Supplier: -47_627,
  Atmosphere: 8_165 + count * 100,
});

export async function booksOf(world: TestOffice, firm: Contractor) {
  const { accounts, totals } = await world.office.books(firm.actors.auditor);
  const rows = accounts.map(({ title, balances }): [string, number] => [
    title,
    balances.reduce((sum, { grams }) => sum + grams, 0),
  ]);
  return { books: Object.fromEntries(rows.filter(([, grams]) => grams !== 0)), totals };
}
/** Charges written down, movements they gave, and whether the feed is numbered without gaps. */
export async function countsOf(world: TestOffice, firm: Contractor) {
  const [row] = await world.sql<{ facts: number; moved: number; feed: boolean }>(
    `SELECT (SELECT count(*) FROM fact WHERE tenant_id = $1 AND kind = 'charge')::int AS facts,
      (SELECT count(*) FROM movement WHERE tenant_id = $1 AND measured = 'scale')::int AS moved,
      (SELECT count(*) = max(number) FROM feed WHERE tenant_id = $1) AS feed`,
    [firm.tenantId],
  );
  return row;
}
