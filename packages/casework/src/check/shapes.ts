import type { Tx } from '@ullage/database';
import type { Calendar } from '@ullage/units';

/** One contractor's records as of one moment. */
export interface Checking {
  readonly tx: Tx;
  readonly tenantId: string;
  readonly calendar: Calendar;
  readonly now: Date;
}
export interface Found {
  /** How many things were looked at. */
  readonly looked: number;
  /** One line for each difference, for whoever runs the server. */
  readonly wrong: readonly string[];
}
