/**
 * The law library: leak rates, thresholds, episodes, duties and evacuation levels of the US books, as dated data and one
 * evaluator in exact arithmetic on masses as entered. Pure: calendar and "now" come in as arguments.
 */
export * from './types.ts';
export type * from './events.ts';
export { duties } from './duties/duties.ts';
export { editionOn, EDITIONS } from './editions.ts';
export type { Caveat, Clauses, Edition } from './edition.ts';
export { evacuationLevel, REMOVED_PARTS } from './evacuation.ts';
export type { EvacuationAnswer, EvacuationInput, RemovedPart, Work } from './evacuation.ts';
export { headroom } from './headroom.ts';
export { leakRate } from './leak-rate.ts';
export { findRefrigerant, REFRIGERANTS } from './refrigerants.ts';
export type { Component, Refrigerant } from './refrigerants.ts';
export type { PressureClass, PressureClassReason } from './pressure-class.ts';
export { scope } from './scope.ts';
export { GWP_SETS, reportedGwp } from './gwp-sets.ts';
export type { GwpSet } from './gwp-sets.ts';
