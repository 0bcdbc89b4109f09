/** The app's own router: one page answers every path under /field, so that it can open without a signal later. */
import { useSyncExternalStore } from 'react';
import { isStep, type StepId } from './steps.ts';

export type Route =
  | { readonly is: 'today' }
  | {
      readonly is: 'visit';
      readonly visitId: string;
      readonly step: StepId | 'steps';
      readonly circuitId: string | null;
    }
  | { readonly is: 'nowhere' };

/** What a path under /field shows. @param search with its question mark, or empty */
export function routeOf(path: string, search: string): Route {
  const [root, noun, visitId, step = 'start', ...rest] = path.split('/').filter((part) => part !== '');
  if (root !== 'field' || rest.length > 0) return { is: 'nowhere' };
  if (noun === undefined) return { is: 'today' };
  if (noun !== 'visits' || visitId === undefined) return { is: 'nowhere' };
  const circuitId = new URLSearchParams(search).get('circuit');
  if (step === 'steps' || isStep(step)) return { is: 'visit', visitId: decodeURIComponent(visitId), step, circuitId };
  return { is: 'nowhere' };
}

export function pathTo(visitId: string, step: StepId | 'steps', circuitId: string | null): string {
  const at = `/field/visits/${encodeURIComponent(visitId)}${step === 'start' ? '' : `/${step}`}`;
  return circuitId === null ? at : `${at}?circuit=${encodeURIComponent(circuitId)}`;
}

const MOVED = 'ullage:field-moved';
function subscribe(onMove: () => void): () => void {
  addEventListener('popstate', onMove);
  addEventListener(MOVED, onMove);
  return () => {
    removeEventListener('popstate', onMove);
    removeEventListener(MOVED, onMove);
  };
}

/** Path and query of this page; null on the server and while it takes over the server's HTML. */
export const useAddress = (): string | null =>
  useSyncExternalStore(
    subscribe,
    () => location.pathname + location.search,
    () => null,
  );

/** Goes to another screen of this app. */
export function go(to: string): void {
  if (to === location.pathname + location.search) return;
  history.pushState(null, '', to);
  dispatchEvent(new Event(MOVED));
}
