import { GWP_SETS } from '@ullage/rulebook';
import * as z from 'zod';
import { MassView } from './common.ts';

/** How the repeat list may be ordered: by what the interval proves, by gas, or by its cost. */
export const REPEAT_ORDERS = ['evidence', 'gas', 'cost'] as const;
export type RepeatOrder = (typeof REPEAT_ORDERS)[number];

const YearlyRateView = z
  .object({
    perYear: z.number(),
    lowerPerYear: z.number(),
    upperPerYear: z.number(),
    confidence: z.number(),
  })
  .meta({ id: 'YearlyRate', description: 'Top-offs a year with exact Poisson limits.' });

/** One addition of the window: whether it counts, why, and what it rests on. */
export const JudgedAdditionView = z
  .object({
    day: z.string(),
    visitId: z.string().nullable(),
    factIds: z.array(z.string()).meta({ description: 'Every fact the net rests on, recoveries included.' }),
    grams: z.int().nullable().meta({ description: 'Net of the visit; null when it was never weighed.' }),
    topOff: z.boolean(),
    reason: z.string(),
    price: z
      .object({ amount: z.string(), unit: z.enum(['lb', 'kg']), fromOn: z.string() })
      .nullable()
      .meta({ description: 'The purchase price in force on the day; null where there is none.' }),
    cost: z.string().nullable().meta({ description: 'Null without a mass or a price; never zero for that.' }),
  })
  .meta({ id: 'JudgedAddition' });
export type JudgedAdditionView = z.infer<typeof JudgedAdditionView>;

export const ReplacementPlanView = z
  .object({
    id: z.string(),
    reason: z.string(),
    byOn: z.string().nullable(),
    plannedBy: z.string(),
    plannedAt: z.string(),
  })
  .meta({ id: 'ReplacementPlan' });
export type ReplacementPlanView = z.infer<typeof ReplacementPlanView>;

/** Which circuit, as every list of the manager names it. */
const CircuitNamed = z.object({
  circuitId: z.string(),
  unitId: z.string(),
  letter: z.string(),
  tag: z.string(),
  description: z.string().nullable(),
  site: z.string(),
  customer: z.string(),
  refrigerant: z.string(),
  fullCharge: MassView.nullable(),
});

export const RepeatRow = CircuitNamed.extend({
  topOffs: z.int(),
  watched: z.object({
    firstDay: z.string(),
    days: z.int(),
    shortened: z.boolean().meta({ description: 'The circuit became known inside the window.' }),
  }),
  rate: YearlyRateView,
  additions: z.array(JudgedAdditionView).meta({ description: 'Of the window, oldest first.' }),
  grams: z.int().nullable().meta({ description: 'What the top-offs put in; with `unweighed` it is at least this.' }),
  unweighed: z.int(),
  sharePercent: z.number().nullable(),
  cost: z
    .object({ amount: z.string().nullable(), unpriced: z.int() })
    .meta({ description: 'At purchase prices; with `unpriced` above zero it is at least this.' }),
  gwp: z
    .object({ value: z.string(), leftOut: z.array(z.string()) })
    .nullable()
    .meta({ description: 'Null where the set has no figure for this refrigerant.' }),
  co2eKg: z.int().nullable(),
  next: z
    .object({ earliest: z.string(), latest: z.string(), percent: z.int(), assumption: z.string() })
    .nullable()
    .meta({ description: 'Days between which the next top-off is to be expected.' }),
  duties: z.array(
    z.object({ id: z.string(), title: z.string(), dueOn: z.string().nullable(), state: z.enum(['open', 'suspended']) }),
  ),
  plan: ReplacementPlanView.nullable(),
}).meta({ id: 'RepeatRow' });
export type RepeatRow = z.infer<typeof RepeatRow>;

/** The manager's ranking of circuits that are topped off again and again. */
export const RepeatsView = z
  .object({
    window: z.object({ firstDay: z.string(), lastDay: z.string(), months: z.int() }),
    gwpSet: z.enum(GWP_SETS),
    order: z.enum(REPEAT_ORDERS),
    currency: z.string(),
    fleet: z
      .object({ circuits: z.int(), topOffs: z.int(), rate: YearlyRateView.nullable() })
      .meta({ description: 'All circuits together, over the time each was watched.' }),
    total: z.int().meta({ description: 'Circuits with a top-off in the window.' }),
    items: z.array(RepeatRow),
    next: z.string().nullable(),
    number: z.int(),
  })
  .meta({ id: 'Repeats' });
export type RepeatsView = z.infer<typeof RepeatsView>;

const SizeView = z.object({
  grams: z.int(),
  from: z.array(z.object({ factIds: z.array(z.string()), day: z.string(), visitId: z.string().nullable() })),
});
/** Circuits that one more addition of the usual size would take over the legal threshold. */
export const OneAwayView = z
  .object({
    items: z.array(
      CircuitNamed.extend({
        onDay: z.string(),
        thresholdPercent: z.number(),
        headroomGrams: z.int(),
        usual: SizeView.meta({ description: 'The median addition, and the one or two it was taken from.' }),
        largest: SizeView,
        reachedBy: z.enum(['usual', 'largest']),
        overGrams: z.int(),
        clause: z.string(),
      }),
    ),
    total: z.int(),
  })
  .meta({ id: 'OneAway' });
export type OneAwayView = z.infer<typeof OneAwayView>;
