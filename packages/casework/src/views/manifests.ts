/** Manifests, as they were sent and accepted. */
import type { CommandBody, ManifestListView, ManifestView } from '@ullage/contracts';
import { bookedGrams } from '@ullage/units';
import { standingAcceptances } from '../gas/shipments.ts';
import type { Acceptance, ShipmentLine } from '../gas/shipments.ts';
import type { PageQuery } from '../office.ts';
import { notFound, toInstant } from '../pipeline/case.ts';
import { customerNames } from './customers.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

const PAGE = 50;
const NAME = { byPerson: { select: { name: true } } } as const;
type Said = Omit<CommandBody<'record-shipment'>, 'cylinders'> & {
  readonly receiver: string;
  readonly cylinders: readonly ShipmentLine[];
};
const TAKEN_BACK = {
  factCorrectses: {
    where: { kind: 'taken-back' },
    select: { happenedAt: true, recordedAt: true, body: true, ...NAME },
  },
} as const;

export async function manifestsView(viewer: Viewer, { after }: Pick<PageQuery, 'after'>): Promise<ManifestListView> {
  const { tx, tenantId } = viewer;
  const rows = await tx.fact.findMany({
    where: { tenantId, kind: 'shipment' },
    include: { ...NAME, ...TAKEN_BACK },
    orderBy: [{ happenedAt: 'desc' }, { id: 'desc' }],
    take: PAGE + 1,
    ...(after === undefined ? {} : { cursor: { tenantId_id: { tenantId, id: after } }, skip: 1 }),
  });
  const shown = rows.slice(0, PAGE);
  const accepted = await standingAcceptances(
    viewer,
    shown.map(({ id }) => id),
  );
  return {
    items: shown.map((row) => {
      const { purpose, receiver, reference, cylinders } = row.body as unknown as Said;
      const own = [...(accepted.get(row.id)?.values() ?? [])];
      return {
        id: row.id,
        at: toInstant(row.happenedAt ?? row.recordedAt),
        by: row.byPerson?.name ?? null,
        purpose,
        receiver,
        reference: reference ?? null,
        cylinders: cylinders.length,
        accepted: own.length,
        sentGrams: cylinders.reduce((sum, { netGrams }) => sum + netGrams, 0),
        acceptedGrams: own.reduce((sum, { said }) => sum + bookedGrams(said.accepted), 0),
        takenBack: row.factCorrectses.length > 0,
      };
    }),
    next: rows.length > PAGE ? (shown.at(-1)?.id ?? null) : null,
    number: await feedNumber(viewer),
  };
}

/** @throws Refusal not-found */
export async function manifestView(viewer: Viewer, id: string): Promise<ManifestView> {
  const { tx, tenantId, tenant, now } = viewer;
  const row = await tx.fact.findFirst({
    where: { tenantId, id, kind: 'shipment' },
    include: { ...NAME, ...TAKEN_BACK },
  });
  if (!row) throw notFound();
  const said = row.body as unknown as Said;
  const [back] = row.factCorrectses;
  return {
    id,
    contractor: tenant.name,
    timeZone: tenant.timeZone,
    at: toInstant(row.happenedAt ?? row.recordedAt),
    by: row.byPerson?.name ?? null,
    purpose: said.purpose,
    receiver: { id: said.receiverId, name: said.receiver },
    certificate: said.certificate ?? null,
    carrier: said.carrier,
    reference: said.reference ?? null,
    note: said.note ?? null,
    takenBack: back
      ? {
          at: toInstant(back.happenedAt ?? back.recordedAt),
          by: back.byPerson?.name ?? null,
          why: (back.body as { why: string }).why,
        }
      : null,
    lines: await linesOf(viewer, id, said.cylinders),
    madeAt: now,
    number: await feedNumber(viewer),
  };
}

async function linesOf(viewer: Viewer, id: string, lines: readonly ShipmentLine[]): Promise<ManifestView['lines']> {
  const { tx, tenantId, tenant } = viewer;
  const rows = await tx.cylinder.findMany({
    where: { tenantId, id: { in: lines.map(({ cylinderId }) => cylinderId) } },
    select: { id: true, serial: true, label: true, kind: true, specification: true },
  });
  const stamps = new Map(rows.map((row) => [row.id, row]));
  const names = await customerNames(
    viewer,
    lines.flatMap(({ owners }) => owners),
  );
  const accepted = (await standingAcceptances(viewer, [id])).get(id);
  return lines.map(({ cylinderId, gross, tareGrams, netGrams, booked, owners, states }) => {
    const { serial = '', label = null, kind = 'recovery', specification = '' } = stamps.get(cylinderId) ?? {};
    const stands = accepted?.get(cylinderId);
    return {
      ...{ cylinderId, serial, label, specification, gross, tareGrams, netGrams },
      kind: kind as ManifestView['lines'][number]['kind'],
      booked: [...booked],
      owners: owners.map((owner) => (owner === null ? tenant.name : (names.get(owner) ?? ''))),
      states: [...states],
      acceptance: stands ? acceptanceView(stands) : null,
    };
  });
}

const acceptanceView = ({ factId, happenedAt, by, said }: Acceptance) => ({
  ...{ factId, by, at: happenedAt, accepted: said.accepted, acceptedGrams: bookedGrams(said.accepted) },
  ...{ found: said.found, after: said.after, told: said.told ?? null, why: said.why ?? null },
});
