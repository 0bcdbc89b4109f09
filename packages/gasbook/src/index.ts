export * from './account.ts';
export * from './balances.ts';
export * from './circuit.ts';
export * from './cylinder.ts';
export * from './holding.ts';
export * from './movement.ts';
export * from './reconcile.ts';
export * from './split.ts';
