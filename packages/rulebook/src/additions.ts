/**
 * What was added, as the leak rate counts it: the net of a visit (gas recovered and put back is not added), seasonal
 * variance apart, visits of one day merged. Retrofit and installation charges count for days only (40 CFR 82.157(b)).
 */
import { add, compare, exactGrams, subtract, sum, ZERO } from '@ullage/units';
import type { Calendar, Day, Instant, Rational } from '@ullage/units';
import type { Addition, Removal } from './events.ts';
import { isKind, visitOf } from './placed.ts';
import type { Placed } from './placed.ts';

/** All gas that moved at one visit. */
export interface VisitFlow {
  readonly visit: string;
  /** Ordinary additions minus ordinary removals, plus what a season's addition exceeds its removal; may be below zero. */
  readonly signed: Rational;
  /** Ordinary additions by gross weight, and a seasonal one that exceeds its removal in full. */
  readonly gross: Rational;
  readonly additions: readonly Placed<Addition>[];
  /** Additions of known mass that are neither exempt nor covered by a seasonal removal. */
  readonly counted: readonly Placed<Addition>[];
  /** End of the last addition; of the last removal where nothing was added. */
  readonly at: Instant;
  readonly day: Day;
  readonly flags: readonly string[];
}

/** One day on which refrigerant was added. */
export interface AdditionDay {
  readonly day: Day;
  readonly at: Instant;
  readonly visits: readonly string[];
  readonly net: Rational;
  readonly gross: Rational;
  readonly additionIds: readonly string[];
  readonly sameLeakAs: readonly string[];
  /** False: the day counts as one on which refrigerant was added, and gives no calculation. */
  readonly counts: boolean;
  readonly flags: readonly string[];
}

type Flow = Placed<Addition | Removal>;
interface SeasonalStore {
  readonly day: Day;
  left: Rational;
}

const known = (flow: Flow): Rational => (flow.event.mass ? exactGrams(flow.event.mass) : ZERO);
const isExempt = ({ event }: Placed<Addition>): boolean => Boolean(event.retrofit || event.installation);
const positive = (mass: Rational): Rational => (compare(mass, ZERO) > 0 ? mass : ZERO);

/** How much of each seasonal addition exceeds what was removed for the season within the twelve months before it. */
function seasonalExcess(flows: readonly Flow[], calendar: Calendar): ReadonlyMap<string, Rational> {
  const stores: SeasonalStore[] = [];
  const excess = new Map<string, Rational>();
  for (const flow of flows) {
    if (!flow.event.seasonal) continue;
    if (flow.event.kind === 'removal') {
      stores.push({ day: flow.day, left: known(flow) });
      continue;
    }
    let rest = known(flow);
    for (const store of stores) {
      if (flow.day > calendar.addYears(store.day, 1)) continue;
      const taken = compare(rest, store.left) < 0 ? rest : store.left;
      store.left = subtract(store.left, taken);
      rest = subtract(rest, taken);
    }
    excess.set(flow.event.id, rest);
  }
  return excess;
}

function flagsOf(additions: readonly Placed<Addition>[], removals: readonly Placed<Removal>[]): readonly string[] {
  const flags: string[] = [];
  if (removals.some(({ event }) => event.mass === null)) flags.push('recovered-mass-unknown');
  if (additions.some(({ event }) => event.mass === null)) flags.push('mass-partly-unknown');
  return flags;
}

function flowOfVisit(visit: string, flows: readonly Flow[], excess: ReadonlyMap<string, Rational>): VisitFlow {
  const additions = flows.filter(isKind('addition'));
  const removals = flows.filter(isKind('removal')).filter(({ event }) => !event.seasonal);
  const ordinary = additions.filter((flow) => !isExempt(flow) && !flow.event.seasonal);
  const overSeason = additions.filter((flow) => compare(excess.get(flow.event.id) ?? ZERO, ZERO) > 0);
  const recoveredUnknown = removals.some(({ event }) => event.mass === null);
  const seasonal = sum(overSeason.map((flow) => excess.get(flow.event.id) ?? ZERO));
  // What came out is not known: then only the gross weight can be counted, and the rate is at most that.
  const recovered = recoveredUnknown ? ZERO : sum(removals.map(known));
  const last = (additions.length > 0 ? additions : flows).at(-1);
  if (!last) throw new RangeError('a visit without a flow');
  return {
    visit,
    signed: add(subtract(sum(ordinary.map(known)), recovered), seasonal),
    gross: sum([...ordinary, ...overSeason].map(known)),
    additions,
    counted: [...ordinary, ...overSeason].filter((flow) => flow.event.mass !== null),
    at: last.at,
    day: last.day,
    flags: [...flagsOf([...ordinary], removals), ...(overSeason.length > 0 ? ['seasonal-excess'] : [])],
  };
}

/** Every visit that moved gas, in order of its last addition. */
export function visitFlows(events: readonly Placed[], calendar: Calendar): readonly VisitFlow[] {
  const flows: readonly Flow[] = events.filter(isKind('addition', 'removal'));
  const excess = seasonalExcess(flows, calendar);
  const visits = Map.groupBy(flows, visitOf);
  return [...visits]
    .map(([visit, own]) => flowOfVisit(visit, own, excess))
    .sort((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
}

function mergeDay(day: Day, flows: readonly VisitFlow[], at: Instant): AdditionDay {
  const additions = flows.flatMap((flow) => flow.additions);
  return {
    day,
    at,
    visits: flows.map((flow) => flow.visit),
    net: sum(flows.map((flow) => positive(flow.signed))),
    gross: sum(flows.map((flow) => flow.gross)),
    additionIds: additions.map(({ event }) => event.id),
    sameLeakAs: additions.flatMap(({ event }) => (event.sameLeakAs === undefined ? [] : [event.sameLeakAs])),
    counts: flows.some((flow) => flow.counted.length > 0),
    flags: [...new Set(flows.flatMap((flow) => flow.flags))],
  };
}

/** The days of addition, oldest first. Same-day additions are one: an interval of no days is not defined in the law. */
export function additionDays(flows: readonly VisitFlow[]): readonly AdditionDay[] {
  const adding = flows.filter((flow) => flow.additions.length > 0);
  return [...Map.groupBy(adding, (flow) => flow.day)]
    .map(([day, own]) => mergeDay(day, own, own.at(-1)?.at ?? ''))
    .sort((a, b) => (a.day < b.day ? -1 : 1));
}
