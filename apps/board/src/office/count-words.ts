const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
/** A count in words up to twelve, in figures beyond. */
export const countWords = (count: number): string => WORDS[count] ?? count.toLocaleString('en-US');
/** `two notices`, `one notice`. */
export const countOf = (count: number, one: string, many = `${one}s`): string =>
  `${countWords(count)} ${count === 1 ? one : many}`;
