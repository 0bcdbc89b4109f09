import type { LookMethodId } from './methods.ts';
import { PRECONDITIONS } from './preconditions.ts';
import type { Against, Conditions, Precondition } from './preconditions.ts';

export interface LookConditions extends Conditions {
  readonly method: LookMethodId;
}
export type LookStop = Pick<Precondition, 'code' | 'text' | 'hurts'>;

function stands(against: Against, at: Conditions): boolean {
  const known = at[against.of];
  if ('isNot' in against) return known === undefined || !against.isNot.includes(String(known));
  if (known === undefined) return false;
  if ('is' in against) return against.is.some((value) => value === known);
  if ('atMost' in against) return Number(known) <= against.atMost;
  const whole = at[against.times];
  return whole !== undefined && Number(known) < against.below * whole;
}

/** Why a look by this method should not be made now; empty when nothing known stands against it. Common practice. */
export const methodStops = ({ method, ...at }: LookConditions): LookStop[] =>
  PRECONDITIONS.filter(({ methods, fails }) => methods.includes(method) && fails.every((one) => stands(one, at))).map(
    ({ code, text, hurts }) => ({ code, text, hurts }),
  );
