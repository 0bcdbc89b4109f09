export { REFRIGERANTS } from './correlations/index.ts';
export type { ThermoFault } from './fault.ts';
export type { Reason } from './reason.ts';
export { saturation } from './saturation.ts';
export type { Saturation, SaturationInput } from './saturation.ts';
export { twoSigmaVerdict } from './verdict.ts';
export type { Verdict } from './verdict.ts';
