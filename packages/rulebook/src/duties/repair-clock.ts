/** The 30 or 120 days for repair and first test, and how a missing part or a granted extension moves them. */
import { eventDay } from '../episodes.ts';
import type { OpenedEpisode } from '../episodes.ts';
import { isKind } from '../placed.ts';
import type { Placed } from '../placed.ts';
import type { Extension, PartDue } from '../events.ts';
import type { Case } from '../rate.ts';
import { dueBy, dueIn } from './clock.ts';
import type { Due } from './clock.ts';

/** Leaks that share one date. */
export interface Track {
  readonly number: number;
  /** Empty while no leak has been found. */
  readonly leakIds: readonly string[];
  readonly due: Due;
  readonly provisional: boolean;
  readonly flags: readonly string[];
}

export interface RepairClock {
  readonly days: number;
  /** The 30 or 120 days, unmoved. */
  readonly original: Due;
  readonly tracks: readonly [Track, ...Track[]];
  /** A part that cannot come in time, or a request already made: then more time has to be asked for. */
  readonly asksForTime: boolean;
}

const hasShutdown = (of: Case, episode: OpenedEpisode): boolean =>
  Boolean(of.input.processShutdown) || episode.events.some((placed) => placed.event.kind === 'shutdown-needed');

interface Moved {
  readonly due: Due;
  readonly provisional: boolean;
  readonly leakIds: readonly string[];
  readonly flags: readonly string[];
}

/** The last word on parts; a later event wins over an earlier one. */
const lastPart = (episode: OpenedEpisode): Placed<PartDue> | undefined =>
  episode.events.filter(isKind('part-due')).at(-1);

/** A date granted or, asked for in time, the delivery plus its 30 days; never beyond the limit where a part is missing. */
function laterDay(of: Case, episode: OpenedEpisode, asked: { request: Extension; part?: PartDue; inTime: boolean }) {
  const { edition } = episode.openedBy;
  const { calendar } = of.site;
  const { request, part, inTime } = asked;
  const delivered = part && inTime ? calendar.addDays(part.on, edition.partRepairDays) : undefined;
  const wanted = request.grantedUntilOn ?? delivered;
  const limitDays = hasShutdown(of, episode) ? edition.partLimitDaysWithShutdown : edition.partLimitDays;
  const limit = calendar.addDays(eventDay(episode), limitDays);
  return part && wanted !== undefined && wanted > limit ? limit : wanted;
}

function moved(of: Case, episode: OpenedEpisode, original: Due): Moved | undefined {
  const request = episode.events.filter(isKind('extension')).at(-1)?.event;
  if (!request) return undefined;
  const part = lastPart(episode)?.event;
  const inTime = request.requestedOn <= original.on;
  const flags = inTime ? [] : ['extension-requested-late'];
  const later = laterDay(of, episode, { request, part, inTime });
  // Asked for and no later date to be had: the original stands until the request or the part names one.
  if (later === undefined || later <= original.on) return { due: original, provisional: false, leakIds: [], flags };
  const provisional = request.grantedUntilOn === undefined && !part?.delivered;
  return { due: dueBy(of, eventDay(episode), later), provisional, leakIds: part?.leakIds ?? [], flags };
}

/** Leaks that wait for nothing keep the original date; those that wait get the moved one. */
function split(leakIds: readonly string[], original: Due, later: Moved | undefined): RepairClock['tracks'] {
  const waiting = later ? leakIds.filter((id) => later.leakIds.length === 0 || later.leakIds.includes(id)) : [];
  const plain: Track = { number: 1, leakIds, due: original, provisional: false, flags: later?.flags ?? [] };
  if (!later || later.due === original) return [plain];
  const rest = leakIds.filter((id) => !waiting.includes(id));
  const second: Track = { ...plain, leakIds: waiting, due: later.due, provisional: later.provisional };
  if (rest.length === 0) return [second];
  return waiting.length === 0
    ? [plain]
    : [
        { ...plain, leakIds: rest },
        { ...second, number: 2 },
      ];
}

export function repairClock(of: Case, episode: OpenedEpisode): RepairClock {
  const { edition } = episode.openedBy;
  const days = hasShutdown(of, episode) ? edition.repairDaysWithShutdown : edition.repairDays;
  const original = dueIn(of, eventDay(episode), days);
  const part = lastPart(episode);
  const requested = episode.events.some((placed) => placed.event.kind === 'extension');
  return {
    days,
    original,
    tracks: split([...episode.leaks.keys()].sort(), original, moved(of, episode, original)),
    asksForTime: requested || (part !== undefined && part.event.on > original.on),
  };
}
