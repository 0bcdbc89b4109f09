import { CORRECTIONS, standingsOfFact } from '../gas/corrections.ts';
import type { CorrectedRow } from '../gas/corrections.ts';

/** A fact as it is read for showing: with who wrote it, what it refers to, and whether it was corrected. */
export interface FactRow {
  readonly id: string;
  readonly kind: string;
  readonly visitId: string | null;
  readonly circuitId: string | null;
  readonly happenedAt: Date | null;
  readonly happenedOn: Date | null;
  readonly recordedAt: Date;
  readonly body: unknown;
  readonly correctsId: string | null;
  readonly byPerson: { readonly name: string } | null;
  readonly factCorrectses: CorrectedRow['factCorrectses'];
  readonly factRefs: readonly {
    readonly role: string;
    readonly instrumentId: string | null;
    readonly cylinderId: string | null;
    readonly instrument?: { tag: string; senseGramsPerYear: unknown } | null;
    readonly cylinder?: { serial: string; label: string | null } | null;
    readonly leakPoint?: { number: number; place: string; whereText: string } | null;
    readonly leakPointId: string | null;
    readonly blob?: { hash: string; state: string; width: number | null; height: number | null } | null;
  }[];
}
export const FACT_INCLUDE = {
  byPerson: { select: { name: true } },
  factCorrectses: CORRECTIONS,
  factRefs: {
    include: {
      instrument: true,
      cylinder: { select: { serial: true, label: true } },
      leakPoint: { select: { number: true, place: true, whereText: true } },
      blob: { select: { hash: true, state: true, width: true, height: true } },
    },
    orderBy: { ordinal: 'asc' },
  },
} as const;

/**
 * Which facts of a list were corrected, and by which correction as they stand now. A correction that was overtaken by
 * another is itself corrected by that one: it stays in sight, struck out. So does what was set aside.
 */
export function correctedBy(rows: readonly FactRow[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const row of rows) {
    if (row.kind === 'set-aside' && row.correctsId !== null) found.set(row.correctsId, row.id);
    for (const { last, superseded } of standingsOfFact(row))
      for (const [id, by] of [[row.id, last] as const, ...superseded]) if (by !== null) found.set(id, by);
  }
  return found;
}
