import { REMOVED_PARTS } from '@ullage/rulebook';
import * as z from 'zod';
import {
  AdditionView,
  Certified,
  DutyView,
  FactView,
  HeadroomView,
  LeakPointView,
  LookView,
  MassView,
  Repeatability,
} from './common.ts';
import { OVERRIDE_RULES } from '../commands/desk.ts';
import { SearchFacts } from '../sums/search.ts';
import { SiteView } from './units.ts';

const Placed = z.object({
  personId: z.string(),
  name: z.string(),
  certificates: z.string(),
});
export const VisitHead = z
  .object({
    id: z.string(),
    purpose: z.enum(['call', 'follow-up', 'inspection', 'repair']),
    purposeText: z.string(),
    state: z.enum(['proposed', 'placed', 'on-site', 'done', 'cancelled']),
    version: z.int(),
    symptom: z.string().nullable(),
    startsAt: z.string().nullable(),
    minutes: z.int(),
    opensAt: z.string().nullable(),
    dueAt: z.string().nullable(),
    startedAt: z.string().nullable(),
    finishedAt: z.string().nullable(),
    people: z.array(Placed),
    overrides: z
      .array(z.object({ rule: z.enum(OVERRIDE_RULES), reason: z.string() }))
      .meta({ description: 'Our own rules that the placing bends, each with its reason.' }),
    circuitTags: z.array(z.string()),
    siteName: z.string(),
    customerName: z.string(),
    timeZone: z.string(),
  })
  .meta({ id: 'VisitHead' });
export type VisitHead = z.infer<typeof VisitHead>;

/** A technician's day, or the calls not yet placed. */
export const VisitListView = z.object({ items: z.array(VisitHead), now: z.string() }).meta({ id: 'VisitList' });
export type VisitListView = z.infer<typeof VisitListView>;

/** What a technician sees before opening the unit: never more than three of each, with how many more there are. */
const few = <T extends z.ZodType>(item: T) => z.object({ items: z.array(item).max(3), more: z.int() });
export const GlanceView = z
  .object({
    circuitId: z.string(),
    tag: z.string(),
    refrigerant: z.string(),
    fullCharge: MassView,
    additions: few(AdditionView),
    leakPoints: few(LeakPointView),
    clearLooks: few(LookView),
    headroom: HeadroomView.nullable(),
    headroomWhyNot: z.string().nullable(),
    search: SearchFacts.meta({ description: 'What "where to look next" is worked out from, on the phone as well.' }),
  })
  .meta({ id: 'Glance' });
export type GlanceView = z.infer<typeof GlanceView>;

export const Branch = z
  .object({
    state: z.enum(['liquid-present', 'vapour-only', 'empty', 'above-saturation', 'cannot-tell']),
    title: z.string(),
    next: z.string(),
    dewKpa: z.number().nullable(),
    bubbleKpa: z.number().nullable(),
    readKpa: z.number(),
  })
  .meta({ id: 'Branch', description: 'What the first readings say about the charge, and how to go on.' });

/** What the law asks of the recovery, and what going lower risks, before the act. */
export const EvacuationAdvice = z
  .object({
    levelText: z.string(),
    levelKpa: z.number().nullable(),
    levelPsig: z.number().nullable(),
    siteKpa: z.number(),
    clause: z.string(),
    major: z.boolean(),
    risk: z.string().nullable(),
  })
  .meta({ id: 'EvacuationAdvice' });

export type EvacuationAdvice = z.infer<typeof EvacuationAdvice>;
/** The recovery that is about to be done, as far as the law's level depends on it. */
export const EvacuationQuery = z.object({
  circuitId: z.uuidv7(),
  part: z.enum(['whole', 'isolated']),
  openLeak: z.stringbool(),
  removes: z.enum(REMOVED_PARTS).optional(),
  openingSquareInches: z.coerce.number().nonnegative().optional(),
  openMinutes: z.coerce.number().nonnegative().optional(),
  evacuateAfter: z.stringbool(),
  machineMadeOn: z.iso.date().optional(),
});
export type EvacuationQuery = z.output<typeof EvacuationQuery>;

export const VisitView = z
  .object({
    visit: VisitHead,
    site: SiteView,
    glances: z.array(GlanceView),
    leakPoints: z.array(LeakPointView.extend({ circuitId: z.string() })),
    facts: z.array(FactView).meta({ description: 'All that was recorded at this visit, oldest first.' }),
    branch: Branch.nullable(),
    explains: z.string().nullable().meta({ description: 'Whether what was found explains what is gone.' }),
    duties: z.array(DutyView),
    asks: z.array(z.object({ code: z.string(), text: z.string() })),
    instruments: z.array(
      z.object({
        id: z.string(),
        kind: z.string(),
        tag: z.string(),
        senseGramsPerYear: z.number().nullable(),
        repeatability: Repeatability,
      }),
    ),
    outcome: z
      .object({ ratePercent: z.string(), over: z.boolean(), text: z.string(), calculationId: z.string() })
      .nullable(),
    now: z.string(),
    number: z.int(),
  })
  .meta({ id: 'VisitPage' });
export type VisitView = z.infer<typeof VisitView>;

/**
 * What the contractor hands over: items (i) to (vi) of 40 CFR 82.157(l)(2) and 84.106(l)(2), the inspections and the
 * tests. Full charge and rate, (vii) and (viii), are the owner's and are left out.
 */
export const ServiceRecordView = z
  .object({
    contractor: z.string(),
    visitId: z.string(),
    site: SiteView,
    units: z.array(z.object({ tag: z.string(), description: z.string().nullable(), refrigerant: z.string() })),
    clauses: z.array(z.string()).meta({ description: 'The rules under which it is handed over.' }),
    days: z.array(z.string()).meta({ description: 'Every day on which something was done.' }),
    technicians: z.array(Certified),
    parts: z
      .array(z.object({ circuitTag: z.string(), part: z.string(), work: z.string(), by: z.string() }))
      .meta({ description: 'Each part with each kind of work done on it, in the order it was done.' }),
    gas: z.array(
      z.object({
        circuitTag: z.string(),
        refrigerant: z.string(),
        direction: z.enum(['added', 'removed']),
        mass: MassView,
        grams: z.int(),
        cylinder: z.string(),
      }),
    ),
    gasTotals: z
      .array(
        z.object({
          circuitTag: z.string(),
          refrigerant: z.string(),
          added: MassView,
          removed: MassView,
          net: MassView.extend({ direction: z.enum(['added', 'removed']) }),
        }),
      )
      .meta({ description: 'Per circuit, exactly as weighed; the grams of the books are rounded at each weighing.' }),
    tests: z.array(
      z.object({
        circuitTag: z.string(),
        kind: z.string(),
        at: z.string(),
        where: z.string(),
        method: z.string(),
        result: z.string(),
        by: z.string(),
      }),
    ),
    inspections: z.array(
      z.object({
        circuitTag: z.string(),
        at: z.string(),
        methods: z.string(),
        result: z.string(),
        leaking: z.array(z.string()).meta({ description: 'Places where a leak was located.' }),
        inaccessible: z.array(z.string()),
        certified: z.boolean(),
        by: z.string(),
      }),
    ),
    statements: z.array(z.object({ circuitTag: z.string(), at: z.string(), by: z.string() })),
    corrections: z.array(z.object({ at: z.string(), why: z.string() })),
    madeAt: z.string(),
  })
  .meta({ id: 'ServiceRecord' });
export type ServiceRecordView = z.infer<typeof ServiceRecordView>;
