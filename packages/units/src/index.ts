export * from './calendar.ts';
export * from './day-words.ts';
export * from './id.ts';
export * from './mass.ts';
export * from './pressure.ts';
export * from './rational.ts';
export * from './temperature.ts';
