import type { AirCheckView, SumAnswer, SumInput } from '@ullage/contracts';
import { DEFAULT_PURITY_MOLE_FRACTION, DEFAULT_SHOP_EXCESS_KPA } from '@ullage/thermo';
import { toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';

/** What an air check's fact keeps besides the readings. */
interface Kept {
  readonly refrigerant: string;
  readonly temperature: AirCheckView['readings']['temperature'];
  readonly pressure: AirCheckView['readings']['pressure'];
  readonly restedHours: number;
  readonly liquidPresent: boolean;
  readonly barometerUsed: { kpa: number; from: NonNullable<AirCheckView['readings']['barometerFrom']> } | null;
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
    const kept = row.body as unknown as Kept;
    const { refrigerant, input, answer } = kept;
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
      airPercentSigma: answer.airMoleFractionSigma === null ? null : answer.airMoleFractionSigma * 100,
      airGrams: answer.airGrams,
      // A check from before the mixture model said nothing of either end.
      airGramsLow: answer.airGramsLow ?? null,
      airGramsHigh: answer.airGramsHigh ?? null,
      purityText: PURITY_TEXT,
      purityKpa: purityKpa(answer.saturationPressureKpa),
      readings: readingsOf(kept),
      reasons: answer.reasons,
    };
  });
}

/** Air is the excess over the whole: x of the vapour stands at p_sat * x / (1 - x) above saturation. */
const purityKpa = (saturationKpa: number): number =>
  (saturationKpa * DEFAULT_PURITY_MOLE_FRACTION) / (1 - DEFAULT_PURITY_MOLE_FRACTION);

const readingsOf = (kept: Kept): AirCheckView['readings'] => ({
  restedHours: kept.restedHours,
  liquidPresent: kept.liquidPresent,
  temperature: kept.temperature,
  temperatureSigmaK: kept.input.temperatureSigmaK,
  pressure: kept.pressure,
  pressureSigmaKpa: kept.input.pressureSigmaKpa,
  barometerKpa: kept.barometerUsed?.kpa ?? null,
  barometerFrom: kept.barometerUsed?.from ?? null,
});

const VERDICT_TEXT: Readonly<Record<AirCheckView['verdict'], string>> = {
  'within-shop-limit': 'within the shop limit',
  'over-shop-limit': 'over the shop limit',
  'cannot-tell': 'the readings cannot tell',
  'not-defined': 'the check says nothing here',
};
export const verdictText = (verdict: AirCheckView['verdict']): string => VERDICT_TEXT[verdict];
const textOf = ({ verdict, excessKpa, excessSigmaKpa }: Kept['answer']): string =>
  `${excessKpa.toFixed(0)} kPa over saturation, two sigma ${(2 * excessSigmaKpa).toFixed(0)} kPa: ${verdictText(verdict)}.`;
