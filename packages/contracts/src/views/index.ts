export * from './answers.ts';
export * from './common.ts';
export * from './cylinders.ts';
export * from './office.ts';
export * from './returns.ts';
export * from './statement.ts';
export * from './units.ts';
export * from './visits.ts';
