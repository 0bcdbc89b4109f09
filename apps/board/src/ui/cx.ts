/** Class names that are there, joined. */
export const cx = (...names: (string | false | undefined)[]): string => names.filter(Boolean).join(' ');
