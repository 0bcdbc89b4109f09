import * as z from 'zod';
import { MassView } from './common.ts';

export const CylinderHead = z
  .object({
    id: z.string(),
    serial: z.string(),
    label: z.string().nullable(),
    kind: z.enum(['disposable', 'refillable', 'recovery']),
    specification: z.string(),
    refrigerant: z.string().nullable(),
    netGrams: z.int(),
    doubtText: z.string().nullable(),
    owner: z.string().nullable().meta({ description: 'A customer, or null for the contractor.' }),
  })
  .meta({ id: 'CylinderHead' });
export const CylinderListView = z
  .object({ items: z.array(CylinderHead), next: z.string().nullable() })
  .meta({ id: 'CylinderList' });
export type CylinderListView = z.infer<typeof CylinderListView>;

export const CylinderView = z
  .object({
    cylinder: CylinderHead,
    waterCapacityKg: z.number(),
    tare: MassView,
    tareGrams: z.int(),
    servicePressurePsig: z.number().nullable(),
    testedMonth: z.string().nullable(),
    requalifyBy: z.string().nullable(),
    contents: z.array(
      z.object({ refrigerant: z.string(), grams: z.int(), owner: z.string().nullable(), state: z.string() }),
    ),
    grossLimitKg: z.number().nullable(),
    roomKg: z.number().nullable(),
    limitText: z.string().nullable(),
    mayFill: z.boolean(),
    whyNot: z.array(z.object({ code: z.string(), text: z.string(), clause: z.string().nullable() })),
    doubts: z.array(
      z.object({
        cause: z.string(),
        title: z.string(),
        text: z.string(),
        visitId: z.string().nullable(),
        lowGrams: z.number().nullable(),
        highGrams: z.number().nullable(),
        minutes: z.number().nullable(),
        blocks: z.boolean(),
        at: z.string(),
      }),
    ),
    movements: z.array(
      z.object({
        id: z.string(),
        at: z.string(),
        direction: z.enum(['in', 'out']),
        grams: z.int(),
        other: z.string(),
        cause: z.string(),
        corrected: z.boolean(),
      }),
    ),
    number: z.int(),
  })
  .meta({ id: 'CylinderPage' });
export type CylinderView = z.infer<typeof CylinderView>;
