/** What the return-visit screen draws and says, worked out from what the API answered. */
import type { ReturnItem, ReturnsView } from '@ullage/contracts';
import {
  addDays,
  axisDay,
  daysBetween,
  edgeWords,
  localTime,
  momentWords,
  shortDayName,
  weekday,
} from '../../lib/local-time.ts';
import { spanWords, type SlackLane } from '../../pictures/slack-axis.ts';
import type { SlackPlaced, SlackState } from '../../pictures/slack-row.tsx';
import type { SlackWeek } from '../../pictures/slack-list.tsx';

/** Due soon below this much slack; the API draws the line at the same place for visits not yet planned. */
const SOON_MINUTES = 7 * 24 * 60;

/** The axis is in the contractor's zone, so that one moment is one line through circuits and people. */
export interface Axis {
  readonly today: string;
  readonly zone: string;
}
export const axisOf = ({ now, timeZone }: Pick<ReturnsView, 'now' | 'timeZone'>): Axis => ({
  today: localTime(now, timeZone).day,
  zone: timeZone,
});

const isWeekend = (day: string): boolean => weekday(day) % 6 === 0;

export function weekOf({ now, timeZone }: Pick<ReturnsView, 'now' | 'timeZone'>): SlackWeek {
  const { today } = axisOf({ now, timeZone });
  const days = Array.from({ length: 7 }, (_, i) => addDays(today, i));
  return {
    days: days.map(shortDayName),
    now: axisDay(now, { today, zone: timeZone }),
    nowText: localTime(now, timeZone).time,
    off: days.flatMap((day, i) => (isWeekend(day) ? [i] : [])),
  };
}

export const laneOf = (item: ReturnItem, now: string, axis: Axis): SlackLane => ({
  opens: axisDay(item.opensAt, axis),
  edge: axisDay(item.dueAt, axis),
  now: axisDay(now, axis),
  driveHours: item.driveMinutes / 60,
  workHours: item.workMinutes / 60,
  reserveHours: item.reserveMinutes / 60,
});

/** A planned visit keeps the urgency of its slack; that it is planned is said by its own mark on the axis. */
export function stateOf({ state, slackMinutes }: Pick<ReturnItem, 'state' | 'slackMinutes'>): SlackState {
  if (state !== 'planned') return state;
  return slackMinutes < SOON_MINUTES ? 'soon' : 'fine';
}

/** The printed figure in true hours: over the legal edge, short of a visit's length, or left. */
export function slackWords(item: Pick<ReturnItem, 'dueAt' | 'slackMinutes'>, now: string): string {
  const overMinutes = (Date.parse(now) - Date.parse(item.dueAt)) / 60_000;
  if (overMinutes >= 0) return `${spanWords(overMinutes / 60)} over`;
  const figure = spanWords(item.slackMinutes / 60);
  return item.slackMinutes < 0 ? `${figure} short` : figure;
}

const surname = (name: string): string => name.trim().split(/\s+/).at(-1) ?? name;
export const whoGoes = (people: readonly { readonly name: string }[]): string =>
  people.map(({ name }) => surname(name)).join(', ');

export function placedOf({ visit }: Pick<ReturnItem, 'visit'>, axis: Axis): SlackPlaced | undefined {
  const at = visit.state === 'on-site' ? (visit.startedAt ?? visit.startsAt) : visit.startsAt;
  if (at === null || visit.people.length === 0) return undefined;
  return { at: axisDay(at, axis), mark: visit.state === 'on-site' ? 'live' : 'planned', text: whoGoes(visit.people) };
}

/** Everything a row's drawing says, in sentences. */
export function rowLabel(item: ReturnItem, now: string): string {
  const zone = item.visit.timeZone;
  const placed =
    item.visit.startsAt === null
      ? 'No visit yet.'
      : `Visit: ${whoGoes(item.visit.people)}, ${momentWords(item.visit.startsAt, zone)}.`;
  const edge = item.provisional ? 'provisional legal edge' : 'legal edge';
  return `${item.circuitTag}: window opened ${momentWords(item.opensAt, zone)}, ${edge} ${edgeWords(item.dueAt, zone)}, ${slackWords(item, now)}. ${placed}`;
}

export const FILTERS = ['all', 'late', 'unplaced', 'mine'] as const;
export type Filter = (typeof FILTERS)[number];
const unplaced = ({ visit }: ReturnItem): boolean => visit.state === 'proposed';

export function filtered(items: readonly ReturnItem[], filter: Filter, personId: string): readonly ReturnItem[] {
  switch (filter) {
    case 'all':
      return items;
    case 'late':
      return items.filter((item) => stateOf(item) === 'late');
    case 'unplaced':
      return items.filter(unplaced);
    case 'mine':
      return items.filter(({ visit }) => visit.people.some((person) => person.personId === personId));
  }
}

export interface Counts {
  readonly late: number;
  readonly soon: number;
  readonly hold: number;
  readonly rest: string;
}
/** The counts above the list, as a sentence. */
export function countsOf(items: readonly ReturnItem[], calls: number): Counts {
  const of = (state: SlackState): number => items.filter((item) => stateOf(item) === state).length;
  const open = items.filter(unplaced).length;
  const visits = items.length === 0 ? '' : `${open} of ${items.length} ${open === 1 ? 'has' : 'have'} no visit.`;
  const rang = calls === 0 ? '' : calls === 1 ? '1 call waits.' : `${calls} calls wait.`;
  return { late: of('late'), soon: of('soon'), hold: of('hold'), rest: [visits, rang].filter(Boolean).join(' ') };
}

type Known = ReadonlyMap<string, { readonly tag: string; readonly startsAt: string | null; readonly said: string }>;
function known({ items, calls }: Pick<ReturnsView, 'items' | 'calls'>): Known {
  const heads = [...items.map(({ visit }) => visit), ...calls];
  return new Map(
    heads.map((visit) => {
      const when = visit.startsAt === null ? '' : momentWords(visit.startsAt, visit.timeZone);
      const tag = visit.circuitTags.join(', ') || visit.siteName;
      const said = `${whoGoes(visit.people)}, ${when}`;
      return [visit.id, { tag, startsAt: visit.startsAt, said }];
    }),
  );
}
/** What others changed between two answers, for the ear; nothing when only the clock went on. */
export function changesInWords(
  before: Pick<ReturnsView, 'items' | 'calls'>,
  after: Pick<ReturnsView, 'items' | 'calls'>,
): string[] {
  const was = known(before);
  const is = known(after);
  const said: string[] = [];
  for (const [id, now] of is) {
    const old = was.get(id);
    if (!old) said.push(`New on the list: ${now.tag}.`);
    else if (now.startsAt !== null && now.said !== old.said) said.push(`${now.tag} placed: ${now.said}.`);
    else if (now.startsAt === null && old.startsAt !== null) said.push(`${now.tag} is off the plan.`);
  }
  for (const [id, old] of was) if (!is.has(id)) said.push(`${old.tag} is off this list.`);
  return said;
}

/** How far ahead a day lies on the axis. */
export const dayOnAxis = (day: string, axis: Axis): number => daysBetween(axis.today, day);
