/** What a technician's device is to hold, and what of it has changed: by the feed, narrowed to the visits of one person. */
import type { CommandStanding, PullAnswer, PullAsked } from '@ullage/contracts';
import { problemIn } from '../pipeline/problem.ts';
import type { Viewer } from './viewer.ts';

const ROWS = 5_000;
/** A closed visit stays with its people for so long, so that what was just written can still be read there. */
const CLOSED_DAYS = 7;
const LISTED = 500;

/**
 * The scope is told whole every time, and not as rows of the feed: a device that missed one would keep what is no longer
 * its person's, and a certificate or a placing that changes in three places would have to write them in three.
 */
export async function pullAnswer(viewer: Viewer, asked: PullAsked): Promise<PullAnswer> {
  const { tx, tenantId } = viewer;
  const counter = await tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
  const head = Number(counter.number);
  const scope = await scopeOf(viewer);
  const from = asked.epoch === counter.epoch && asked.number <= head ? asked.number : undefined;
  const reached = from === undefined ? head : Math.min(head, from + ROWS);
  return {
    epoch: counter.epoch,
    number: reached,
    now: viewer.now,
    more: reached < head,
    scope,
    // A cursor that is not of this feed says nothing about what its device has.
    changed: from === undefined ? scope : await changedIn(viewer, { scope, epoch: counter.epoch, from, upTo: reached }),
    standing: await standingOf(viewer, asked.commandIds),
  };
}

async function scopeOf({ tx, tenantId, actor, now }: Viewer): Promise<string[]> {
  const recently = new Date(Date.parse(now) - CLOSED_DAYS * 86_400_000);
  const rows = await tx.visit.findMany({
    where: {
      tenantId,
      visitPersons: { some: { person: { userId: actor.userId } } },
      OR: [{ state: { in: ['placed', 'on-site'] } }, { state: 'done', finishedAt: { gte: recently } }],
    },
    select: { id: true },
    orderBy: [{ plannedStart: 'desc' }, { id: 'asc' }],
    take: LISTED,
  });
  return rows.map(({ id }) => id);
}

/** Visits of the scope that a change was about: their own, their site's, their circuits' and what is known of those. */
async function changedIn(
  { tx, tenantId }: Viewer,
  { scope, epoch, from, upTo }: { scope: readonly string[]; epoch: number; from: number; upTo: number },
): Promise<string[]> {
  if (scope.length === 0 || from === upTo) return [];
  const rows = await tx.$queryRaw<{ id: string }[]>`
    WITH touched AS (
      SELECT DISTINCT record_id FROM feed
      WHERE tenant_id = ${tenantId}::uuid AND epoch = ${epoch} AND number > ${from} AND number <= ${upTo}
    ), reach AS (
      SELECT visit.id, about.record_id FROM visit
      JOIN site ON site.tenant_id = visit.tenant_id AND site.id = visit.site_id
      LEFT JOIN visit_circuit link ON link.tenant_id = visit.tenant_id AND link.visit_id = visit.id
      LEFT JOIN circuit ON circuit.tenant_id = link.tenant_id AND circuit.id = link.circuit_id
      CROSS JOIN LATERAL (VALUES (visit.id), (site.id), (site.customer_id), (circuit.id), (circuit.unit_id)) about (record_id)
      WHERE visit.tenant_id = ${tenantId}::uuid AND visit.id = ANY(${[...scope]}::uuid[])
    )
    SELECT DISTINCT reach.id FROM reach JOIN touched USING (record_id) ORDER BY reach.id`;
  return rows.map(({ id }) => id);
}

/** Of one's own commands only: another's is as unknown as one that never came. */
async function standingOf({ tx, tenantId, actor }: Viewer, ids: readonly string[]): Promise<CommandStanding[]> {
  if (ids.length === 0) return [];
  const rows = await tx.command.findMany({
    where: { tenantId, userId: actor.userId, id: { in: [...ids] } },
    include: { attentions: { where: { closedAt: null, kind: 'command' }, select: { id: true } } },
  });
  const known = new Map(rows.map((row) => [row.id, row]));
  return ids.map((id) => {
    const row = known.get(id);
    if (!row) return { id, state: 'unknown' };
    if (row.state !== 'attention') return { id, state: row.state as 'applied' | 'waiting' };
    const problem = problemIn(row.answer);
    const state = row.attentions.length > 0 ? 'attention' : 'left-out';
    return { id, state, ...(problem ? { problem } : {}) };
  });
}
