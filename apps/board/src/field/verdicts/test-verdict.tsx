'use client';
import { fromKpa } from '@ullage/units';
import { PRESSURE_WORDS } from '../../lib/pressure-words.ts';
import { Shape } from '../../ui/state.tsx';
import { pressureWords } from '../sums.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { Reasons } from './reasons.tsx';
import { testSum, type TestReadings, type TestSum } from './test-sum.ts';
import { sigmaOf } from './typed.ts';
import css from '../parts/step.module.css';
import draw from '../parts/drawings.module.css';

const SAYS = {
  pass: { mark: 'under', title: 'It holds' },
  fail: { mark: 'over', title: 'It lost gas' },
  'cannot-tell': { mark: 'unsure', title: 'The readings cannot tell' },
} as const;

/** What the nitrogen test says by its readings; the result stays the technician's. */
export function TestVerdict({ readings, gaugeId }: { readings: TestReadings; gaugeId: string }) {
  const { view } = useVisit();
  const { pressure } = useUnits();
  const { barometerKpa } = view.site;
  const gauge = sigmaOf(
    view.instruments.find(({ id }) => id === gaugeId),
    'pressure',
  );
  const sum = testSum(readings, barometerKpa, gauge);
  if (!sum) return null;
  const { mark, title } = SAYS[sum.verdict];
  const words = (kpa: number): string => pressureWords(kpa, pressure, barometerKpa);
  const apart = (kpa: number): string =>
    `${Math.abs(fromKpa(barometerKpa + kpa, pressure, barometerKpa)).toFixed(1)} ${PRESSURE_WORDS[pressure].replace(/ gauge$|g$/, '')}`;
  return (
    <section className={css['card']} aria-label="What the test says" aria-live="polite">
      <h2>
        <Shape mark={mark} size={15} />
        {title}
      </h2>
      <TestLine sum={sum} words={words} />
      <p>
        With nothing lost it stands at {words(sum.expectedPressureKpa)} now. Read {words(sum.endKpa)}:{' '}
        {apart(sum.differenceKpa)} {sum.differenceKpa < 0 ? 'lower' : 'higher'}, two sigma {apart(2 * sum.sigmaKpa)};{' '}
        {apart(sum.limitKpa)} may be missing.
      </p>
      <p className={css['source']}>
        {gauge === undefined ? 'Gauge read to 0.5 psi' : 'Gauge as its repeatability says'}, thermometer to 1 K; half a
        percent of the pressure may be missing (common practice). The maker’s figures come first.
        {sum.verdict === 'cannot-tell' && ' Hold longer, and measure the gas and not the air.'}
      </p>
      <Reasons reasons={sum.reasons} />
    </section>
  );
}

/** The reading with its two sigma beside what is expected and what may be missing. */
function TestLine({ sum, words }: { sum: TestSum; words: (kpa: number) => string }) {
  const { expectedPressureKpa: expected, endKpa, limitKpa } = sum;
  const two = 2 * sum.sigmaKpa;
  const reach = Math.max(Math.abs(endKpa - expected) + two, limitKpa) * 1.25;
  const x = (kpa: number): string => `${(50 + ((kpa - expected) / reach) * 50).toFixed(2)}%`;
  const width = (kpa: number): string => `${((kpa / reach) * 50).toFixed(2)}%`;
  return (
    <svg
      className={draw['line']}
      width="100%"
      height="58"
      role="img"
      aria-label={`Read ${words(endKpa)} against ${words(expected)} expected.`}
    >
      <rect x={x(expected - limitKpa)} y="21" width={width(limitKpa)} height="18" className={draw['band']} />
      <line x1="0" x2="100%" y1="30" y2="30" className={draw['ink']} />
      <text x="50%" y="13" textAnchor="middle">
        expected {words(expected)}
      </text>
      <line x1="50%" x2="50%" y1="17" y2="43" className={draw['ink']} />
      <rect x={x(endKpa - two)} y="27" width={width(2 * two)} height="6" className={draw['held']} />
      <line x1={x(endKpa)} x2={x(endKpa)} y1="19" y2="41" className={draw['needle']} />
      <text x="0" y="55" className={draw['quiet']}>
        less
      </text>
      <text x="100%" y="55" textAnchor="end" className={draw['quiet']}>
        more
      </text>
    </svg>
  );
}
