import { add, divide, exactGrams, massText, parseMass, rational, type EnteredMass, type MassUnit } from '@ullage/units';
import { massFromText } from './mass-text.ts';

/** A mass as typed, in its own digits; what cannot be read goes on as it is, for the contract to refuse. */
export function massOf(text: string, unit: MassUnit): EnteredMass {
  const read = massFromText(text, unit);
  return read.ok ? read.mass : { value: text.trim(), unit };
}

/** `200 to 240`, `200-240`, with dashes of any length. */
const RANGE = /^(.+?)\s*(?:\bto\b|[-\u2013\u2014])\s*(.+)$/i;
const readable = (mass: EnteredMass): boolean => parseMass(mass).ok;

export interface FullChargeText {
  readonly text: string;
  readonly unit: MassUnit;
  /** Where the figure comes from; a range is typed with both ends. */
  readonly method: string;
}
export interface FullChargeBody {
  readonly mass: EnteredMass;
  readonly method: string;
  readonly low?: EnteredMass;
  readonly high?: EnteredMass;
}
/** A full charge as the contract wants it: of a range both ends, and the midpoint worked out from them. */
export function fullChargeFrom({ text, unit, method }: FullChargeText): FullChargeBody {
  const ends = method === 'range' ? RANGE.exec(text.trim()) : null;
  if (!ends) return { mass: massOf(text, unit), method };
  // Pounds and ounces have no decimal midpoint of their own; pounds have.
  const inPounds = (mass: EnteredMass): EnteredMass =>
    mass.unit === 'lb-oz' && readable(mass) ? { value: massText(exactGrams(mass), 'lb', 6), unit: 'lb' } : mass;
  const low = inPounds(massOf(ends[1] ?? '', unit));
  const high = inPounds(massOf(ends[2] ?? '', unit));
  if (!readable(low) || !readable(high)) return { mass: low, method, low, high };
  const midpoint = divide(add(exactGrams(low), exactGrams(high)), rational(2n));
  const to = low.unit === 'lb-oz' ? 'lb' : low.unit;
  return { mass: { value: massText(midpoint, to, 7), unit: to }, method, low, high };
}
