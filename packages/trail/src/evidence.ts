/** What the looks made so far are worth. */
import { chanceFound } from './chance.ts';
import { isInDoubt } from './doubt.ts';
import { LOOK_METHODS } from './methods.ts';
import type { LookMethodId } from './methods.ts';
import type { LeakPlaceId } from './places.ts';
import type { ClearLook } from './search/model.ts';
import { methodStops } from './stops.ts';
import type { Detector, MadeLook, TrailFacts, UnitState } from './trail-facts.ts';
import { wideLookOf } from './wide-looks.ts';

/** How often a detector answers where no leak is within reach. An assumption. */
const FALSE_HIT = 0.05;
/** A clear look of an earlier visit: the leak may be younger than it. An assumption. */
const WORTH_OF_EARLIER = 0.5;

export const methodOf = (id: LookMethodId): (typeof LOOK_METHODS)[number] => {
  const found = LOOK_METHODS.find((method) => method.id === id);
  if (!found) throw new RangeError(`no method is called ${id}`);
  return found;
};

/** The detector to go on with: none that failed its last check; one that passed before one that was never checked, the finest first. */
export function detectorToUse(detectors: readonly Detector[]): Detector | undefined {
  const last = ({ checks }: Detector) => checks.at(-1)?.result;
  const sense = ({ senseGramsPerYear }: Detector) => senseGramsPerYear ?? Infinity;
  return detectors
    .filter((one) => one.atHand && last(one) !== 'fail')
    .toSorted((a, b) => Number(last(a) !== 'pass') - Number(last(b) !== 'pass') || (sense(a) < sense(b) ? -1 : 1))[0];
}

/** More pressure, a running fan: another look altogether for what senses gas; for the eyes it is the same. */
const STATE_MATTERS: readonly LookMethodId[] = ['electronic', 'soap', 'ultrasonic', 'trace-gas'];

/** Looks with one key count once at a place: same method, instrument, state of the unit, visit. */
export const keyOf = (
  method: LookMethodId,
  { instrumentId, unitState, earlierVisit }: Pick<MadeLook, 'instrumentId' | 'unitState' | 'earlierVisit'>,
): string =>
  JSON.stringify([
    method,
    method === 'electronic' ? instrumentId : null,
    STATE_MATTERS.includes(method) ? unitState : null,
    earlierVisit,
  ]);

export function insideOf(unitState: UnitState, inside: TrailFacts['conditions']['inside']) {
  return unitState === 'nitrogen' ? ('nitrogen' as const) : inside;
}

/** Whether what the look says counts: its instrument passed since, and nothing known stood against its method. */
function isBlind(look: MadeLook, facts: TrailFacts): boolean {
  const detector = facts.detectors.find(({ id }) => id === look.instrumentId);
  if (isInDoubt(detector?.checks ?? [], look.at)) return true;
  // Of another visit only its own state is known, not its pressures.
  const known = look.earlierVisit ? {} : facts.conditions;
  const { unitState, method } = look;
  const at = { ...known, running: unitState === 'running', inside: insideOf(unitState, known.inside) };
  return methodStops({ method, ...at }).length > 0;
}

export interface Evidence {
  readonly cleared: readonly ClearLook[];
  /** Factors on the odds of a place, from hits that are not yet confirmed. */
  readonly hits: ReadonlyMap<LeakPlaceId, number>;
  /** Where a method has answered once: again it would say the same, and give no address. As `spentKey`. */
  readonly spent: ReadonlySet<string>;
  /** Places whose clear look no longer counts because its instrument failed its check. */
  readonly doubted: ReadonlySet<LeakPlaceId>;
}

/** A hit raises the odds of what was in reach of the tip by what a hit is likelier there; it is no address. */
const raisedBy = (chance: number): number => (chance + (1 - chance) * FALSE_HIT) / FALSE_HIT;

export const spentKey = (place: LeakPlaceId, method: string): string => `${place} ${method}`;

/** The chance that this look would have shown a leak within its reach. */
function reachOf(look: MadeLook, facts: TrailFacts, lossGramsPerYear: number): number {
  const dulled = wideLookOf(look.method, look.places)?.dulled ?? 1;
  return chanceFound(lossGramsPerYear, (look.senseGramsPerYear ?? senseOf(facts, look)) * dulled);
}

/** The best hit of each method at each place, by `spentKey`: said twice it is no surer. */
type Hits = ReadonlyMap<string, { readonly place: LeakPlaceId; readonly factor: number }>;

function raisedFrom(hits: Hits): Map<LeakPlaceId, number> {
  const raised = new Map<LeakPlaceId, number>();
  for (const { place, factor } of hits.values()) raised.set(place, (raised.get(place) ?? 1) * factor);
  return raised;
}

function doubtedIn({ looks, detectors }: TrailFacts): Set<LeakPlaceId> {
  const checks = new Map(detectors.map((detector) => [detector.id, detector.checks]));
  const doubtful = looks.filter(
    ({ result, instrumentId = '', at }) => result === 'clear' && isInDoubt(checks.get(instrumentId) ?? [], at),
  );
  return new Set(doubtful.flatMap(({ places }) => places));
}

/** What the looks say of each place, for a loss of so many g/yr. */
export function evidenceOf(facts: TrailFacts, lossGramsPerYear: number): Evidence {
  const cleared: ClearLook[] = [];
  const hits = new Map<string, { place: LeakPlaceId; factor: number }>();
  const usual = detectorToUse(facts.detectors)?.id;
  const seeing = facts.looks.filter((look) => look.result !== 'could-not-reach' && !isBlind(look, facts));
  for (const look of seeing) {
    const chance = reachOf(look, facts, lossGramsPerYear);
    const method = keyOf(look.method, { ...look, instrumentId: look.instrumentId ?? usual });
    for (const place of look.places) {
      const at = spentKey(place, method);
      if (look.result === 'clear')
        cleared.push({ place, method, chanceFound: chance * (look.earlierVisit ? WORTH_OF_EARLIER : 1) });
      else hits.set(at, { place, factor: Math.max(hits.get(at)?.factor ?? 1, raisedBy(chance)) });
    }
  }
  return { cleared, hits: raisedFrom(hits), spent: new Set(hits.keys()), doubted: doubtedIn(facts) };
}

/** What a look senses when nobody said it: its detector's figure, else that of its method. */
function senseOf({ detectors }: TrailFacts, { method, instrumentId }: MadeLook): number {
  const own = detectors.find(({ id }) => id === instrumentId)?.senseGramsPerYear;
  return (method === 'electronic' ? own : undefined) ?? methodOf(method).fieldGramsPerYear;
}
