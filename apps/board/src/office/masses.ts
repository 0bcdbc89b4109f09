/** Masses as the office screens say them. */
import { exactGrams, inUnit, toNumber, type EnteredMass, type MassUnit } from '@ullage/units';

/** `18 lb`, `3 lb 4 oz`: as it was entered. */
export const massWords = ({ value, unit }: EnteredMass): string => (unit === 'lb-oz' ? value : `${value} ${unit}`);
/** `12,000 g`; a minus is a true minus. */
export const gramsWords = (grams: number): string =>
  `${grams < 0 ? '−' : ''}${Math.abs(grams).toLocaleString('en-US')} g`;
/** A movement: `+12,000 g` came, `−12,000 g` left. */
export const signedGrams = (grams: number): string => `${grams > 0 ? '+' : ''}${gramsWords(grams)}`;
/** An entered mass as a number in another unit, for a drawing; never for a verdict. */
export const massIn = (mass: EnteredMass, unit: MassUnit): number => toNumber(inUnit(exactGrams(mass), unit));
/** The unit a drawing counts in: pounds-and-ounces are drawn in pounds. */
export const drawnUnit = (unit: MassUnit): Exclude<MassUnit, 'lb-oz'> => (unit === 'lb-oz' ? 'lb' : unit);

const DIGITS = { lb: 2, oz: 1, kg: 3, g: 0 } as const;
/** Grams in the firm's unit, cut rather than rounded up: `15.33 lb`. For room and limits. */
export function atMostWords(grams: number, unit: MassUnit): string {
  const to = drawnUnit(unit);
  const digits = DIGITS[to];
  const value = massIn({ value: String(Math.max(0, Math.floor(grams))), unit: 'g' }, to);
  const cut = Math.floor(value * 10 ** digits + 1e-9) / 10 ** digits;
  return `${cut.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits })} ${to}`;
}
/** Grams in the firm's unit, to the nearest step: `26.46 lb`. */
export function aboutWords(grams: number, unit: MassUnit): string {
  const to = drawnUnit(unit);
  const digits = DIGITS[to];
  const value = massIn({ value: String(Math.abs(Math.round(grams))), unit: 'g' }, to);
  return `${grams < 0 ? '−' : ''}${value.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits })} ${to}`;
}

/** `1.2 to 6 kg/yr`, `5 g/yr or more`, or that nobody estimated it. */
export function sizeWords(low: number | null, high: number | null): string {
  const most = Math.max(low ?? 0, high ?? 0);
  if (most <= 0) return 'size not estimated';
  const [by, unit] = most >= 1000 ? [1000, 'kg/yr'] : [1, 'g/yr'];
  const figure = (grams: number): string => String(Number((grams / by).toPrecision(3)));
  if (low === null) return `up to ${figure(most)} ${unit}`;
  if (high === null) return `${figure(low)} ${unit} or more`;
  return low === high ? `${figure(low)} ${unit}` : `${figure(low)} to ${figure(high)} ${unit}`;
}
