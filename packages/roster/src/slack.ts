import type { Calendar, Instant } from '@ullage/units';

export const RESERVE_MINUTES = 60;
const MS_PER_MINUTE = 60_000;

/**
 * What is really left of a legal clock: minutes from `now` to `dueAt` less driving, work and reserve, rounded down.
 * Below zero: it no longer fits. For a moment offered, `now` is its start and `driveMinutes` 0, so that the slack of an
 * offer is the due instant less the end of the work less the reserve. Where a part is awaited, `now` is its arrival.
 */
export function slackOf(
  of: {
    readonly dueAt: Instant;
    readonly now: Instant;
    readonly driveMinutes: number;
    readonly workMinutes: number;
    readonly reserveMinutes?: number | undefined;
  },
  calendar: Pick<Calendar, 'epochMs'>,
): number {
  const left = Math.floor((calendar.epochMs(of.dueAt) - calendar.epochMs(of.now)) / MS_PER_MINUTE);
  return left - of.driveMinutes - of.workMinutes - (of.reserveMinutes ?? RESERVE_MINUTES);
}

export interface SlackRow {
  readonly id: string;
  /** The first instant after the last legal day; null while no clock runs (suspended, or a call without a duty). */
  readonly dueAt: Instant | null;
  readonly slackMinutes: number | null;
}

/**
 * The order of the list: overdue first and the longest overdue at the top, then least slack, then what has no clock.
 * A row on hold keeps its place, because the law does not wait for a part. Equal rows go by due instant, then id, so the
 * order is the same however the rows came. Does not change `rows`.
 */
export function orderBySlack<R extends SlackRow>(
  rows: readonly R[],
  now: Instant,
  calendar: Pick<Calendar, 'epochMs'>,
): R[] {
  const nowMs = calendar.epochMs(now);
  const keyed = rows.map((row) => ({ row, key: keyOf(row, nowMs, calendar) }));
  keyed.sort(
    (a, b) =>
      a.key.group - b.key.group || a.key.rank - b.key.rank || a.key.due - b.key.due || byText(a.row.id, b.row.id),
  );
  return keyed.map(({ row }) => row);
}

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function keyOf(row: SlackRow, nowMs: number, calendar: Pick<Calendar, 'epochMs'>) {
  if (row.dueAt === null) return { group: 2, rank: 0, due: 0 };
  const due = calendar.epochMs(row.dueAt);
  if (due <= nowMs) return { group: 0, rank: due, due };
  return { group: 1, rank: row.slackMinutes ?? Math.floor((due - nowMs) / MS_PER_MINUTE), due };
}
