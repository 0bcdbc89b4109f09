/** Who did the work, with what they were certified for on its day: the papers name them. */
import { HELD } from '../visits/placing.ts';
import type { Certified } from '@ullage/contracts';
import type { Viewer } from './viewer.ts';
import { certificateText } from './visit.ts';

/** People by id, each once and by name. */
export async function certifiedOn(
  { tx, tenantId }: Viewer,
  ids: readonly (string | null)[],
  day: string,
): Promise<Certified[]> {
  const known = [...new Set(ids)].filter((id) => id !== null);
  if (known.length === 0) return [];
  const rows = await tx.person.findMany({
    where: { tenantId, id: { in: known } },
    include: { certificates: HELD },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  return rows.map(({ id, name, certificates }) => ({
    id,
    name,
    certificates: certificateText(certificates, day),
  }));
}
