'use client';
import type { LineAnswer } from '@ullage/thermo';
import { useUnits, useVisit } from '../visit-context.tsx';
import { linesSum, type LineReadings } from './lines-sum.ts';
import { Reasons } from './reasons.tsx';
import { differenceWords, sigmaOf } from './typed.ts';
import css from '../parts/step.module.css';

/** Superheat and subcooling while the readings are typed. */
export function LinesVerdict({ readings, gaugeId }: { readings: LineReadings; gaugeId: string }) {
  const { view, glance } = useVisit();
  const { temperature } = useUnits();
  const gaugeSigmaKpa = sigmaOf(
    view.instruments.find(({ id }) => id === gaugeId),
    'pressure',
  );
  const place = { refrigerant: glance.refrigerant, siteKpa: view.site.barometerKpa, gaugeSigmaKpa };
  const sum = linesSum(readings, place);
  if (!sum) return null;
  const words = ({ kelvin, sigmaK }: LineAnswer): string =>
    `${differenceWords(kelvin, temperature)}, two sigma ${differenceWords(2 * sigmaK, temperature)}`;
  const reasons = [...(sum.superheat?.reasons ?? []), ...(sum.subcooling?.reasons ?? [])];
  return (
    <section className={css['card']} aria-label="Superheat and subcooling" aria-live="polite">
      {sum.superheat && <h2>Superheat {words(sum.superheat)}</h2>}
      {sum.subcooling && <h2>Subcooling {words(sum.subcooling)}</h2>}
      <p className={css['source']}>What the maker gives for this unit decides what it should be.</p>
      <Reasons reasons={reasons} />
    </section>
  );
}
