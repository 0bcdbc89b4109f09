import * as z from 'zod';
import { ACCEPTED_AS, CYLINDER_AFTER, SHIPMENT_PURPOSES } from '../commands/keeper.ts';
import { MassView } from './common.ts';

const Purpose = z.enum(SHIPMENT_PURPOSES);
export const ManifestListView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        at: z.string(),
        by: z.string().nullable(),
        purpose: Purpose,
        receiver: z.string(),
        reference: z.string().nullable(),
        cylinders: z.int(),
        accepted: z.int().meta({ description: 'Cylinders of which the receiver has said what it accepted.' }),
        sentGrams: z.int().meta({ description: 'Net, as weighed on leaving.' }),
        acceptedGrams: z.int(),
        takenBack: z.boolean(),
      }),
    ),
    next: z.string().nullable(),
    number: z.int(),
  })
  .meta({ id: 'ManifestList', description: 'Newest first.' });
export type ManifestListView = z.infer<typeof ManifestListView>;

const Acceptance = z.object({
  factId: z.string(),
  at: z.string(),
  by: z.string().nullable(),
  accepted: MassView,
  acceptedGrams: z.int(),
  found: z.enum(ACCEPTED_AS),
  told: z.string().nullable(),
  why: z.string().nullable(),
  after: z.enum(CYLINDER_AFTER),
});
const ManifestLine = z.object({
  cylinderId: z.string(),
  serial: z.string(),
  label: z.string().nullable(),
  kind: z.enum(['disposable', 'refillable', 'recovery']),
  specification: z.string(),
  gross: MassView,
  tareGrams: z.int(),
  netGrams: z.int(),
  booked: z
    .array(z.object({ refrigerant: z.string(), grams: z.int() }))
    .meta({ description: 'What the books had in it when it left, the most first.' }),
  owners: z.array(z.string()),
  states: z.array(z.string()),
  acceptance: Acceptance.nullable().meta({ description: 'What stands, where it was told more than once.' }),
});
export type ManifestLine = z.infer<typeof ManifestLine>;
export const ManifestView = z
  .object({
    id: z.string(),
    contractor: z.string(),
    timeZone: z.string(),
    at: z.string(),
    by: z.string().nullable(),
    purpose: Purpose,
    receiver: z.object({ id: z.string(), name: z.string() }),
    certificate: z.string().nullable(),
    carrier: z.string(),
    reference: z.string().nullable(),
    note: z.string().nullable(),
    takenBack: z.object({ at: z.string(), by: z.string().nullable(), why: z.string() }).nullable(),
    lines: z.array(ManifestLine),
    madeAt: z.string(),
    number: z.int(),
  })
  .meta({ id: 'Manifest' });
export type ManifestView = z.infer<typeof ManifestView>;
