import { KPA_PER_PSI } from '@ullage/units';

export interface Specification {
  /** Upper case without `DOT-`: `4BA`, `4B240ET`, `39`. */
  readonly kind: string;
  /** Stamped after the kind; undefined where the marking carries none. */
  readonly servicePressureKpaGauge: number | undefined;
}

/** Kinds for which longer periods or an outside look are allowed: 49 CFR 180.209(e), (g). */
const LONG_PERIOD_KINDS: ReadonlySet<string> = new Set(['4B', '4BA', '4BW', '4E']);

/** Reads a marking such as `DOT-4BA400`, `4BW260` or `DOT 39`; undefined for text that is none. */
export function parseSpecification(marking: string): Specification | undefined {
  const text = marking.toUpperCase().replace(/^DOT[-\s]?/, '');
  if (text === '4B240ET') return { kind: '4B240ET', servicePressureKpaGauge: 240 * KPA_PER_PSI };
  // DOT-39 may carry its service pressure too: `39NRC`, `39 NRC 260/325`.
  const single = /^39(?:\D+(\d{2,4})(?:\/\d+)?(?:\D.*)?)?(?:\D*)$/.exec(text);
  if (single) return { kind: '39', servicePressureKpaGauge: psigOf(single[1]) };
  const match = /^(\d[A-Z]{1,3})-?(\d{2,4})?$/.exec(text);
  if (!match?.[1]) return undefined;
  return { kind: match[1], servicePressureKpaGauge: psigOf(match[2]) };
}

const psigOf = (digits: string | undefined): number | undefined =>
  digits === undefined ? undefined : Number(digits) * KPA_PER_PSI;

export const allowsLongPeriods = (of: Specification | undefined): boolean =>
  of !== undefined && LONG_PERIOD_KINDS.has(of.kind);
