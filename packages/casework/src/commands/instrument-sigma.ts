import { KPA_PER_PSI } from '@ullage/units';
import type { Case } from '../pipeline/case.ts';

/** What a unit of repeatability is in kelvin or kPa; an °F of difference is 5/9 K. */
const UNITS: Readonly<Record<'pressure' | 'temperature', Readonly<Record<string, number>>>> = {
  pressure: { kPa: 1, psi: KPA_PER_PSI },
  temperature: { K: 1, F: 5 / 9 },
};

/** One standard deviation of an instrument's readings, in kPa or K; undefined where nobody said, or said it of something else. */
export async function sigmaOf(
  desk: Case,
  { instrumentId, quantity }: { instrumentId: string | undefined; quantity: 'pressure' | 'temperature' },
): Promise<number | undefined> {
  if (instrumentId === undefined) return undefined;
  const row = await desk.tx.instrument.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: instrumentId } },
    select: { repeatability: true, repeatabilityUnit: true },
  });
  const factor = UNITS[quantity][row?.repeatabilityUnit ?? ''];
  return row?.repeatability && factor !== undefined ? Number(row.repeatability) * factor : undefined;
}
