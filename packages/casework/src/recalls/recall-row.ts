import type { RecallView } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { toInstant } from '../pipeline/case.ts';
import type { Records } from './checks.ts';
import { touchedByGas } from './reach-gas.ts';
import { distrust, touchedByInstrument } from './reach-instrument.ts';
import { tareSpan, touchedByTare } from './reach-tare.ts';
import { inTime } from './touched.ts';
import type { Touched } from './touched.ts';

export const RECALL = {
  cylinder: { select: { id: true, label: true, serial: true } },
  instrument: { select: { id: true, tag: true, kind: true } },
  opener: { select: { name: true } },
  items: { include: { settler: { select: { name: true } } }, orderBy: [{ settledAt: 'asc' }, { id: 'asc' }] },
} satisfies Prisma.RecallInclude;
export type RecallRow = Prisma.RecallGetPayload<{ include: typeof RECALL }>;

export function subjectOf({ cylinder, instrument }: Pick<RecallRow, 'cylinder' | 'instrument'>): RecallView['subject'] {
  if (instrument) return { kind: 'instrument', id: instrument.id, title: instrument.tag };
  return { kind: 'cylinder', id: cylinder?.id ?? '', title: cylinder?.label ?? cylinder?.serial ?? '' };
}

/** What a recall reaches, and the span that it counts for. */
export interface Reach {
  readonly since: string | null;
  readonly until: string | null;
  readonly touched: readonly Touched[];
}

/** Worked out anew at each reading, in the order of time: what is told later is among it. */
export async function reachOf(records: Records, row: RecallRow): Promise<Reach> {
  const { since, until, touched } = await reachBy(records, row);
  return { since, until, touched: [...touched].sort(inTime) };
}

async function reachBy(records: Records, row: RecallRow): Promise<Reach> {
  const { instrument, cylinderId, factId } = row;
  if (instrument && factId !== null) {
    const span = await distrust(records, instrument.id, factId);
    // A check is never taken back, so that what failed stays failed.
    if (!span) return { since: null, until: null, touched: [] };
    return { since: span.since, until: span.until, touched: await touchedByInstrument(records, { instrument, span }) };
  }
  if (row.kind === 'tare' && cylinderId !== null && factId !== null) {
    const of = { cylinderId, factId };
    return { ...(await tareSpan(records, of)), touched: await touchedByTare(records, of) };
  }
  const since = row.since && toInstant(row.since);
  const of = { cylinderId: cylinderId ?? '', since, openedAt: toInstant(row.openedAt) };
  return { since, until: null, touched: await touchedByGas(records, of) };
}
