/** The words of the trade for what is known of a cylinder. */
export const KIND_WORDS = {
  disposable: 'Disposable cylinder',
  refillable: 'Refillable cylinder',
  recovery: 'Recovery cylinder',
} as const;

const LIMITS: Readonly<Record<string, string>> = {
  'guideline-k': 'AHRI Guideline K: 80 % of what it would hold in liquid at 77 °F',
  'filling-density': 'filling density of 49 CFR 173.304a(a)(2)',
  'liquid-full-55c': 'it must not be liquid-full at 131 °F, 49 CFR 173.304a(c)',
};
/** Which rule sets the limit, in words. */
export const limitWords = (code: string): string => LIMITS[code] ?? code.replaceAll('-', ' ');

/** Why a cylinder is at no place of the firm's. */
export const AWAY_WORDS = {
  lost: 'Lost',
  returned: 'Back with its supplier',
  scrapped: 'Scrapped',
  kept: 'Kept by its receiver',
} as const;

/** What a cylinder may be fit for. */
export const FIT_WORDS = {
  recovery: 'Recovery',
  charging: 'Charging',
  'same-owner-only': 'Same owner only',
  return: 'Return',
  destroy: 'Destroy',
  nothing: 'Nothing',
} as const;
type Fit = keyof typeof FIT_WORDS;
export const FIT_NOTES: Readonly<Record<Fit, string>> = {
  recovery: 'recovered gas may go in',
  charging: 'into any circuit of its gas',
  'same-owner-only': 'into equipment of the gas’s owner',
  return: 'to the reclaimer or supplier',
  destroy: 'what cannot be reclaimed',
  nothing: 'something must be done first',
};
/** `Recovery, return`; that it is fit for nothing is said too. */
export const fitWords = (fit: readonly Fit[]): string =>
  fit.map((use, at) => (at === 0 ? FIT_WORDS[use] : FIT_WORDS[use].toLowerCase())).join(', ');

/** `R-448A 61.2 %, R-404A 38.8 %`: shares by mass, one decimal, and never 100 % or 0 % of what is neither. */
export function sharesWords(parts: readonly { readonly refrigerant: string; readonly percent: number }[]): string {
  return parts.map(({ refrigerant, percent }) => `${refrigerant} ${percentWords(percent)}`).join(', ');
}
export function percentWords(percent: number): string {
  if (percent >= 100) return '100 %';
  if (percent > 99.9) return 'over 99.9 %';
  return percent < 0.1 ? 'under 0.1 %' : `${percent.toFixed(1)} %`;
}
