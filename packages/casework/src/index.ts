export type { Actor, DeskCommand, Office, PageQuery, World } from './office.ts';
