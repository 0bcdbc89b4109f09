import type { PressureUnit } from '@ullage/units';

/** Units of pressure as a gauge's face has them. */
export const PRESSURE_WORDS: Readonly<Record<PressureUnit, string>> = {
  psig: 'psig',
  psia: 'psia',
  'kpa-gauge': 'kPa gauge',
  kpa: 'kPa abs',
  'bar-gauge': 'bar gauge',
  bar: 'bar abs',
  'inhg-vacuum': 'inHg vac',
  micron: 'micron',
  pa: 'Pa',
};
