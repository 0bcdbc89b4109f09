'use client';
import type { EvacuationAdvice } from '@ullage/contracts';
import { pressureWords } from '../sums.ts';
import { useUnits } from '../visit-context.tsx';
import draw from './drawings.module.css';

/** The gauge lying down: above site pressure on the right, air coming in on the left, the law's level marked. */
export function StopLine({ advice, readKpa }: { advice: EvacuationAdvice; readKpa: number | undefined }) {
  const { pressure } = useUnits();
  const { siteKpa, levelKpa } = advice;
  const level = levelKpa ?? siteKpa;
  const low = Math.min(siteKpa - 35, level - 10, (readKpa ?? siteKpa) - 10);
  const high = Math.max(siteKpa + 60, (readKpa ?? siteKpa) + 10);
  const share = (kpa: number): number => ((Math.min(high, Math.max(low, kpa)) - low) / (high - low)) * 100;
  const x = (kpa: number): string => `${share(kpa).toFixed(2)}%`;
  const label = `Law ${pressureWords(level, pressure, siteKpa)}${readKpa === undefined ? '' : `; stopped at ${pressureWords(readKpa, pressure, siteKpa)}`}; below ${pressureWords(siteKpa, pressure, siteKpa)} an open leak draws air in.`;
  return (
    <svg className={draw['bar']} width="100%" height="58" role="img" aria-label={label}>
      <rect x="0" y="18" width={x(siteKpa)} height="16" className={draw['beyond']} />
      <rect
        x={x(siteKpa)}
        y="18"
        width={`${(100 - share(siteKpa)).toFixed(2)}%`}
        height="16"
        className={draw['empty']}
      />
      <text x="0" y="12" className={draw['quiet']}>
        air comes in
      </text>
      <text x="100%" y="12" textAnchor="end" className={draw['quiet']}>
        gas left
      </text>
      <line x1={x(level)} x2={x(level)} y1="13" y2="39" className={draw['needle']} />
      <text x={x(level)} y="53" textAnchor="middle" className={draw['strong']}>
        law {pressureWords(level, pressure, siteKpa)}
      </text>
      {readKpa !== undefined && (
        <svg x={x(readKpa)} y="18" overflow="visible">
          <path d="M0 2l-6 -11h12Z" fill="var(--ink)" />
        </svg>
      )}
    </svg>
  );
}
