/** By code unit: the same order on every machine, whatever its language. */
export const byText = (a: string, b: string): number => (a < b ? -1 : Number(a > b));
