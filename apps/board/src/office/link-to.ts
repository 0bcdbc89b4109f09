import type { Route } from 'next';

/** Where a record is shown. Ids come from the API and are ids of ours. */
export const unitPath = (id: string, letter?: string): Route =>
  `/units/${id}${letter ? `?circuit=${letter}` : ''}` as Route;
export const cylinderPath = (id: string): Route => `/cylinders/${id}` as Route;
export const visitPath = (id: string): Route => `/visits/${id}` as Route;
export const sheetPath = (id: string): Route => `/sheets/${id}` as Route;
export const CALL_PATH = '/calls/new' as Route;
/** The place of a fact on its unit's page. */
export const factAnchor = (id: string): string => `fact-${id}`;
