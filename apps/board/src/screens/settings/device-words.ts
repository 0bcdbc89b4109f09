/** What a browser says of itself, in the words of whoever looks for their lost phone. */
const BROWSERS: readonly (readonly [RegExp, string])[] = [
  [/\bEdgA?\//, 'Edge'],
  [/\bOPR\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/(Chrome|CriOS)\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
];
const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/\biPad\b/, 'iPad'],
  [/\biPhone\b/, 'iPhone'],
  [/\bAndroid\b/, 'Android'],
  [/\bWindows\b/, 'Windows'],
  [/\bCrOS\b/, 'ChromeOS'],
  [/\bMac OS X\b/, 'Mac'],
  [/\bLinux\b/, 'Linux'],
];
const first = (list: readonly (readonly [RegExp, string])[], text: string): string | undefined =>
  list.find(([test]) => test.test(text))?.[1];

/** `Chrome on Android`; a text that is none of these stays as it is, cut short. */
export function deviceWords(userAgent: string | null): string {
  if (userAgent === null || userAgent.trim() === '') return 'Unknown device';
  const [browser, system] = [first(BROWSERS, userAgent), first(SYSTEMS, userAgent)];
  if (browser !== undefined && system !== undefined) return `${browser} on ${system}`;
  return browser ?? system ?? userAgent.trim().slice(0, 60);
}
