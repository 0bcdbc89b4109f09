/** Conversions between what gauges show and kPa absolute, in which everything is kept. */
export const PRESSURE_UNITS = [
  'psig',
  'psia',
  'kpa-gauge',
  'kpa',
  'bar-gauge',
  'bar',
  'inhg-vacuum',
  'micron',
  'pa',
] as const;
export type PressureUnit = (typeof PRESSURE_UNITS)[number];

/** NIST SP 811 appendix B: pound-force per square inch; inch of mercury (conventional); millitorr. */
export const KPA_PER_PSI = 6.894757293;
export const KPA_PER_INHG = 3.386389;
export const KPA_PER_MICRON = 101.325 / 760_000;

/**
 * Barometer of a place in kPa absolute by the standard atmosphere (ISO 2533, troposphere).
 * @param elevationM metres above sea level, -500 to 11,000 @throws RangeError outside
 */
export function barometerKpa(elevationM: number): number {
  if (!(elevationM >= -500 && elevationM <= 11_000)) throw new RangeError(`${elevationM} m is outside -500 to 11000 m`);
  return 101.325 * (1 - 2.25577e-5 * elevationM) ** 5.2559;
}

/** Absolute kPa of a reading; `barometer` is that of the place where the gauge was read. May be below zero for a reading that cannot be. */
export function toKpa(value: number, unit: PressureUnit, barometer: number): number {
  switch (unit) {
    case 'psig':
      return value * KPA_PER_PSI + barometer;
    case 'psia':
      return value * KPA_PER_PSI;
    case 'kpa-gauge':
      return value + barometer;
    case 'kpa':
      return value;
    case 'bar-gauge':
      return value * 100 + barometer;
    case 'bar':
      return value * 100;
    case 'inhg-vacuum':
      return barometer - value * KPA_PER_INHG;
    case 'micron':
      return value * KPA_PER_MICRON;
    case 'pa':
      return value / 1000;
  }
}

/** The inverse of `toKpa`. */
export function fromKpa(kpa: number, unit: PressureUnit, barometer: number): number {
  switch (unit) {
    case 'psig':
      return (kpa - barometer) / KPA_PER_PSI;
    case 'psia':
      return kpa / KPA_PER_PSI;
    case 'kpa-gauge':
      return kpa - barometer;
    case 'kpa':
      return kpa;
    case 'bar-gauge':
      return (kpa - barometer) / 100;
    case 'bar':
      return kpa / 100;
    case 'inhg-vacuum':
      return (barometer - kpa) / KPA_PER_INHG;
    case 'micron':
      return kpa / KPA_PER_MICRON;
    case 'pa':
      return kpa * 1000;
  }
}
