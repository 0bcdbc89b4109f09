import type { z } from 'zod';
import type { SiteView } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import { siteBarometerKpa } from '../commands/site-readings.ts';

type Site = z.infer<typeof SiteView>;
export const SITE_INCLUDE = {
  customer: true,
  contacts: { orderBy: { id: 'asc' }, take: 1 },
  facility: { include: { facilityMethods: { orderBy: { sinceOn: 'desc' }, take: 1 } } },
} as const;
type Row = NonNullable<Awaited<ReturnType<typeof loadSite>>>;
export const loadSite = (tx: Tx, tenantId: string, id: string) =>
  tx.site.findUnique({ where: { tenantId_id: { tenantId, id } }, include: SITE_INCLUDE });

export function siteView(row: Row): Site {
  const [contact] = row.contacts;
  return {
    id: row.id,
    name: row.name,
    address: row.address,
    timeZone: row.timeZone,
    elevationM: Number(row.elevationM),
    elevationAssumed: row.elevationAssumed,
    coordinates:
      row.latitude === null || row.longitude === null
        ? null
        : { latitude: Number(row.latitude), longitude: Number(row.longitude) },
    barometerKpa: siteBarometerKpa(row),
    accessNotes: row.accessNotes,
    contact: contact ? { name: contact.name, phone: contact.phone } : null,
    customer: { id: row.customer.id, name: row.customer.name },
    leakRateMethod: row.facility.facilityMethods[0]?.method ?? 'annualizing',
  };
}
