/** What the things are called that a recall reached, and what rests on them. */
import type { RecallItemView } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { dayWords } from '@ullage/units';
import { dateToDay, toDate } from '../pipeline/case.ts';
import { placeWords } from '../views/history.ts';
import { methodWordsOf } from '../views/method-words.ts';
import { DUTY_WORDS, FACT_WORDS, wordOf } from '../views/words.ts';
import type { Records } from './checks.ts';
import type { Touched } from './touched.ts';

/** A thing as it is named, without what became of it. */
export type Named = Pick<
  RecallItemView,
  'title' | 'place' | 'text' | 'timeZone' | 'cylinderId' | 'unitId' | 'circuitLetter' | 'visitId'
> & { readonly circuitId: string | null };

const CIRCUIT = {
  select: {
    id: true,
    letter: true,
    refrigerant: true,
    unit: { select: { id: true, tag: true, site: { select: { name: true, timeZone: true } } } },
  },
} as const;
interface CircuitRow {
  readonly id: string;
  readonly letter: string;
  readonly unit: {
    readonly id: string;
    readonly tag: string;
    readonly site: { readonly name: string; readonly timeZone: string };
  };
}
const ofCircuit = ({ id, letter, unit }: CircuitRow) => ({
  place: unit.site.name,
  timeZone: unit.site.timeZone,
  unitId: unit.id,
  circuitLetter: letter,
  circuitId: id,
});
const NOWHERE = { place: null, cylinderId: null, unitId: null, circuitLetter: null, circuitId: null, visitId: null };

/** By kind and id. What is read, is read for all things at once. */
export async function namesOf(
  records: Records,
  touched: readonly Touched[],
  { ratesToo }: { ratesToo: boolean },
): Promise<ReadonlyMap<string, Named>> {
  const idsOf = (...kinds: Touched['kind'][]): string[] =>
    touched.flatMap(({ kind, id }) => (kinds.includes(kind) ? [id] : []));
  return new Map([
    ...(await cylinders(records, idsOf('cylinder'))),
    ...(await circuits(records, idsOf('circuit'), ratesToo ? touched : [])),
    ...(await facts(records, idsOf('look', 'test', 'weighing'))),
  ]);
}
export const nameKey = ({ kind, id }: Pick<Touched, 'kind' | 'id'>): string => `${kind} ${id}`;

async function cylinders({ tx, tenantId, zone }: Records, ids: readonly string[]): Promise<[string, Named][]> {
  const rows = await tx.cylinder.findMany({
    where: { tenantId, id: { in: [...ids] } },
    include: { location: { select: { name: true } } },
  });
  return rows.map((row): [string, Named] => [
    nameKey({ kind: 'cylinder', id: row.id }),
    {
      ...NOWHERE,
      title: row.label ?? row.serial,
      place: row.location?.name ?? null,
      text: null,
      timeZone: zone,
      cylinderId: row.id,
    },
  ]);
}

/** With the leak rate that rests on what was weighed, and what the law asks since, where that is in doubt. */
async function circuits(
  { tx, tenantId }: Records,
  ids: readonly string[],
  weighed: readonly Touched[],
): Promise<[string, Named][]> {
  const since = new Map(weighed.flatMap(({ kind, id, at }) => (kind === 'circuit' ? [[id, toDate(at)] as const] : [])));
  const own = { tenantId, circuitId: { in: [...since.keys()] } };
  const rows = await tx.circuit.findMany({ where: { tenantId, id: { in: [...ids] } }, ...CIRCUIT });
  const rates = await tx.calculation.findMany({ where: { ...own, standing: true }, orderBy: { at: 'desc' } });
  const duties = await tx.duty.findMany({ where: { ...own, state: 'open' }, orderBy: { sinceAt: 'asc' } });
  const isSince = ({ circuitId }: { circuitId: string }, at: Date): boolean => at >= (since.get(circuitId) ?? at);
  return rows.map((row): [string, Named] => {
    const rate = rates.find((one) => one.circuitId === row.id && isSince(one, one.at));
    const open = duties.filter((one) => one.circuitId === row.id && isSince(one, one.sinceAt));
    const names = [...new Set(open.map(({ kind }) => wordOf(DUTY_WORDS, kind)))];
    const texts = [
      ...(rate
        ? [`Its leak rate of ${Number(rate.rateText).toFixed(2)} % on ${dayWords(dateToDay(rate.onDay))} rests on it.`]
        : []),
      ...(names.length > 0 ? [`Open since: ${names.join(', ')}.`] : []),
    ];
    const text = texts.length === 0 ? null : texts.join(' ');
    const title = `${row.unit.tag}-${row.letter}`;
    return [nameKey({ kind: 'circuit', id: row.id }), { ...NOWHERE, ...ofCircuit(row), title, text }];
  });
}

