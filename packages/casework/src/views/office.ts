import { HELD } from '../visits/placing.ts';
import { isCommandName } from '@ullage/contracts';
import type { AttentionView, ChangesView, PeopleView, Role } from '@ullage/contracts';
import type { Day } from '@ullage/units';
import { dateToDay, toDate, toInstant } from '../pipeline/case.ts';
import { restored } from '../pipeline/envelope-text.ts';
import type { Viewer } from './viewer.ts';
import { standingOf } from './visit.ts';
import { CERTIFICATE_WORDS, wordOf } from './words.ts';

type Member = PeopleView['items'][number];
interface CertificateRow {
  id: string;
  type: string;
  registeredOn: Date | null;
  endsOn: Date | null;
  version: number;
}
const certificateView = (row: CertificateRow, today: Day): Member['certificates'][number] => ({
  id: row.id,
  type: row.type as Member['certificates'][number]['type'],
  text: wordOf(CERTIFICATE_WORDS, row.type),
  registeredOn: row.registeredOn ? dateToDay(row.registeredOn) : null,
  endsOn: row.endsOn ? dateToDay(row.endsOn) : null,
  version: row.version,
  standing: standingOf(row, today),
});

export async function peopleView(
  { tx, tenantId, tenant, now, world }: Viewer,
  door: Pick<PeopleView, 'invitations' | 'mailsLinks'>,
): Promise<PeopleView> {
  const rows = await tx.person.findMany({
    where: { tenantId, withdrawnAt: null },
    include: {
      certificates: HELD,
      _count: {
        select: { visitPersons: { where: { visit: { state: 'placed', plannedStart: { gte: toDate(now) } } } } },
      },
    },
    orderBy: [{ active: 'desc' }, { name: 'asc' }, { id: 'asc' }],
  });
  const today = world.calendar.dayOf(now, tenant.timeZone);
  return {
    items: rows.map((row) => ({
      id: row.id,
      name: row.name,
      email: row.email,
      role: row.role as Role | null,
      active: row.active,
      // The role is the member's: without one the account stays, but opens nothing here.
      signsIn: row.userId !== null && row.role !== null,
      certificates: row.certificates.map((certificate) => certificateView(certificate, today)),
      placedAhead: row._count.visitPersons,
    })),
    ...door,
  };
}

const SHOWN = 200;
export async function attentionView({ tx, tenantId }: Viewer): Promise<AttentionView> {
  const rows = await tx.attention.findMany({
    where: { tenantId },
    include: { command: true },
    orderBy: [{ closedAt: { sort: 'asc', nulls: 'first' } }, { openedAt: 'desc' }],
    take: SHOWN,
  });
  return {
    items: rows.map((row) => {
      const problem = row.problem as { title?: string; detail?: string };
      const commandKind = row.command?.kind ?? null;
      return {
        id: row.id,
        kind: row.kind,
        reason: row.reason,
        title: problem.title ?? 'Something needs a look',
        text: problem.detail ?? '',
        openedAt: toInstant(row.openedAt),
        commandId: row.commandId,
        commandKind: commandKind !== null && isCommandName(commandKind) ? commandKind : null,
        envelope: row.command ? (restored(row.command.envelope) as Record<string, unknown>) : null,
        subjectKind: row.subjectKind,
        subjectId: row.subjectId,
        closedAt: row.closedAt ? toInstant(row.closedAt) : null,
        closedHow: row.closedHow,
      };
    }),
  };
}

const ROWS = 500;
/** Changes since a cursor, in commit order. A cursor of another epoch is answered by `reset`. */
export async function changesView(
  { tx, tenantId }: Viewer,
  since: { epoch: number; number: number },
): Promise<ChangesView> {
  const counter = await tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
  const head = { epoch: counter.epoch, number: Number(counter.number) };
  if (since.epoch !== counter.epoch || since.number > head.number)
    return { ...head, reset: true, rows: [], more: false };
  const rows = await tx.feed.findMany({
    where: { tenantId, epoch: counter.epoch, number: { gt: BigInt(since.number) } },
    orderBy: { number: 'asc' },
    take: ROWS + 1,
  });
  return {
    ...head,
    reset: false,
    rows: rows.slice(0, ROWS).map((row) => ({
      number: Number(row.number),
      kind: row.kind,
      recordId: row.recordId,
      op: row.op,
      at: toInstant(row.at),
    })),
    more: rows.length > ROWS,
  };
}
