/** Gathers what the roster needs to judge a placement. */
import { findRefrigerant } from '@ullage/rulebook';
import type { Certificate, CircuitWork, DutyWindow, Proposal, Stop } from '@ullage/roster';
import type { Tx } from '@ullage/database';
import { dateToDay, toInstant } from '../pipeline/case.ts';

export interface CertificateRow {
  readonly scheme: string;
  readonly type: string;
  readonly registeredOn: Date | null;
  readonly endsOn: Date | null;
}
export const asCertificate = (row: CertificateRow): Certificate =>
  ({
    scheme: row.scheme,
    type: row.type,
    ...(row.registeredOn ? { registeredOn: dateToDay(row.registeredOn) } : {}),
    ...(row.endsOn ? { endsOn: dateToDay(row.endsOn) } : {}),
  }) as Certificate;

/** The law's pressure class of a circuit's gas; null for one that needs no certificate. */
export function circuitWork(refrigerant: string): CircuitWork {
  const known = findRefrigerant(refrigerant);
  const covered = known !== undefined && (known.containsOds || known.containsHfc);
  return { appliance: 'stationary', pressureClass: covered ? known.pressureClass : null };
}

export const placeOf = (site: { latitude: unknown; longitude: unknown }) =>
  site.latitude === null || site.longitude === null
    ? null
    : { latitude: Number(site.latitude), longitude: Number(site.longitude) };

/** Certificates as they stand: what came with an import and was taken back with it was never held. */
export const HELD = { where: { withdrawnAt: null }, orderBy: { id: 'asc' } } as const;

/** Who can be sent: technicians, and whoever else holds a certificate. */
export const onRoster = (tenantId: string) => ({
  tenantId,
  active: true,
  OR: [{ role: 'technician' }, { certificates: { some: HELD.where } }],
});

interface VisitRow {
  readonly id: string;
  readonly purpose: string;
  readonly site: { readonly latitude: unknown; readonly longitude: unknown };
  readonly visitCircuits: readonly { readonly circuit: { readonly refrigerant: string } }[];
}
/** A visit as the rules of placing read it. Gauges go on at every visit of ours. */
export const asProposed = (row: VisitRow, duties: readonly DutyWindow[]): Proposal['visit'] => ({
  visitId: row.id,
  purpose: row.purpose as Proposal['visit']['purpose'],
  opensCircuit: true,
  circuits: row.visitCircuits.map(({ circuit }) => circuitWork(circuit.refrigerant)),
  duties,
  place: placeOf(row.site),
});

/** Stops of some people from an instant on; done and cancelled visits take no time any more. */
export async function stopsOf(tx: Tx, tenantId: string, personIds: readonly string[]): Promise<Stop[]> {
  const rows = await tx.visitPerson.findMany({
    where: {
      tenantId,
      personId: { in: [...personIds] },
      visit: { state: { in: ['placed', 'on-site'] }, plannedStart: { not: null } },
    },
    include: { visit: { include: { site: true } } },
  });
  return rows.map((row) => ({
    visitId: row.visitId,
    personId: row.personId,
    label: row.visit.site.name,
    startsAt: toInstant(row.visit.plannedStart ?? row.visit.createdAt),
    minutes: row.visit.plannedMinutes,
    place: placeOf(row.visit.site),
  }));
}

/** The windows of the open duties that a visit is to discharge. */
export async function dutyWindows(tx: Tx, tenantId: string, visitId: string): Promise<DutyWindow[]> {
  const rows = await tx.visitDuty.findMany({
    where: { tenantId, visitId, duty: { state: 'open' } },
    include: { duty: true },
  });
  return rows.flatMap(({ duty }) =>
    duty.dueAt === null
      ? []
      : [
          {
            dueAt: toInstant(duty.dueAt),
            clause: duty.clause,
            ...(duty.opensAt ? { opensAt: toInstant(duty.opensAt) } : {}),
          },
        ],
  );
}
