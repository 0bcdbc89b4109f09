/**
 * From what was typed to a command's body. Faults carry the field's label and what would be right; the API checks
 * again and decides.
 */
import type { FieldFault } from '@ullage/contracts';
import { MASS_UNITS, parseDecimal, PRESSURE_UNITS, TEMPERATURE_UNITS } from '@ullage/units';
import type { EnteredMass, MassUnit, PressureUnit, TemperatureUnit } from '@ullage/units';
import { massFromText } from '../lib/mass-text.ts';

/** A figure as typed, with the unit beside it. */
export interface Typed {
  readonly text: string;
  readonly unit: string;
}
export interface Reading<U extends string> {
  readonly value: string;
  readonly unit: U;
}

const isOneOf = <T extends string>(list: readonly T[], value: string): value is T => list.includes(value as T);
/** Spaces, a real minus sign and a leading or trailing point are slips of the hand, not of meaning. */
const tidy = (text: string): string =>
  text
    .trim()
    .replace('\u2212', '-')
    .replace(/^(-?)\./, '$10.')
    .replace(/\.$/, '');

/** Collects a body's fields and what is wrong with them. Every reader takes the body's path first, then the label. */
export class Check {
  readonly #faults: FieldFault[] = [];

  get faults(): readonly FieldFault[] {
    return this.#faults;
  }

  fault(path: string, detail: string): void {
    this.#faults.push({ pointer: `/${path.replaceAll('.', '/')}`, detail });
  }

  mass(path: string, label: string, typed: Typed): EnteredMass {
    const unit: MassUnit = isOneOf(MASS_UNITS, typed.unit) ? typed.unit : 'lb';
    const mass = massFromText(typed.text, unit);
    if (mass.ok) return mass.mass;
    this.fault(path, `${label}: ${mass.detail}`);
    return { value: '', unit };
  }

  optionalMass(path: string, label: string, typed: Typed): EnteredMass | undefined {
    return typed.text.trim() === '' ? undefined : this.mass(path, label, typed);
  }

  pressure(path: string, label: string, typed: Typed): Reading<PressureUnit> {
    const unit = isOneOf(PRESSURE_UNITS, typed.unit) ? typed.unit : 'psig';
    return { value: this.#decimal(path, label, typed.text), unit };
  }

  optionalPressure(path: string, label: string, typed: Typed): Reading<PressureUnit> | undefined {
    return typed.text.trim() === '' ? undefined : this.pressure(path, label, typed);
  }

  optionalTemperature(path: string, label: string, typed: Typed): Reading<TemperatureUnit> | undefined {
    if (typed.text.trim() === '') return undefined;
    const unit = isOneOf(TEMPERATURE_UNITS, typed.unit) ? typed.unit : 'F';
    return { value: this.#decimal(path, label, typed.text), unit };
  }

  #decimal(path: string, label: string, text: string): string {
    const value = tidy(text);
    if (parseDecimal(value) === undefined)
      this.fault(path, value === '' ? `${label}: enter a number.` : `${label}: give a plain number, as 12.5.`);
    return value;
  }

  /** A plain number, zero or more. */
  optionalNumber(path: string, label: string, text: string): number | undefined {
    const value = tidy(text);
    if (value === '') return undefined;
    if (parseDecimal(value) === undefined || Number(value) < 0) {
      this.fault(path, `${label}: give a plain number, zero or more.`);
      return undefined;
    }
    return Number(value);
  }

  number(path: string, label: string, text: string): number {
    if (tidy(text) === '') this.fault(path, `${label}: enter a number.`);
    return this.optionalNumber(path, label, text) ?? 0;
  }

  text(path: string, label: string, value: string): string {
    const trimmed = value.trim();
    if (trimmed === '') this.fault(path, `${label}: say it in a few words.`);
    return trimmed;
  }

  optionalText(value: string): string | undefined {
    return value.trim() === '' ? undefined : value.trim();
  }

  /** One of a list; empty means that nothing was chosen yet. */
  choice<T extends string>(path: string, list: readonly T[], { label, value }: { label: string; value: string }): T {
    const [first] = list;
    if (isOneOf(list, value)) return value;
    this.fault(path, `${label}: choose one.`);
    if (first === undefined) throw new RangeError(`${label} has nothing to choose from`);
    return first;
  }

  optionalChoice<T extends string>(list: readonly T[], value: string): T | undefined {
    return isOneOf(list, value) ? value : undefined;
  }

  some<T>(path: string, label: string, list: readonly T[]): T[] {
    if (list.length === 0) this.fault(path, `${label}: choose at least one.`);
    return [...list];
  }
}
