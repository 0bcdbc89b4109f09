/** The full charge of a circuit is a dated history; a range counts with its midpoint (40 CFR 82.152 "Full charge"). */
import { add, divide, exactGrams, massText, rational } from '@ullage/units';
import type { Day, EnteredMass, MassUnit, Rational } from '@ullage/units';
import { isKind } from './placed.ts';
import type { Placed } from './placed.ts';
import type { FullCharge } from './types.ts';

export interface FullChargeOn {
  readonly grams: Rational;
  readonly entered: EnteredMass;
  /** The unit in which answers about this circuit are given: pounds where pounds and ounces were entered. */
  readonly unit: MassUnit;
}

/** A mass in a unit for people: up to six digits, so that what was entered in that unit comes back as it was. */
export function massIn(grams: Rational, unit: MassUnit): EnteredMass {
  const to = unit === 'lb-oz' ? 'lb' : unit;
  return { value: massText(grams, to, 6), unit: to };
}

function weigh(charge: FullCharge): FullChargeOn {
  const { low, high, mass } = charge;
  const grams = low && high ? divide(add(exactGrams(low), exactGrams(high)), rational(2n)) : exactGrams(mass);
  const unit = (low && high ? low : mass).unit;
  return { grams, unit: unit === 'lb-oz' ? 'lb' : unit, entered: low && high ? massIn(grams, unit) : mass };
}

/** All full charges, those entered with the circuit and those that came as events, oldest first. */
export function fullChargeHistory(entered: readonly FullCharge[], events: readonly Placed[]): readonly FullCharge[] {
  const later = events.filter(isKind('full-charge')).map(({ event, day }) => ({ ...event, fromOn: day }));
  return [...entered, ...later].sort((a, b) => compareText(a.fromOn ?? '', b.fromOn ?? ''));
}

const compareText = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/**
 * The full charge on a day. Before the first dated one, that first one is the best available figure.
 * Undefined when none is known. @throws RangeError for a mass that is none: check at the edge first.
 */
export function fullChargeOn(history: readonly FullCharge[], day: Day): FullChargeOn | undefined {
  const known = history.findLast((charge) => (charge.fromOn ?? '') <= day) ?? history[0];
  return known && weigh(known);
}
