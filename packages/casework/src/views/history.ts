/** A circuit's past as it is shown: additions, looks, leak points and other facts. */
import type { FactView, LeakPointView, LookView, PhotoView } from '@ullage/contracts';
import { isInDoubt, LEAK_PLACES } from '@ullage/trail';
import type { InstrumentCheck } from '@ullage/trail';
import { toInstant } from '../pipeline/case.ts';
import { factAt } from './fact-link.ts';
import { correctedBy } from './fact-row.ts';
import type { FactRow } from './fact-row.ts';
import { methodWordsOf } from './method-words.ts';
import { summaryOf } from './summaries.ts';
import type { Viewer } from './viewer.ts';
import { FACT_WORDS, wordOf } from './words.ts';

const places: Readonly<Record<string, string>> = Object.fromEntries(
  LEAK_PLACES.map((place) => [place.id, place.words]),
);
export const placeWords = (id: string): string => wordOf(places, id);

export const bodyOf = (row: { readonly body: unknown }): Record<string, unknown> => row.body as Record<string, unknown>;

const photosOf = (row: FactRow): PhotoView[] =>
  row.factRefs.flatMap(({ blob }) => (blob ? [{ ...blob, state: blob.state as PhotoView['state'] }] : []));

/** Facts of one visit or circuit, among them every correction of the others. */
export function factViews(viewer: Viewer, rows: readonly FactRow[], zone: string): FactView[] {
  const corrected = correctedBy(rows);
  return rows.map((row) => factView(viewer, row, { zone, correctedById: corrected.get(row.id) ?? null }));
}

function factView(
  viewer: Viewer,
  row: FactRow,
  { zone, correctedById }: { zone: string; correctedById: string | null },
): FactView {
  return {
    id: row.id,
    kind: row.kind,
    title: wordOf(FACT_WORDS, row.kind),
    summary: summaryOf(row),
    circuitId: row.circuitId,
    happenedAt: factAt(viewer, row, zone),
    recordedAt: toInstant(row.recordedAt),
    by: row.byPerson?.name ?? '',
    correctsId: row.correctsId,
    correctedById,
    photos: photosOf(row),
    body: bodyOf(row),
  };
}

export interface LookBody {
  readonly places: string[];
  readonly where?: string;
  readonly method: string;
  readonly sensitivityGramsPerYear?: number;
  readonly unitState: string;
  readonly result: LookView['result'];
  readonly why?: string;
}
type Reference = FactRow['factRefs'][number];
/** How finely the look could see: as said at the time, else what its instrument senses. */
function senseOf(body: LookBody, used: Reference | undefined): number | null {
  const own = used?.instrument?.senseGramsPerYear;
  return body.sensitivityGramsPerYear ?? (own === undefined || own === null ? null : Number(own));
}

const checksOf = (used: Reference | undefined, checks: Checks): readonly InstrumentCheck[] =>
  checks.get(used?.instrumentId ?? '') ?? [];
type Checks = ReadonlyMap<string, readonly InstrumentCheck[]>;

export function lookView(viewer: Viewer, row: FactRow, given: { zone: string; checks: Checks }): LookView {
  const body = row.body as LookBody;
  const at = toInstant(row.happenedAt ?? row.recordedAt);
  const used = row.factRefs.find((ref) => ref.role === 'instrument');
  return {
    id: row.id,
    day: viewer.world.calendar.dayOf(at, given.zone),
    placesText: body.places.map(placeWords),
    where: body.where ?? null,
    methodText: methodWordsOf(body.method),
    instrument: used?.instrument?.tag ?? null,
    sensitivityGramsPerYear: senseOf(body, used),
    unitState: body.unitState,
    result: body.result,
    inDoubt: body.result === 'clear' && isInDoubt(checksOf(used, given.checks), at),
    why: body.why ?? null,
    by: row.byPerson?.name ?? '',
    visitId: row.visitId,
  };
}

interface LeakRow {
  id: string;
  circuitId: string;
  number: number;
  place: string;
  whereText: string;
  lowGramsPerYear: unknown;
  highGramsPerYear: unknown;
  state: string;
  foundAt: Date;
}
export function leakPointView(
  viewer: Viewer,
  row: LeakRow,
  given: { zone: string; facts: readonly FactRow[] },
): LeakPointView & { circuitId: string } {
  const day = (at: Date): string => viewer.world.calendar.dayOf(toInstant(at), given.zone);
  const touched = given.facts.filter(
    (fact) => ['repair', 'verification'].includes(fact.kind) && fact.factRefs.some((ref) => ref.leakPointId === row.id),
  );
  const changed =
    touched
      .map((fact) => fact.happenedAt ?? fact.recordedAt)
      .sort((a, b) => a.getTime() - b.getTime())
      .at(-1) ?? row.foundAt;
  return {
    circuitId: row.circuitId,
    id: row.id,
    label: `L${row.number}`,
    place: row.place,
    placeText: placeWords(row.place),
    where: row.whereText,
    lowGramsPerYear: row.lowGramsPerYear === null ? null : Number(row.lowGramsPerYear),
    highGramsPerYear: row.highGramsPerYear === null ? null : Number(row.highGramsPerYear),
    state: row.state as LeakPointView['state'],
    foundOn: day(row.foundAt),
    changedOn: day(changed),
  };
}
