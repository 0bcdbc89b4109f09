/** What stands in the call form, what of it a person can mend at once, and the command it becomes. */
import type { MassUnit } from '@ullage/units';
import type { FieldProblem } from '../../lib/problem.ts';

export interface PastRow {
  readonly id: string;
  readonly day: string;
  /** Empty: the mass is not known. */
  readonly mass: string;
  readonly unit: MassUnit;
  readonly by: 'us' | 'other';
}
/** Ids are made once and kept with the draft: sending again is the same call. */
export interface CallDraft {
  readonly key: string;
  readonly ids: {
    readonly customer: string;
    readonly site: string;
    readonly unit: string;
    readonly circuit: string;
    readonly visit: string;
  };
  /** Ids of what is known already; empty for what is new. */
  readonly customerId: string;
  readonly siteId: string;
  readonly unitId: string;
  readonly circuitId: string;
  readonly customer: string;
  readonly address: string;
  readonly timeZone: string;
  /** Empty: nobody knows; sea level is taken, and said to be. */
  readonly elevation: string;
  readonly elevationUnit: 'ft' | 'm';
  readonly access: string;
  readonly contact: string;
  readonly unit: string;
  readonly what: string;
  readonly refrigerant: string;
  readonly use: string;
  readonly charge: string;
  readonly chargeUnit: MassUnit;
  readonly chargeFrom: string;
  readonly symptom: string;
  readonly past: readonly PastRow[];
}

export function emptyDraft(newId: () => string, of: { timeZone: string; massUnit: MassUnit }): CallDraft {
  const ids = { customer: newId(), site: newId(), unit: newId(), circuit: newId(), visit: newId() };
  const known = { customerId: '', siteId: '', unitId: '', circuitId: '' };
  const place = { customer: '', address: '', timeZone: of.timeZone, access: '', contact: '' };
  const height = { elevation: '', elevationUnit: 'ft' } as const;
  const unit = { unit: '', what: '', refrigerant: '', use: '', charge: '', chargeUnit: of.massUnit };
  return {
    key: newId(),
    ids,
    ...known,
    ...place,
    ...height,
    ...unit,
    chargeFrom: 'manufacturer',
    symptom: '',
    past: [],
  };
}

const FEET_PER_METRE = 0.3048;
/** Metres of what was typed; NaN for what is no number. 1 ft = 0.3048 m exactly (NIST SP 811, appendix B). */
export function elevationM(text: string, unit: 'ft' | 'm'): number {
  const plain = text.trim().replace(/^(-?\d{1,3}),(\d{3})$/, '$1$2');
  if (plain === '') return Number.NaN;
  const typed = Number(plain);
  return unit === 'm' ? typed : Math.round(typed * FEET_PER_METRE * 10) / 10;
}

const PHONE = /[+(]?\d[\d\s().-]{5,}$/;
/** `Mr Ebbing, 555 0100` as name and phone; a number alone stands as the name too, so that nothing is lost. */
export function contactFrom(text: string): { name: string; phone?: string } | undefined {
  const all = text.trim();
  if (all === '') return undefined;
  const phone = PHONE.exec(all)?.[0];
  const name = (phone === undefined ? all : all.slice(0, -phone.length)).replace(/[\s,;:]+$/, '');
  return { name: name === '' ? all : name, ...(phone === undefined || name === '' ? {} : { phone: phone.trim() }) };
}

/** `0418-B` is unit 0418, circuit B; without a letter the circuit is A. */
export function unitTag(text: string): { tag: string; letter?: string } {
  const match = /^(.*\S)\s*-\s*([a-z]{1,2})$/i.exec(text.trim());
  return match?.[1] === undefined ? { tag: text.trim() } : { tag: match[1], letter: match[2]?.toUpperCase() ?? 'A' };
}

const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^customer/, 'customer', 'Customer'],
  [/^site\/new\/timeZone/, 'timeZone', 'Time zone'],
  [/^site\/new\/elevationM/, 'elevation', 'Elevation'],
  [/^site\/new\/accessNotes/, 'access', 'Access'],
  [/^site\/new\/contact/, 'contact', 'Contact'],
  [/^site/, 'address', 'Site address'],
  [/^unit\/new\/description/, 'what', 'What it is'],
  [/^unit/, 'unit', 'Unit'],
  [/^circuit\/new\/refrigerant/, 'refrigerant', 'Refrigerant'],
  [/^circuit\/new\/use/, 'use', 'Use'],
  [/^circuit\/new\/fullCharge\/method/, 'chargeFrom', 'Figure from'],
  [/^circuit\/new\/fullCharge/, 'charge', 'Full charge'],
  [/^circuit/, 'unit', 'Unit'],
  [/^visit/, 'symptom', 'What is wrong'],
];
/** The field of the form that a pointer belongs to, and its label. */
export function callField(pointer: string): { id: string; label: string } | undefined {
  const path = pointer.replace(/^#?\/(body\/)?/, '');
  const past = /^history\/(\d+)\/(\w+)/.exec(path);
  if (past)
    return past[2] === 'mass'
      ? { id: `past-${past[1]}-mass`, label: 'Past addition' }
      : { id: `past-${past[1]}-day`, label: 'Day of the past addition' };
  const found = FIELDS.find(([test]) => test.test(path));
  return found && { id: found[1], label: found[2] };
}
/** Message by field, the first one winning. */
export function callErrors(errors: readonly FieldProblem[]): Readonly<Record<string, string>> {
  const by: Record<string, string> = {};
  for (const { pointer, detail } of errors) {
    const field = callField(pointer);
    if (field) by[field.id] ??= detail;
  }
  return by;
}

/** The standard number of what was typed: `448a`, `r448a` and `R-448A` are one gas. The text itself when none is known. */
export function refrigerantFrom(typed: string, names: readonly string[]): string {
  const bare = (text: string): string =>
    text
      .toLowerCase()
      .replace(/^r/, '')
      .replace(/[^a-z0-9]/g, '');
  return names.find((name) => bare(name) === bare(typed.trim())) ?? typed.trim();
}
