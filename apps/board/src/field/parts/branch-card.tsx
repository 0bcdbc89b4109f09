'use client';
import type { VisitView } from '@ullage/contracts';
import { PRESSURE_WORDS } from '../../lib/pressure-words.ts';
import { pressureWords } from '../sums.ts';
import { fromKpa } from '@ullage/units';
import { useUnits, useVisit } from '../visit-context.tsx';
import css from './step.module.css';
import draw from './drawings.module.css';

type Branch = NonNullable<VisitView['branch']>;

/** What the reading says about the charge, and how to go on. */
export function BranchCard({ branch }: { branch: Branch }) {
  const { view } = useVisit();
  const isStop = branch.state === 'above-saturation';
  return (
    <>
      {branch.dewKpa !== null && branch.bubbleKpa !== null && (
        <SaturationLine dewKpa={branch.dewKpa} bubbleKpa={branch.bubbleKpa} readKpa={branch.readKpa} />
      )}
      <section className={css['card']} data-stop={isStop || undefined} aria-label="What it means">
        <h2>{branch.title}</h2>
        <p>{branch.next}</p>
        {view.site.elevationAssumed && <p>Read as at sea level: the height of the site is not known.</p>}
      </section>
    </>
  );
}

/** The reading on the line of saturation: left of dew there is vapour only, right of bubble there is air or a wrong gas. */
function SaturationLine({ dewKpa, bubbleKpa, readKpa }: { dewKpa: number; bubbleKpa: number; readKpa: number }) {
  const { view } = useVisit();
  const { pressure } = useUnits();
  const site = view.site.barometerKpa;
  const span = Math.max(bubbleKpa - dewKpa, bubbleKpa * 0.08);
  const low = Math.min(dewKpa - span * 1.3, readKpa - span * 0.3);
  const high = Math.max(bubbleKpa + span * 1.3, readKpa + span * 0.3);
  const x = (kpa: number): string => `${(((kpa - low) / (high - low)) * 100).toFixed(2)}%`;
  const words = (kpa: number): string => fromKpa(kpa, pressure, site).toFixed(0);
  return (
    <svg
      className={draw['line']}
      width="100%"
      height="62"
      role="img"
      aria-label={`Read ${pressureWords(readKpa, pressure, site)}; liquid is inside from ${words(dewKpa)} to ${words(bubbleKpa)} ${PRESSURE_WORDS[pressure]}.`}
    >
      <line x1="0" x2="100%" y1="30" y2="30" className={draw['ink']} />
      <rect
        x={x(dewKpa)}
        y="21"
        width={`${(((bubbleKpa - dewKpa) / (high - low)) * 100).toFixed(2)}%`}
        height="18"
        className={draw['band']}
      />
      <text x="0" y="13" className={draw['quiet']}>
        vapour only
      </text>
      <text x="50%" y="13" textAnchor="middle">
        liquid inside
      </text>
      <text x="100%" y="13" textAnchor="end" className={draw['quiet']}>
        air or wrong gas
      </text>
      <line x1={x(readKpa)} x2={x(readKpa)} y1="17" y2="43" className={draw['needle']} />
      <text x={x(dewKpa)} y="57" textAnchor="end" className={draw['quiet']}>
        dew {words(dewKpa)}
      </text>
      <text x={x(bubbleKpa)} y="57" textAnchor="start" className={draw['quiet']}>
        bubble {words(bubbleKpa)}
      </text>
    </svg>
  );
}
