/**
 * Visits to come that somebody they are placed on can no longer make. They stay placed, for nobody but a person may move
 * them; each is left to a person with the rule, until it is placed anew or the rule no longer stands against it.
 */
import { mayPlace } from '@ullage/roster';
import type { RefusalCode } from '@ullage/roster';
import { dayWords } from '@ullage/units';
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';
import { HELD, asCertificate, asProposed } from './placing.ts';

const UNFIT = ['placed-without-papers', 'placed-on-left'] as const;
type Unfit = (typeof UNFIT)[number];
interface Found {
  readonly code: Unfit;
  readonly text: string;
}

/** What the law can have against somebody for want of papers. */
const PAPERS: ReadonlySet<RefusalCode> = new Set<RefusalCode>([
  'no-certificate',
  'certificate-ended',
  'certificate-not-yet',
  'apprentice-alone',
  'apprenticeship-over',
  'apprenticeship-undated',
]);

const comingOf = ({ tx, tenantId, recordedAt }: Case, personId: string) =>
  tx.visit.findMany({
    where: {
      tenantId,
      state: 'placed',
      plannedStart: { gte: toDate(recordedAt) },
      visitPersons: { some: { personId } },
    },
    include: {
      site: true,
      visitCircuits: { include: { circuit: { include: { unit: true } } }, orderBy: { circuitId: 'asc' } },
      visitPersons: { include: { person: { include: { certificates: HELD } } }, orderBy: { personId: 'asc' } },
    },
    orderBy: [{ plannedStart: 'asc' }, { id: 'asc' }],
  });
type Coming = Awaited<ReturnType<typeof comingOf>>[number];

/** Looks again at what is placed on somebody whose papers changed, who left or who is back. */
export async function lookAtPlaced(desk: Case, personId: string): Promise<void> {
  const fit: string[] = [];
  const unfit: Found[] = [];
  for (const visit of await comingOf(desk, personId)) {
    const found = foundOf(desk, visit);
    if (found === undefined) {
      fit.push(visit.id);
      continue;
    }
    unfit.push(found);
    desk.concerns.push({ ...found, subject: { kind: 'visit', id: visit.id } });
  }
  await closeUnfit(desk, fit, 'no-longer-so');
  const [first] = unfit;
  if (first === undefined) return;
  // The sender is told of one in full; of more, how many, and where they wait.
  const more = unfit.length - 1;
  const others = more === 1 ? 'One more waits' : `${more} more wait`;
  desk.ask(first.code, more === 0 ? first.text : `${first.text} ${others} under Attention.`);
}

function foundOf(desk: Case, visit: Coming): Found | undefined {
  if (visit.plannedStart === null) return undefined;
  const startsAt = toInstant(visit.plannedStart);
  const tags = visit.visitCircuits.map(({ circuit }) => `${circuit.unit.tag}-${circuit.letter}`).join(', ');
  const { calendar } = desk.world;
  const what = `${tags} on ${dayWords(calendar.dayOf(startsAt, visit.site.timeZone))}`;
  const people = visit.visitPersons.map(({ person }) => person);
  const left = people.find(({ active }) => !active);
  if (left) return { code: 'placed-on-left', text: `${what} is placed on ${left.name}, who has left. Place it anew.` };
  const papers = people.map(({ id, name, certificates }) => ({
    personId: id,
    name,
    certificates: certificates.map(asCertificate),
  }));
  for (const person of papers) {
    const answer = mayPlace({
      // Only its papers are asked about: neither the duties nor the other stops matter to them.
      visit: asProposed(visit, []),
      stops: [],
      person,
      others: papers.filter((other) => other !== person),
      startsAt,
      minutes: visit.plannedMinutes,
      now: desk.recordedAt,
      zone: visit.site.timeZone,
      calendar,
    });
    const against = answer.ok ? undefined : answer.refusals.find(({ code }) => PAPERS.has(code));
    if (!against) continue;
    const clause = against.clause === undefined ? '' : ` (${against.clause})`;
    const rule = `${against.text.replace(/\.$/, '')}${clause}`;
    return { code: 'placed-without-papers', text: `${what} is placed on ${person.name}. ${rule}. Place it anew.` };
  }
  return undefined;
}

/** What was asked about these visits is answered: they were placed anew, or the rule no longer stands against them. */
export async function closeUnfit(desk: Case, visitIds: readonly string[], how: 'placed-anew' | 'no-longer-so') {
  const { tx, tenantId } = desk;
  if (visitIds.length === 0) return;
  const open = {
    tenantId,
    kind: 'record',
    reason: { in: [...UNFIT] },
    subjectId: { in: [...visitIds] },
    closedAt: null,
  };
  const rows = await tx.attention.findMany({ where: open, select: { id: true } });
  if (rows.length === 0) return;
  await tx.attention.updateMany({
    where: open,
    data: { closedAt: toDate(desk.recordedAt), closedHow: how, closedBy: desk.actor.userId },
  });
  for (const { id } of rows) desk.changed('attention', id);
}
