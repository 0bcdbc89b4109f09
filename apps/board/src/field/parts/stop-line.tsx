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
    <svg className={draw['bar']} width="100%" height="70" role="img" aria-label={label}>
      <rect x="0" y="18" width={x(siteKpa)} height="16" className={draw['beyond']} />
      <rect
        x={x(siteKpa)}
        y="18"
        width={`${(100 - share(siteKpa)).toFixed(2)}%`}
        height="16"
        className={draw['empty']}
      />
      {readKpa !== undefined && (
        <Reading x={x(readKpa)} share={share(readKpa)} text={pressureWords(readKpa, pressure, siteKpa)} />
      )}
      <line x1={x(level)} x2={x(level)} y1="13" y2="39" className={draw['needle']} />
      <text x={x(level)} y="51" textAnchor="middle" className={draw['strong']}>
        law {pressureWords(level, pressure, siteKpa)}
      </text>
      <text x="0" y="67" className={draw['quiet']}>
        air comes in
      </text>
      <text x="100%" y="67" textAnchor="end" className={draw['quiet']}>
        gas left inside
      </text>
    </svg>
  );
}

/** Where it was stopped; the figure stays inside the drawing at either end. */
function Reading({ x, share, text }: { x: string; share: number; text: string }) {
  const anchor = share < 20 ? 'start' : share > 80 ? 'end' : 'middle';
  return (
    <>
      <svg x={x} y="18" overflow="visible">
        <path d="M0 14l-6 -11h12Z" fill="var(--ink)" stroke="var(--sheet)" />
      </svg>
      <text x={x} y="12" textAnchor={anchor}>
        {text}
      </text>
    </>
  );
}
