/** What a search stands on by now: as the server knows it, and what waits on this phone. */
import type { CommandBody, CommandName, SearchFacts } from '@ullage/contracts';
import type { Queued } from '../outbox.ts';

type Look = SearchFacts['looks'][number];

export interface KnownHere {
  readonly circuitId: string;
  readonly queued: readonly Queued[];
  /** Tools of the firm, for one that is first used here. */
  readonly instruments: readonly {
    readonly id: string;
    readonly kind: string;
    readonly tag: string;
    readonly senseGramsPerYear: number | null;
  }[];
  readonly unitState: SearchFacts['unitState'];
}

/** Commands of one kind that wait; one that was refused has not happened. */
const waiting = <K extends CommandName>(queued: readonly Queued[], kind: K) =>
  queued
    .filter(({ state, envelope }) => state === 'waiting' && envelope.schema === kind)
    .map(({ envelope }) => ({ at: envelope.happenedAt, body: envelope.body as CommandBody<K> }));

function lookOf({ at, body }: { at: string; body: CommandBody<'record-look'> }): Look {
  return {
    at,
    earlierVisit: false,
    places: body.places as Look['places'],
    method: body.method as Look['method'],
    ...(body.instrumentId !== undefined && { instrumentId: body.instrumentId }),
    ...(body.sensitivityGramsPerYear !== undefined && { senseGramsPerYear: body.sensitivityGramsPerYear }),
    unitState: body.unitState,
    result: body.result,
  };
}

export function searchNow(known: SearchFacts, here: KnownHere): SearchFacts {
  const checks = waiting(here.queued, 'record-tool-check');
  const looks = waiting(here.queued, 'record-look').filter(({ body }) => body.circuitId === here.circuitId);
  const leaks = waiting(here.queued, 'record-leak-point').filter(({ body }) => body.circuitId === here.circuitId);
  const touched = new Set([...checks, ...looks].map(({ body }) => body.instrumentId));
  const fresh = here.instruments
    .filter(({ id, kind }) => kind === 'detector' && touched.has(id) && !known.detectors.some((one) => one.id === id))
    .map(({ id, tag, senseGramsPerYear }) => ({
      id,
      tag,
      checks: [],
      ...(senseGramsPerYear !== null && { senseGramsPerYear }),
    }));
  return {
    ...known,
    unitState: here.unitState,
    looks: [...known.looks, ...looks.map(lookOf)],
    leaks: [
      ...known.leaks,
      ...leaks.map(({ body }) => ({
        place: body.place as SearchFacts['leaks'][number]['place'],
        ...(body.lowGramsPerYear !== undefined && { lowGramsPerYear: body.lowGramsPerYear }),
        ...(body.highGramsPerYear !== undefined && { highGramsPerYear: body.highGramsPerYear }),
      })),
    ],
    detectors: [...known.detectors, ...fresh].map((detector) => ({
      ...detector,
      atHand: touched.has(detector.id) || ('atHand' in detector && detector.atHand),
      checks: [
        ...detector.checks,
        ...checks
          .filter(({ body }) => body.instrumentId === detector.id)
          .map(({ at, body }) => ({ at, result: body.result })),
      ],
    })),
  };
}
