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
