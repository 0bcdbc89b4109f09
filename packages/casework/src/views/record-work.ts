/** Items (iii) and (iv) of a service record: each part serviced, with each kind of work done on it. */
import type { ServiceRecordView } from '@ullage/contracts';
import { toInstant } from '../pipeline/case.ts';
import type { FactRow } from './fact-row.ts';
import { placeWords } from './history.ts';
import { methodWordsOf } from './method-words.ts';

/** Facts of the visit, with what is said of the circuits they belong to. */
export interface Told {
  readonly facts: readonly (FactRow & { readonly byPersonId: string | null })[];
  readonly circuits: ReadonlyMap<string, { readonly tag: string; readonly refrigerant: string }>;
}
export const ofKind = ({ facts }: Told, kind: string): Told['facts'] => facts.filter((fact) => fact.kind === kind);
export const tagOf = ({ circuits }: Told, fact: FactRow): string => circuits.get(fact.circuitId ?? '')?.tag ?? '';
export const atOf = (fact: FactRow): string => toInstant(fact.happenedAt ?? fact.recordedAt);
export const byOf = (fact: FactRow): string => fact.byPerson?.name ?? '';

/** The leaks a fact is about, each as the place where it is, since an owner does not know our number; that follows it. */
export const placesOf = (fact: FactRow): string[] =>
  fact.factRefs.flatMap(({ leakPoint }) =>
    leakPoint ? [`${placeWords(leakPoint.place)}, ${leakPoint.whereText} (L${leakPoint.number})`] : [],
  );

interface Done {
  readonly part: string;
  readonly work: string;
}
type Body = Readonly<Record<string, unknown>>;
const CIRCUIT = 'Refrigerant circuit';
const words = (code: unknown): string => String(code).replaceAll('-', ' ');
const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

function recovered(body: Body): Done {
  const removes = text((body.work as { removes?: unknown } | undefined)?.removes);
  const part = text(body.partText) ?? (body.part === 'isolated' ? 'Isolated part of the circuit' : CIRCUIT);
  return { part, work: `Refrigerant recovered${removes === undefined ? '' : `, ${words(removes)} removed`}` };
}
function repaired(body: Body, fact: FactRow): Done[] {
  const done = [{ part: text(body.part) ?? placesOf(fact).join('; '), work: String(body.what) }];
  return body.drierChanged === true ? [...done, { part: 'Filter drier', work: 'Changed' }] : done;
}
function looked(body: Body): Done {
  const places = (body.places as string[]).map(placeWords).join(', ');
  const where = text(body.where);
  const result = `${methodWordsOf(String(body.method))}, ${words(body.result)}`;
  return { part: where === undefined ? places : `${places}, ${where}`, work: `Leak search: ${result}` };
}

const DONE: Readonly<Record<string, (body: Body, fact: FactRow) => readonly Done[]>> = {
  look: (body) => [looked(body)],
  recovery: (body) => [recovered(body)],
  repair: repaired,
  vacuum: (body) => [{ part: CIRCUIT, work: `Evacuated, vacuum hold: ${words(body.result)}` }],
  charge: () => [{ part: CIRCUIT, work: 'Refrigerant charged by weight' }],
  'service-loss': (body) => [{ part: CIRCUIT, work: `Refrigerant released by opening: ${String(body.how)}` }],
};

/** In the order it was done; what was done twice in a row (two charges from two cylinders) is said once. */
export function partsOf(told: Told): ServiceRecordView['parts'] {
  const rows = told.facts.flatMap((fact) =>
    (DONE[fact.kind]?.(fact.body as Body, fact) ?? []).map((done) => ({
      circuitTag: tagOf(told, fact),
      ...done,
      by: byOf(fact),
    })),
  );
  return rows.filter((row, i) => JSON.stringify(row) !== JSON.stringify(rows[i - 1]));
}
