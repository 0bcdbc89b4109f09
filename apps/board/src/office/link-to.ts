import type { AccountRef, FactLink } from '@ullage/contracts';
import type { Route } from 'next';

/** Where a record is shown. Ids come from the API and are ids of ours. */
export const unitPath = (id: string, letter?: string | null): Route =>
  `/units/${id}${letter ? `?circuit=${letter}` : ''}` as Route;
export const cylinderPath = (id: string): Route => `/cylinders/${id}` as Route;
/** What was sent to a reclaimer; its paper, to print. */
export const manifestPath = (id: string, part: '' | '/paper' = ''): Route =>
  `/cylinders/manifests/${id}${part}` as Route;
export const MANIFESTS_PATH = '/cylinders/manifests' as Route;
export const visitPath = (id: string): Route => `/visits/${id}` as Route;
export const sheetPath = (id: string): Route => `/sheets/${id}` as Route;
export const recallPath = (id: string): Route => `/recalls/${id}` as Route;
export const CALL_PATH = '/calls/new' as Route;
/** The place of a fact on the page that shows it. */
export const factAnchor = (id: string): string => `fact-${id}`;

/** Where a fact stands: at its visit, else with its cylinder, else with its circuit. */
export function factPath({ id, visitId, cylinderId, unitId, circuitLetter }: FactLink): Route | undefined {
  const page =
    (visitId !== null && visitPath(visitId)) ||
    (cylinderId !== null && cylinderPath(cylinderId)) ||
    (unitId !== null && unitPath(unitId, circuitLetter));
  return page ? (`${page}#${factAnchor(id)}` as Route) : undefined;
}

/** The page of what an account belongs to; outside accounts belong to nothing. */
export function thingPath({ cylinderId, unitId, circuitLetter }: AccountRef): Route | undefined {
  if (cylinderId !== null) return cylinderPath(cylinderId);
  return unitId === null ? undefined : unitPath(unitId, circuitLetter);
}

interface StatementAsked {
  readonly gas?: string | null;
  readonly before?: string | null;
}
/** An account's own statement, of one gas or of all; `before` leads to an earlier page. */
export function statementPath(accountId: string, { gas, before }: StatementAsked = {}): Route {
  const asked = new URLSearchParams();
  if (gas) asked.set('gas', gas);
  if (before) asked.set('before', before);
  return `/books/${accountId}${asked.size === 0 ? '' : `?${asked}`}` as Route;
}
