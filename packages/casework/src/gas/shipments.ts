/** Manifests as they were reported, and what was accepted of them. */
import type { CommandBody, Mass } from '@ullage/contracts';
import type { GasState } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import { notFound, toInstant } from '../pipeline/case.ts';
import { STANDS } from './custody.ts';

/** One cylinder on a manifest, as the books had it when it left. */
export interface ShipmentLine {
  readonly cylinderId: string;
  readonly fromId: string | null;
  readonly gross: Mass;
  readonly tareGrams: number;
  /** Gross less tare, as weighed on leaving. */
  readonly netGrams: number;
  readonly booked: readonly { readonly refrigerant: string; readonly grams: number }[];
  readonly owners: readonly (string | null)[];
  readonly states: readonly GasState[];
}
export interface Shipment {
  readonly id: string;
  readonly purpose: CommandBody<'record-shipment'>['purpose'];
  readonly receiver: string;
  readonly lines: readonly ShipmentLine[];
}
interface Source {
  readonly tx: Tx;
  readonly tenantId: string;
}

/** A shipment that stands. @throws Refusal not-found */
export async function shipmentOf({ tx, tenantId }: Source, id: string): Promise<Shipment> {
  const fact = await tx.fact.findFirst({
    where: { tenantId, id, kind: 'shipment', ...STANDS },
    select: { body: true },
  });
  if (!fact) throw notFound();
  const { purpose, receiver, cylinders } = fact.body as unknown as Omit<Shipment, 'lines'> & {
    cylinders: readonly ShipmentLine[];
  };
  return { id, purpose, receiver, lines: cylinders };
}

type Said = CommandBody<'record-acceptance'>;
export interface Acceptance {
  readonly factId: string;
  readonly happenedAt: Instant;
  readonly by: string | null;
  readonly said: Said['cylinders'][number];
}
interface AcceptanceRow {
  readonly id: string;
  readonly happenedAt: Instant;
  readonly body: unknown;
}
/** Of several reports about one cylinder of one shipment the one made last stands, ties by id. */
export function lastOfEach<R extends AcceptanceRow>(
  rows: readonly R[],
): Map<string, { row: R; said: Said['cylinders'][number] }> {
  const inTime = [...rows].sort((a, b) =>
    a.happenedAt === b.happenedAt ? (a.id < b.id ? -1 : 1) : a.happenedAt < b.happenedAt ? -1 : 1,
  );
  return new Map(
    inTime.flatMap((row) => {
      const { shipmentId, cylinders } = row.body as Said;
      return cylinders.map((said) => [`${shipmentId} ${said.cylinderId}`, { row, said }] as const);
    }),
  );
}

/** What stands accepted of each of some shipments, by shipment and cylinder. */
export async function standingAcceptances(
  { tx, tenantId }: Source,
  shipmentIds: readonly string[],
): Promise<Map<string, Map<string, Acceptance>>> {
  const rows = await tx.fact.findMany({
    where: {
      tenantId,
      kind: 'acceptance',
      OR: shipmentIds.map((id) => ({ body: { path: ['shipmentId'], equals: id } })),
      ...STANDS,
    },
    select: { id: true, happenedAt: true, recordedAt: true, body: true, byPerson: { select: { name: true } } },
  });
  const all = new Map<string, Map<string, Acceptance>>();
  const dated = rows.map((row) => ({ ...row, happenedAt: toInstant(row.happenedAt ?? row.recordedAt) }));
  for (const { row, said } of lastOfEach(dated).values()) {
    const { shipmentId } = row.body as unknown as Said;
    const of = all.get(shipmentId) ?? new Map<string, Acceptance>();
    const { id: factId, happenedAt, byPerson } = row;
    all.set(shipmentId, of.set(said.cylinderId, { factId, happenedAt, by: byPerson?.name ?? null, said }));
  }
  return all;
}
