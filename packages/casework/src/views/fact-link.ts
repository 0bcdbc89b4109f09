/** Facts as another record points to them. */
import type { FactLink } from '@ullage/contracts';
import { noonOf } from '../gas/gas-facts.ts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { summaryOf } from './summaries.ts';
import type { Viewer } from './viewer.ts';
import { FACT_WORDS, wordOf } from './words.ts';

/** When it happened; what is known by its day only stands at noon there. */
export const factAt = (
  { world }: Pick<Viewer, 'world'>,
  row: Pick<FactRow, 'happenedAt' | 'happenedOn' | 'recordedAt'>,
  zone: string,
): string =>
  row.happenedAt
    ? toInstant(row.happenedAt)
    : noonOf(world.calendar, dateToDay(row.happenedOn ?? row.recordedAt), zone);

/** Links to facts, by id. An id that is none is left out. */
export async function factLinks(viewer: Viewer, ids: readonly string[]): Promise<Map<string, FactLink>> {
  const { tx, tenantId, tenant } = viewer;
  if (ids.length === 0) return new Map();
  const rows = await tx.fact.findMany({
    where: { tenantId, id: { in: [...new Set(ids)] } },
    include: {
      ...FACT_INCLUDE,
      circuit: { select: { letter: true, unitId: true, unit: { select: { site: { select: { timeZone: true } } } } } },
    },
  });
  return new Map(
    rows.map((row) => [
      row.id,
      {
        id: row.id,
        title: wordOf(FACT_WORDS, row.kind),
        summary: summaryOf(row),
        happenedAt: factAt(viewer, row, row.circuit?.unit.site.timeZone ?? tenant.timeZone),
        visitId: row.visitId,
        cylinderId: row.factRefs.find((ref) => ref.cylinderId !== null)?.cylinderId ?? null,
        unitId: row.circuit?.unitId ?? null,
        circuitLetter: row.circuit?.letter ?? null,
      },
    ]),
  );
}
