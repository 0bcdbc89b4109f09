export { createOffice } from './create-office.ts';
export type { Actor, DeskCommand, Office, PageQuery, World } from './office.ts';
export { problemOf, PROBLEMS } from './pipeline/problem.ts';