interface SeenBody {
  readonly places?: readonly string[];
  readonly where?: string;
  readonly method?: string;
  readonly methods?: readonly string[];
  readonly stage?: string;
}
const STAGE_WORDS: Readonly<Record<string, string>> = {
  initial: 'Initial verification test',
  'follow-up': 'Follow-up verification test',
};
function titleOf(kind: string, body: SeenBody): string {
  if (kind === 'look')
    return [...(body.places ?? []).map(placeWords), ...(body.where === undefined ? [] : [body.where])].join(', ');
  return STAGE_WORDS[body.stage ?? ''] ?? wordOf(FACT_WORDS, kind);
}
const KINDS: Readonly<Record<string, 'look' | 'test'>> = { look: 'look', verification: 'test', inspection: 'test' };

const SEEN = {
  circuit: CIRCUIT,
  byPerson: { select: { name: true } },
  factRefs: { where: { cylinderId: { not: null } }, select: { cylinder: true } },
  dutyEvidences: { select: { duty: { select: { kind: true, clause: true } } } },
} satisfies Prisma.FactInclude;
type SeenRow = Prisma.FactGetPayload<{ include: typeof SEEN }>;

/** How it was seen and by whom, and which duties rest on it. */
function seenText({ body, byPerson, dutyEvidences }: SeenRow): string {
  const { method, methods = [] } = body as SeenBody;
  const by = [...(method === undefined ? [] : [method]), ...methods].map(methodWordsOf).join(', ');
  const seen = [by, byPerson?.name ?? ''].filter((part) => part !== '').join(', by ');
  const duties = new Set(dutyEvidences.map(({ duty }) => `${wordOf(DUTY_WORDS, duty.kind)}, ${duty.clause}`));
  return duties.size === 0 ? `${seen}.` : `${seen}. It discharges: ${[...duties].join('; ')}.`;
}

async function facts({ tx, tenantId, zone }: Records, ids: readonly string[]): Promise<[string, Named][]> {
  const rows = await tx.fact.findMany({ where: { tenantId, id: { in: [...ids] } }, include: SEEN });
  return rows.map((row): [string, Named] => {
    const { id, circuit, factRefs, visitId } = row;
    const kind = KINDS[row.kind] ?? 'weighing';
    const head = titleOf(row.kind, row.body as SeenBody);
    const tag = circuit ? `${circuit.unit.tag}-${circuit.letter}` : '';
    const labels = factRefs.map(({ cylinder }) => cylinder?.label ?? cylinder?.serial ?? '').join(' to ');
    const where = [labels, tag].filter((part) => part !== '').join(', ');
    const named = {
      ...NOWHERE,
      timeZone: zone,
      ...(circuit ? ofCircuit(circuit) : {}),
      title: kind === 'weighing' ? `${head}: ${where}` : `${tag}: ${head}`,
      text: seenText(row),
      visitId,
      cylinderId: factRefs[0]?.cylinder?.id ?? null,
    };
    return [nameKey({ kind, id }), named];
  });
}
