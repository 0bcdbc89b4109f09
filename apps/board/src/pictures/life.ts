import { dayNumber } from './scales.ts';

export interface LifeAddition {
  /** `YYYY-MM-DD` in the site's zone. */
  readonly day: string;
  /** Net of the visit, in the unit of the drawing; undefined when nobody wrote it down. */
  readonly mass: number | undefined;
  /** At a visit with a verified repair: not a top-off, drawn hollow. */
  readonly atRepair: boolean;
}
export interface LossPoint {
  readonly day: number;
  /** Gone in all up to this fill. */
  readonly total: number;
}
export interface LossSlope {
  readonly fromDay: number;
  readonly toDay: number;
  readonly middle: number;
  readonly perYear: number;
}

/**
 * The curve of what has gone: straight between fills, because only a fill measures. An addition of unknown mass
 * breaks nothing and adds nothing; no rate is drawn across it.
 */
export function lossCurve(
  additions: readonly LifeAddition[],
  from: string,
): { points: readonly LossPoint[]; slopes: readonly LossSlope[] } {
  const points: LossPoint[] = [{ day: dayNumber(from), total: 0 }];
  const slopes: LossSlope[] = [];
  let before: number | undefined;
  let total = 0;
  for (const { day, mass } of [...additions].sort((a, b) => dayNumber(a.day) - dayNumber(b.day))) {
    const at = dayNumber(day);
    if (mass !== undefined) {
      if (before !== undefined && at > before)
        slopes.push({ fromDay: before, toDay: at, middle: total + mass / 2, perYear: (mass / (at - before)) * 365 });
      total += mass;
      points.push({ day: at, total });
    }
    before = mass === undefined ? undefined : at;
  }
  return { points, slopes };
}

export interface YearTick {
  readonly day: number;
  readonly text: string;
  readonly year: boolean;
}
const QUARTERS = ['Jan', 'Apr', 'Jul', 'Oct'] as const;

/** First days of quarters between two days; January carries its year. */
export function quarterTicks(from: string, to: string): readonly YearTick[] {
  const [first, last] = [dayNumber(from), dayNumber(to)];
  const ticks: YearTick[] = [];
  for (let year = Number(from.slice(0, 4)); year <= Number(to.slice(0, 4)); year++)
    for (const [quarter, name] of QUARTERS.entries()) {
      const day = dayNumber(`${year}-${String(quarter * 3 + 1).padStart(2, '0')}-01`);
      if (day >= first && day <= last)
        ticks.push({ day, text: quarter === 0 ? String(year) : name, year: quarter === 0 });
    }
  return ticks;
}

/** Share of the drawing a letter takes; measured at the width of an office screen. */
const LETTER = 0.0054;

export interface Labelled {
  /** Left of its bar, or right of it. */
  readonly side: 'left' | 'right';
  /** The row it stands in, from 0, so that no bar or text covers another. */
  readonly row: number;
}

/** A side and a row for bars with a text beside them, all in shares of the width. */
export function layLabels(
  bars: readonly { readonly from: number; readonly to: number; readonly letters: number }[],
  stack: (spans: readonly { readonly from: number; readonly to: number }[]) => readonly number[],
): readonly Labelled[] {
  const sides = bars.map<'left' | 'right'>(({ from, to, letters }) =>
    1 - to < letters * LETTER && from > 0.2 ? 'left' : 'right',
  );
  const spans = bars.map(({ from, to, letters }, i) =>
    sides[i] === 'left'
      ? { from: from - letters * LETTER, to: to + 0.01 }
      : { from: from - 0.01, to: to + letters * LETTER },
  );
  const rows = stack(spans);
  return bars.map((_, i) => ({ side: sides[i] ?? 'right', row: rows[i] ?? 0 }));
}
