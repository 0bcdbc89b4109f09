/** Keys of the figure pad; `minus` turns the sign, because a gauge may stand below zero. */
export type PadKey = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | 'point' | 'minus' | 'clear';

/** No gauge or scale shows more digits. */
const MOST = 9;

/** The text after one more key. Digits beyond nine and a second point change nothing. */
export function pressKey(text: string, key: PadKey): string {
  if (key === 'clear') return '';
  if (key === 'minus') return text.startsWith('-') ? text.slice(1) : `-${text}`;
  if (key === 'point') return text.includes('.') ? text : `${text === '' || text === '-' ? `${text}0` : text}.`;
  if (text.replace(/[-.]/g, '').length >= MOST) return text;
  const bare = text.replace('-', '');
  return bare === '0' ? text.replace('0', key) : text + key;
}
