/** Why a property cannot be given. Expected, so a value: nothing here extrapolates beyond its fits. */
export type ThermoFault =
  | { readonly ok: false; readonly fault: 'unknown-refrigerant'; readonly refrigerant: string }
  | { readonly ok: false; readonly fault: 'temperature-out-of-range'; readonly lowK: number; readonly highK: number }
  | { readonly ok: false; readonly fault: 'pressure-out-of-range'; readonly lowKpa: number; readonly highKpa: number }
  /** The equations settled on no answer, as within a kelvin or two of a critical point: none is better than a wrong one. */
  | { readonly ok: false; readonly fault: 'no-answer' };

export const unknownRefrigerant = (refrigerant: string): ThermoFault => ({
  ok: false,
  fault: 'unknown-refrigerant',
  refrigerant,
});

export const NO_ANSWER: ThermoFault = { ok: false, fault: 'no-answer' };
