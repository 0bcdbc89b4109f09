import * as z from 'zod';
import {
  AdditionView,
  CalculationView,
  Certified,
  DutyView,
  FactLink,
  FactView,
  HeadroomView,
  LeakPointView,
  LookView,
  MassView,
  Reason,
} from './common.ts';
import { DoubtView } from './cylinders.ts';

export const SiteView = z
  .object({
    id: z.string(),
    name: z.string(),
    address: z.string(),
    timeZone: z.string(),
    elevationM: z.number(),
    elevationAssumed: z.boolean().meta({ description: 'Nobody gave it: sea level is taken.' }),
    coordinates: z.object({ latitude: z.number(), longitude: z.number() }).nullable(),
    barometerKpa: z.number(),
    accessNotes: z.string().nullable(),
    contact: z.object({ name: z.string(), phone: z.string().nullable() }).nullable(),
    customer: z.object({ id: z.string(), name: z.string() }),
    leakRateMethod: z.string(),
  })
  .meta({ id: 'Site' });

export const CircuitView = z
  .object({
    id: z.string(),
    tag: z.string().meta({ description: 'Unit tag and circuit letter, as 0417-A.' }),
    letter: z.string(),
    refrigerant: z.string(),
    use: z.string(),
    useText: z.string(),
    equipment: z.string(),
    subsector: z.string().nullable(),
    decision: z.string().nullable().meta({ description: 'Why use, equipment and subsector were decided so.' }),
    installedOn: z.string().nullable(),
    fullCharge: z.object({
      mass: MassView,
      methodText: z.string(),
      fromOn: z.string(),
      rangeText: z.string().nullable(),
    }),
    rulebooks: z.array(
      z.object({
        rulebook: z.string(),
        title: z.string(),
        version: z.string(),
        inScope: z.boolean(),
        why: z.string(),
        clause: z.string(),
      }),
    ),
    headroom: HeadroomView.nullable(),
    headroomWhyNot: z.string().nullable(),
    latest: CalculationView.nullable(),
    calculations: z.array(CalculationView),
    additions: z.array(AdditionView).meta({ description: 'Newest first.' }),
    leakPoints: z.array(LeakPointView),
    looks: z.array(LookView).meta({ description: 'Newest first.' }),
    events: z.array(FactView).meta({ description: 'Repairs, tests, inspections and statements, newest first.' }),
    duties: z.array(DutyView),
    explains: z
      .object({
        verdict: z.enum(['explains', 'explains-part', 'cannot-tell']),
        text: z.string(),
        lowPercent: z.number().nullable(),
        highPercent: z.number().nullable(),
        goneGramsPerYear: z.number().nullable(),
      })
      .nullable(),
    accountId: z.string().nullable().meta({ description: 'Its gas account.' }),
    balanceGrams: z.int(),
    mixed: z.boolean().meta({ description: 'More than 0.5 % by mass of another gas, by the books.' }),
    doubts: z.array(DoubtView),
  })
  .meta({ id: 'Circuit' });
export type CircuitView = z.infer<typeof CircuitView>;

export const UnitView = z
  .object({
    id: z.string(),
    tag: z.string(),
    description: z.string().nullable(),
    site: SiteView,
    circuits: z.array(CircuitView),
    visits: z.array(
      z.object({
        id: z.string(),
        purpose: z.string(),
        state: z.string(),
        at: z.string().nullable(),
        people: z.array(z.string()),
      }),
    ),
    now: z.string(),
    number: z.int(),
  })
  .meta({ id: 'UnitPage' });
export type UnitView = z.infer<typeof UnitView>;

export const UnitListView = z
  .object({
    items: z.array(
      z.object({
        unitId: z.string(),
        circuitId: z.string(),
        tag: z.string(),
        description: z.string().nullable(),
        site: z.string(),
        customer: z.string(),
        refrigerant: z.string(),
        fullCharge: MassView,
        rateText: z.string().nullable(),
        over: z.boolean().nullable(),
        nextDuty: z.object({ title: z.string(), dueOn: z.string(), dueAt: z.string() }).nullable(),
      }),
    ),
    next: z.string().nullable(),
  })
  .meta({ id: 'UnitList' });
export type UnitListView = z.infer<typeof UnitListView>;

/** What the call form offers as the caller is typed: known customers, sites and units. */
export const PlacesView = z
  .object({
    customers: z.array(z.object({ id: z.string(), name: z.string() })),
    sites: z.array(
      z.object({ id: z.string(), customerId: z.string(), name: z.string(), address: z.string(), timeZone: z.string() }),
    ),
    units: z.array(
      z.object({
        id: z.string(),
        siteId: z.string(),
        tag: z.string(),
        description: z.string().nullable(),
        circuits: z.array(
          z.object({
            id: z.string(),
            letter: z.string(),
            refrigerant: z.string(),
            fullCharge: MassView,
            use: z.string(),
          }),
        ),
      }),
    ),
  })
  .meta({ id: 'Places' });
export type PlacesView = z.infer<typeof PlacesView>;

/** The leak-rate sheet: one calculation with its reasoning, and what the law asks after it. For the owner or operator. */
export const LeakRateSheetView = z
  .object({
    calculation: CalculationView,
    contractor: z.string(),
    circuitTag: z.string(),
    unitText: z.string(),
    site: SiteView,
    useText: z.string(),
    fullChargeText: z.string(),
    refrigerant: z.string(),
    technicians: z.array(Certified).meta({ description: 'Who was there and weighed; nobody for what was only told.' }),
    facts: z.array(FactLink).meta({ description: 'The additions that count, oldest first.' }),
    duties: z.array(DutyView),
    certain: z.array(Reason).meta({ description: 'How sure this is: what is settled, what is our reading.' }),
    madeAt: z.string(),
  })
  .meta({ id: 'LeakRateSheet' });
export type LeakRateSheetView = z.infer<typeof LeakRateSheetView>;
