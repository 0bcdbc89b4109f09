/** Where a cylinder has been, the latest first. */
import type { CylinderView } from '@ullage/contracts';
import { CUSTODY_KINDS, STANDS } from '../gas/custody.ts';
import { toInstant } from '../pipeline/case.ts';
import { FACT_INCLUDE } from './fact-row.ts';
import { summaryOf } from './summaries.ts';
import { FACT_WORDS, wordOf } from './words.ts';
import type { Viewer } from './viewer.ts';

const SHOWN = 12;

/** The latest reports of where it is. Only the newest can be taken back: what came later rests on those before it. */
export async function custodyView({ tx, tenantId }: Viewer, cylinderId: string): Promise<CylinderView['custody']> {
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: { in: CUSTODY_KINDS }, factRefs: { some: { cylinderId } }, ...STANDS },
    include: FACT_INCLUDE,
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
    take: SHOWN,
  });
  return rows.map((row, index) => ({
    factId: row.id,
    at: toInstant(row.happenedAt ?? row.recordedAt),
    by: row.byPerson?.name ?? null,
    what: wordOf(FACT_WORDS, row.kind),
    text: summaryOf(row),
    manifestId: manifestOf(row),
    mayTakeBack: index === 0 && row.kind !== 'delivery' && manifestOf(row) === null,
  }));
}

/** A shipment and what was accepted of it are shown, and taken back, on the manifest. */
function manifestOf({ id, kind, body }: { readonly id: string; readonly kind: string; readonly body: unknown }) {
  if (kind === 'shipment') return id;
  return kind === 'acceptance' ? (body as { shipmentId: string }).shipmentId : null;
}
