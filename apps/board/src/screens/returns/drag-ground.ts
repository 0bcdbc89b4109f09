/** What the rules of placing are judged on while a row is dragged; the server judges again when it is dropped. */
import { PlacingGround } from '@ullage/contracts';
import { makeCalendar, type Calendar } from '@ullage/units';
import { call } from '../../lib/client.ts';

let calendar: Promise<Calendar> | undefined;
/** By the browser's own Temporal, or by one that is loaded where it has none. */
export function loadCalendar(): Promise<Calendar> {
  calendar ??= (async () =>
    makeCalendar('Temporal' in globalThis ? Temporal : (await import('temporal-polyfill')).Temporal))();
  return calendar;
}

/** Nothing where it cannot be read: the drag then goes on without words, and the drop is judged all the same. */
export async function fetchGround(visitId: string): Promise<PlacingGround | undefined> {
  const answer = await call<unknown>(`/v1/visits/${encodeURIComponent(visitId)}/placing`);
  return answer.ok ? PlacingGround.safeParse(answer.data).data : undefined;
}
