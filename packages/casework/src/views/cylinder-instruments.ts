import type { CylinderView } from '@ullage/contracts';
import type { Viewer } from './viewer.ts';

type Instrument = CylinderView['instruments'][number];
const KINDS: readonly Instrument['kind'][] = ['gauge', 'thermometer', 'scale'];

/** What a cylinder is read and weighed with, by tag; what was retired is left out. */
export async function cylinderInstruments({ tx, tenantId }: Viewer): Promise<Instrument[]> {
  const rows = await tx.instrument.findMany({
    where: { tenantId, retiredAt: null, kind: { in: [...KINDS] } },
    orderBy: { tag: 'asc' },
  });
  return rows.map((row) => ({
    id: row.id,
    kind: row.kind as Instrument['kind'],
    tag: row.tag,
    repeatability: repeatabilityOf(row),
  }));
}

/** What an instrument's readings scatter by, in its own unit; null where nobody said. */
export const repeatabilityOf = ({ repeatability, repeatabilityUnit }: Said): Instrument['repeatability'] =>
  repeatability === null || repeatabilityUnit === null
    ? null
    : { value: Number(repeatability), unit: repeatabilityUnit };
interface Said {
  readonly repeatability: unknown;
  readonly repeatabilityUnit: string | null;
}
