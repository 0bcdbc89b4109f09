export * from './access.ts';
export * from './commands/index.ts';
export * from './jobs.ts';
export * from './primitives.ts';
export * from './problem.ts';
export * from './refrigerants.ts';
export * from './sums/index.ts';
export * from './views/index.ts';
