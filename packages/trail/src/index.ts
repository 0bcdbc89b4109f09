export * from './causes.ts';
export * from './explains.ts';
export * from './methods.ts';
export * from './places.ts';
export * from './recall.ts';
export * from './stops.ts';
