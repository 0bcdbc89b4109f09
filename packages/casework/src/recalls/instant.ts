import type { Instant } from '@ullage/units';
import { toInstant } from '../pipeline/case.ts';

/** When a fact happened; what is known by day only, when it was written down. */
export const instantOfFact = (fact: { readonly happenedAt: Date | null; readonly recordedAt: Date }): Instant =>
  toInstant(fact.happenedAt ?? fact.recordedAt);
