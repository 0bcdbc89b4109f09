export { Database, txQuery } from './database.ts';
export type { DatabaseOptions, Statement, TenantOptions, Tx } from './database.ts';
export { isUniqueViolation, retryable, sqlState, traits } from './errors.ts';
export type { Retry } from './errors.ts';
export { Prisma } from './generated/client.ts';
export type * from './generated/models.ts';
