/** Words and rows of the naive model. */
import type { Draw, TaintCause } from '../index.ts';

export type Table = Record<string, number>;
/** A doubt of one origin on one account. */
export interface Suspicion {
  readonly cause: TaintCause;
  low: number;
  high: number | null;
  readonly most: number | null;
  confirmed: boolean;
}
export const RANK: Readonly<Record<string, number>> = {
  readings: 0,
  weighing: 1,
  'air-check': 2,
  recovery: 3,
  'service-loss': 4,
  vacuum: 5,
  transfer: 6,
  charge: 7,
  statement: 8,
  decommissioning: 9,
};
export const AIR = new Set<TaintCause>([
  'recovery-below-site-pressure-open-leak',
  'cylinder-not-evacuated',
  'circuit-flat',
  'circuit-above-saturation',
  'nitrogen-present',
  'hoses-not-purged',
  'air-check-over',
]);
/** A row of the model's table; the contractor sorts after every customer. */
export const cellName = (of: { account: string; refrigerant: string; owner: string | null; state: string }): string =>
  [of.account, of.refrigerant, of.owner ?? '~', of.state].join('/');
export const elsewhere = (cell: string, account: string): string => account + cell.slice(cell.indexOf('/'));
/** The same gas on the account it goes to, as the act makes it. */
export function arrived(cell: string, { to, title }: Draw): string {
  const [, refrigerant = '', owner = '', state = ''] = cell.split('/');
  if (title.act === 'charge') return [to, refrigerant, title.customer, 'in-use'].join('/');
  return [to, refrigerant, owner, title.act === 'recovery' ? 'recovered' : state].join('/');
}
