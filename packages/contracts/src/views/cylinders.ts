import * as z from 'zod';
import { MassView } from './common.ts';
import { StatementLine } from './statement.ts';

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
/** Where a cylinder was last on a scale: nobody says where it stands, but everybody weighs it. */
const LastWeighed = z.object({
  at: z.string(),
  by: z.string().nullable(),
  site: z.string().nullable().meta({ description: 'Null when it was not at a visit.' }),
  visitId: z.string().nullable(),
});
const CylinderItem = CylinderHead.extend({
  alsoHolds: z.array(z.string()).meta({ description: 'Further gases in it: it is mixed.' }),
  lastWeighed: LastWeighed.nullable(),
}).meta({ id: 'CylinderItem' });
export const DOUBT_ASKED = ['doubted', 'undoubted'] as const;
/** Asked of the list as `gas`: nothing is in it. */
export const EMPTY_CYLINDERS = 'empty';
export const CylinderListView = z
  .object({
    items: z.array(CylinderItem),
    next: z.string().nullable(),
    gases: z.array(z.string()).meta({ description: 'What the list can be asked for as `gas`: every gas held now.' }),
    places: z
      .array(z.object({ id: z.string(), name: z.string() }))
      .meta({ description: 'What the list can be asked for as `site`: where a cylinder was last weighed.' }),
  })
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
    accountId: z.string(),
    movements: z.array(StatementLine).meta({ description: 'The latest, oldest first; the rest is in the statement.' }),
    moreMovements: z.boolean(),
    number: z.int(),
  })
  .meta({ id: 'CylinderPage' });
export type CylinderView = z.infer<typeof CylinderView>;
