import type { AirCheckView, SumAnswer, SumInput } from '@ullage/contracts';
import { DEFAULT_SHOP_EXCESS_KPA } from '@ullage/thermo';
import { toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';

/** What an air check's fact keeps besides the readings. */
interface Kept {
  readonly refrigerant: string;
  readonly input: SumInput<'air-check'>;
  readonly answer: SumAnswer<'air-check'>;
}
const PURITY_TEXT = 'The purity limit of 1.5 % by volume is not certifiable by a gauge; a laboratory certifies it.';

/** Air checks of a cylinder, newest first, each with the verdict of its day. */
export async function airChecksOf({ tx, tenantId }: Viewer, cylinderId: string): Promise<AirCheckView[]> {
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: 'air-check', factRefs: { some: { cylinderId } } },
    include: { byPerson: { select: { name: true } } },
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
  });
  return rows.map((row) => {
    const { refrigerant, input, answer } = row.body as unknown as Kept;
    return {
      factId: row.id,
      at: toInstant(row.happenedAt ?? row.recordedAt),
      by: row.byPerson?.name ?? '',
      refrigerant,
      verdict: answer.verdict,
      text: textOf(answer),
      excessKpa: answer.excessKpa,
      excessSigmaKpa: answer.excessSigmaKpa,
      limitKpa: input.shopExcessKpa ?? DEFAULT_SHOP_EXCESS_KPA,
      airPercent: answer.airMoleFraction === null ? null : answer.airMoleFraction * 100,
      airGrams: answer.airGrams,
      purityText: PURITY_TEXT,
      reasons: answer.reasons,
    };
  });
}

const VERDICT_TEXT: Readonly<Record<AirCheckView['verdict'], string>> = {
  'within-shop-limit': 'within the shop limit',
  'over-shop-limit': 'over the shop limit',
  'cannot-tell': 'the readings cannot tell',
  'not-defined': 'the check says nothing here',
};
export const verdictText = (verdict: AirCheckView['verdict']): string => VERDICT_TEXT[verdict];
const textOf = ({ verdict, excessKpa, excessSigmaKpa }: Kept['answer']): string =>
  `${excessKpa.toFixed(0)} kPa over saturation, two sigma ${(2 * excessSigmaKpa).toFixed(0)} kPa: ${verdictText(verdict)}.`;
