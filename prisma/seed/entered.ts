/** Figures as somebody would have entered them. */
export const lb = (value: string) => ({ value, unit: 'lb' as const });
export const g = (value: string) => ({ value, unit: 'g' as const });
export const psig = (value: string) => ({ value, unit: 'psig' as const });
export const micron = (value: string) => ({ value, unit: 'micron' as const });
