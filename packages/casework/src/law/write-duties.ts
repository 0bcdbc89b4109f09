import type { Duty } from '@ullage/rulebook';
import { txWrite } from '@ullage/database';
import { dayToDate, toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { factOfEvent } from './circuit-file.ts';

/** What the rulebooks ask of a circuit. */
export interface Asked {
  readonly circuitId: string;
  readonly duties: readonly Duty[];
}

/** Duties keep their identity by natural key; what no longer follows is withdrawn, never deleted. */
export async function writeDuties(desk: Work, answers: readonly Asked[]): Promise<void> {
  const { tx, tenantId } = desk;
  const circuitIds = answers.map(({ circuitId }) => circuitId);
  const rows = await tx.duty.findMany({
    where: { tenantId, circuitId: { in: circuitIds } },
    include: { dutyEvidences: true },
  });
  const standing = new Map(rows.map((row) => [keyOf(row), row]));
  const written: Written[] = [];
  for (const { circuitId, duties } of answers) {
    for (const duty of duties) {
      const known = standing.get(keyOf({ circuitId, key: duty.key }));
      const data = columns(duty);
      const found = known?.dutyEvidences.map(({ factId }) => factId) ?? [];
      const isNew = known === undefined;
      const id = known?.id ?? desk.world.newId();
      written.push({ id, circuitId, duty, data, isNew, isOther: isNew || differs(known, data), found });
      if (isNew) desk.changed('duty', id, 'made');
      else if (differs(known, data)) desk.changed('duty', id);
    }
    for (const gone of withdrawnOf(rows, { circuitId, duties })) desk.changed('duty', gone.id);
  }
  await create(desk, written);
  await change(desk, written);
  const gone = answers.flatMap((asked) => withdrawnOf(rows, asked).map(({ id }) => id));
  await withdraw(desk, gone);
  await writeEvidence(desk, written);
}

interface Written {
  readonly id: string;
  readonly circuitId: string;
  readonly duty: Duty;
  readonly data: Columns;
  readonly isNew: boolean;
  readonly isOther: boolean;
  /** Facts that were its evidence so far. */
  readonly found: readonly string[];
}
interface Known {
  readonly id: string;
  readonly circuitId: string;
  readonly key: string;
  readonly state: string;
}
const keyOf = ({ circuitId, key }: Pick<Known, 'circuitId' | 'key'>): string => `${circuitId} ${key}`;
const withdrawnOf = (rows: readonly Known[], { circuitId, duties }: Asked): Known[] => {
  const wanted = new Set(duties.map(({ key }) => key));
  return rows.filter((row) => row.circuitId === circuitId && !wanted.has(row.key) && row.state !== 'withdrawn');
};

/** The natural key and what it is made of: these never change. */
const identity = ({ rulebook, kind, key, episode }: Duty) => ({ rulebook, kind, key, episode });
const columns = (duty: Duty) => ({
  clause: duty.clause,
  responsible: duty.responsible,
  sinceAt: toDate(duty.sinceAt),
  opensAt: duty.opensAt === undefined ? null : toDate(duty.opensAt),
  dueAt: duty.dueAt === null ? null : toDate(duty.dueAt),
  dueOn: duty.dueOn === null ? null : dayToDate(duty.dueOn),
  everyMonths: duty.everyMonths ?? null,
  provisional: duty.provisional,
  state: duty.state,
  why: duty.why,
  flags: [...duty.flags],
  leakPointIds: [...(duty.leakIds ?? [])],
  rulebookVersion: duty.rulebookVersion,
});
type Columns = ReturnType<typeof columns>;

function differs(known: { [K in keyof Columns]: unknown }, wanted: Columns): boolean {
  const plain = (value: unknown): string => JSON.stringify(value ?? null);
  return (Object.keys(wanted) as (keyof Columns)[]).some((name) => plain(known[name]) !== plain(wanted[name]));
}

async function create({ tx, tenantId, recordedAt }: Work, written: readonly Written[]): Promise<void> {
  const data = written
    .filter(({ isNew }) => isNew)
    .map(({ id, circuitId, duty, data: columnsOf }) => {
      return { tenantId, id, circuitId, ...identity(duty), ...columnsOf, version: 1, updatedAt: toDate(recordedAt) };
    });
  if (data.length > 0) await tx.duty.createMany({ data });
}

const CHANGE = `
UPDATE duty SET clause = given.clause, responsible = given.responsible, since_at = given."sinceAt",
  opens_at = given."opensAt", due_at = given."dueAt", due_on = given."dueOn", every_months = given."everyMonths",
  provisional = given.provisional, state = given.state, why = given.why, flags = given.flags,
  leak_point_ids = given."leakPointIds", rulebook_version = given."rulebookVersion", version = duty.version + 1,
  updated_at = $3
FROM jsonb_to_recordset($2) AS given (id uuid, clause text, responsible text, "sinceAt" timestamptz, "opensAt" timestamptz,
  "dueAt" timestamptz, "dueOn" date, "everyMonths" integer, provisional boolean, state text, why text, flags jsonb,
  "leakPointIds" jsonb, "rulebookVersion" text)
WHERE duty.tenant_id = $1 AND duty.id = given.id`;

async function change({ tx, tenantId, recordedAt }: Work, written: readonly Written[]): Promise<void> {
  const rows = written
    .filter(({ isNew, isOther }) => isOther && !isNew)
    .map(({ id, data }) => ({ id, ...data, dueOn: data.dueOn?.toISOString().slice(0, 10) ?? null }));
  if (rows.length > 0) await txWrite(tx, CHANGE, [tenantId, JSON.stringify(rows), recordedAt]);
}

async function withdraw({ tx, tenantId, recordedAt }: Work, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await tx.duty.updateMany({
    where: { tenantId, id: { in: [...ids] } },
    data: { state: 'withdrawn', version: { increment: 1 }, updatedAt: toDate(recordedAt) },
  });
}

async function writeEvidence({ tx, tenantId }: Work, written: readonly Written[]): Promise<void> {
  const steps = written.map(({ id: dutyId, duty, found }) => {
    const wanted = [...new Set(duty.dischargedBy.map(factOfEvent))];
    const stale = found.filter((factId) => !wanted.includes(factId));
    const fresh = wanted.filter((factId) => !found.includes(factId));
    const rows = (ids: readonly string[]) => ids.map((factId) => ({ tenantId, dutyId, factId }));
    return { stale: rows(stale), fresh: rows(fresh) };
  });
  const stale = steps.flatMap((step) => step.stale);
  const fresh = steps.flatMap((step) => step.fresh);
  if (stale.length > 0) await tx.dutyEvidence.deleteMany({ where: { OR: stale } });
  if (fresh.length > 0) await tx.dutyEvidence.createMany({ data: fresh });
}
