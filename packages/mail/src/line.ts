/** What people typed, made fit to stand in a mail. */

// A line break in a name would begin another header or fake a paragraph of ours; marks that turn the direction of
// writing make one address look like another.
const UNFIT = /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]+/gu;
const LONGEST = 200;

/** One line of text: control characters become a space, and what is longer than any name is cut. */
export function oneLine(text: string): string {
  const line = text.replace(UNFIT, ' ').replace(/\s+/g, ' ').trim();
  const letters = Array.from(line);
  return letters.length <= LONGEST ? line : `${letters.slice(0, LONGEST - 1).join('')}…`;
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
/** Text that stands in HTML as it is, in an element or in a quoted attribute. */
export const escaped = (text: string): string => text.replace(/[&<>"']/g, (mark) => ENTITIES[mark] ?? '');
