export { runSum } from './run.ts';
export type { SumResult } from './run.ts';
