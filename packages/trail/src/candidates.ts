/** The looks that could be made next. */
import { chanceFound } from './chance.ts';
import { detectorToUse, insideOf, keyOf, methodOf, spentKey } from './evidence.ts';
import type { Evidence } from './evidence.ts';
import type { LookMethodId } from './methods.ts';
import { minutesAt } from './minutes.ts';
import { LEAK_PLACES } from './places.ts';
import type { LeakPlaceId } from './places.ts';
import type { SearchLook } from './search/model.ts';
import { methodStops } from './stops.ts';
import type { TrailFacts } from './trail-facts.ts';
import { WIDE_LOOKS } from './wide-looks.ts';

export interface Candidate extends SearchLook {
  readonly words: string;
  readonly by: LookMethodId;
  readonly places: readonly LeakPlaceId[];
  readonly instrumentId: string | undefined;
}
export interface NotNow {
  readonly methods: readonly LookMethodId[];
  readonly text: string;
  readonly hurts: boolean;
}

/** Made at one place. Dye and standing tests want a return; ultrasound hears large leaks that bubbles show as well. */
const CLOSE: readonly LookMethodId[] = ['electronic', 'soap', 'nitrogen-soap', 'trace-gas'];
const PLANNED: readonly LookMethodId[] = [...new Set([...CLOSE, ...WIDE_LOOKS.map(({ method }) => method)])];

/** Why methods of the plan are no use now, in their usual order. */
export function notNow({ conditions, unitState, detectors }: TrailFacts): NotNow[] {
  const at = { ...conditions, running: unitState === 'running', inside: insideOf(unitState, conditions.inside) };
  const stops = PLANNED.flatMap((method) => methodStops({ ...at, method }).map((stop) => ({ ...stop, method })));
  const told = [...Map.groupBy(stops, ({ text }) => text)].map(([text, of]) => ({
    methods: of.map(({ method }) => method),
    text,
    hurts: of.some(({ hurts }) => hurts),
  }));
  const here = detectors.filter(({ atHand }) => atHand);
  if (here.length === 0 || detectorToUse(here)) return told;
  const text =
    here.length === 1
      ? `${here[0]?.tag} failed its check: take another detector, or bubbles.`
      : 'The detectors at hand failed their checks: take another, or bubbles.';
  return [{ methods: ['electronic'], text, hurts: false }, ...told];
}

/** At a hit one knows where to watch, and for how long: the best a method can, not the usual. */
function senseBy(by: LookMethodId, atHit: boolean): number {
  const method = methodOf(by);
  return atHit && 'sensitivity' in method ? method.sensitivity.bestGramsPerYear : method.fieldGramsPerYear;
}

/** Every look over the places of the unit that makes sense there; those that cannot be made now are marked so. */
export function candidatesFor(
  facts: TrailFacts,
  given: { places: readonly LeakPlaceId[]; lossGramsPerYear: number; evidence: Evidence },
): Candidate[] {
  const { places, lossGramsPerYear, evidence } = given;
  const { spent, hits } = evidence;
  const stopped = new Set(notNow(facts).flatMap(({ methods }) => methods));
  const detector = detectorToUse(facts.detectors);
  const unreached = new Set(
    facts.looks
      .filter(({ result, earlierVisit }) => result === 'could-not-reach' && !earlierVisit)
      .flatMap((look) => look.places.map((place) => `${place} ${look.method}`)),
  );
  const make = (
    { id, words, minutes, dulled = 1 }: { id: string; words: string; minutes: number; dulled?: number },
    by: LookMethodId,
    covered: readonly LeakPlaceId[],
  ): Candidate => {
    const instrumentId = by === 'electronic' ? detector?.id : undefined;
    const own = by === 'electronic' ? detector?.senseGramsPerYear : undefined;
    const atHit = covered.length === 1 && covered.every((place) => hits.has(place));
    const chance = chanceFound(lossGramsPerYear, (own ?? senseBy(by, atHit)) * dulled);
    const method = keyOf(by, { instrumentId, unitState: facts.unitState, earlierVisit: false });
    const isIdle = (place: LeakPlaceId): boolean =>
      unreached.has(`${place} ${by}`) || spent.has(spentKey(place, method));
    return {
      id,
      words,
      by,
      minutes,
      instrumentId,
      places: covered,
      method,
      covers: covered
        .filter((place) => places.includes(place))
        .map((place) => ({ place, chanceFound: isIdle(place) ? 0 : chance })),
      usable: !stopped.has(by),
    };
  };
  const wide = WIDE_LOOKS.filter(({ covers }) => covers.filter((place) => places.includes(place)).length > 1).map(
    (look) => make(look, look.method, look.covers),
  );
  const close = places.flatMap((place) =>
    CLOSE.map((by) => {
      const words = LEAK_PLACES.find(({ id }) => id === place)?.words ?? place;
      return make({ id: `${place} ${by}`, words, minutes: minutesAt(place, by, hits.has(place)) }, by, [place]);
    }),
  );
  return [...wide, ...close];
}
