import { parseMass, type EnteredMass, type MassUnit } from '@ullage/units';

export type MassFromText =
  { readonly ok: true; readonly mass: EnteredMass } | { readonly ok: false; readonly detail: string };

const GROUPED = /^\d{1,3}(,\d{3})+(\.\d+)?$/;
const POUNDS =
  /^(\d+)\s*(?:lbs?\.?|#)?[\s,]+(\d+(?:\.\d+)?)\s*(?:oz\.?)?$|^(\d+)\s*lbs?\.?\s*(\d+(?:\.\d+)?)\s*oz\.?$/i;

/** `3 4`, `3lb4oz` and `3 lb, 4 oz` all as `3 lb 4 oz`; other text as it is, for the check to refuse. */
function poundsAndOunces(text: string): string {
  const match = POUNDS.exec(text);
  if (!match) return text;
  return `${match[1] ?? match[3]} lb ${match[2] ?? match[4]} oz`;
}

function wordsOf(fault: string, unit: MassUnit): string {
  switch (fault) {
    case 'negative':
      return 'Enter what the scale showed: zero or more.';
    case 'sixteen-ounces-or-more':
      return 'Enter ounces below 16; 16 oz are a pound.';
    case 'not-pounds-and-ounces':
      return 'Enter pounds and ounces, like 3 lb 4 oz.';
    default:
      return `Enter a figure in ${unit}, like 18.5.`;
  }
}

/** A mass from what was typed: thousands commas and spaces go, digits stay exactly as written. */
export function massFromText(typed: string, unit: MassUnit): MassFromText {
  const text = typed.trim().replace(/\u2212/g, '-');
  if (text === '') return { ok: false, detail: 'Enter the mass.' };
  const value = unit === 'lb-oz' ? poundsAndOunces(text) : GROUPED.test(text) ? text.replaceAll(',', '') : text;
  const parsed = parseMass({ value, unit });
  if (!parsed.ok) return { ok: false, detail: wordsOf(parsed.fault, unit) };
  if (unit === 'g' && value.includes('.') && /[1-9]/.test(value.split('.')[1] ?? ''))
    return { ok: false, detail: 'Enter whole grams; a scale shows no less.' };
  return { ok: true, mass: { value, unit } };
}
