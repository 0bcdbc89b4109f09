export { Database } from './database.ts';
export type { DatabaseOptions, TenantOptions } from './database.ts';
export { txQuery, txWrite } from './transaction.ts';
export type { Statement, Tx } from './transaction.ts';
export { isUniqueViolation, retryable, sqlState, traits } from './errors.ts';
export type { Retry } from './errors.ts';
export { Prisma } from './generated/client.ts';
export type * from './generated/models.ts';
