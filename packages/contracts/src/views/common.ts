import * as z from 'zod';
import { PhotoView } from '../photos.ts';
import { MASS_UNITS } from '@ullage/units';

/** A mass as it is shown: as entered where somebody entered it, and in whole grams where the books have it. */
export const MassView = z.object({ value: z.string(), unit: z.enum(MASS_UNITS) }).meta({ id: 'Mass' });
export const Reason = z.object({ text: z.string(), source: z.string() }).meta({ id: 'Reason' });
/** One standard deviation of an instrument's readings, in its own unit; null where nobody said. */
export const Repeatability = z.object({ value: z.number(), unit: z.string() }).nullable();
export const PersonRef = z.object({ id: z.string(), name: z.string() }).meta({ id: 'PersonRef' });
/** Somebody who did the work, with what they were certified for on the day. */
export const Certified = PersonRef.extend({ certificates: z.string() }).meta({ id: 'Certified' });
export type Certified = z.infer<typeof Certified>;

/** The fact behind a number or a duty, and the record whose page shows it: its visit, else its cylinder or unit. */
export const FactLink = z
  .object({
    id: z.string(),
    title: z.string(),
    summary: z.string(),
    happenedAt: z.string(),
    visitId: z.string().nullable(),
    cylinderId: z.string().nullable(),
    unitId: z.string().nullable(),
    circuitLetter: z.string().nullable(),
  })
  .meta({ id: 'FactLink' });
export type FactLink = z.infer<typeof FactLink>;

export const DutyView = z
  .object({
    id: z.string(),
    key: z.string(),
    kind: z.string(),
    title: z.string(),
    rulebook: z.string(),
    clause: z.string(),
    responsible: z.string(),
    opensAt: z.string().nullable(),
    dueAt: z
      .string()
      .nullable()
      .meta({ description: 'The first instant after the last legal day; null until it can be known.' }),
    dueOn: z.string().nullable(),
    provisional: z.boolean(),
    state: z.enum(['open', 'discharged', 'discharged-late', 'withdrawn', 'suspended', 'not-yet-known']),
    why: z.string(),
    flags: z.array(z.string()),
    dischargedBy: z.array(FactLink).meta({ description: 'The evidence that discharged it.' }),
    visitId: z.string().nullable().meta({ description: 'The return visit proposed or placed for it.' }),
  })
  .meta({ id: 'Duty' });
export type DutyView = z.infer<typeof DutyView>;

export const CalculationView = z
  .object({
    id: z.string(),
    number: z.int(),
    rulebook: z.string(),
    rulebookTitle: z.string(),
    rulebookVersion: z.string(),
    method: z.string(),
    onDay: z.string(),
    leakMass: MassView,
    fullCharge: MassView,
    days: z.int(),
    substituted: z.boolean(),
    ratePercent: z.string().meta({ description: 'Two places, for reading; the verdict compares the exact fraction.' }),
    exact: z.string(),
    thresholdPercent: z.number(),
    over: z.boolean(),
    alternative: z
      .object({
        leakMass: MassView.meta({
          description: 'All that went in, with what was recovered at the visit and put back.',
        }),
        exact: z.string(),
        ratePercent: z.string(),
        over: z.boolean(),
        why: z.string(),
      })
      .nullable()
      .meta({ description: 'The reading by gross weight, where it differs from the net.' }),
    clause: z.string(),
    flags: z.array(z.string()),
    reasons: z.array(Reason),
    standing: z.boolean().meta({ description: 'False once a corrected fact made a newer one.' }),
    madeAt: z.string(),
  })
  .meta({ id: 'Calculation' });
export type CalculationView = z.infer<typeof CalculationView>;

export const HeadroomView = z
  .object({
    mass: MassView,
    grams: z.int(),
    thresholdPercent: z.number(),
    onDay: z.string(),
    reasons: z.array(Reason),
    clause: z.string(),
  })
  .meta({ id: 'Headroom' });
export type HeadroomView = z.infer<typeof HeadroomView>;

export const AdditionView = z
  .object({
    factIds: z.array(z.string()),
    day: z.string(),
    mass: MassView.nullable().meta({ description: 'Net of the visit; null when it was never weighed.' }),
    grams: z.int().nullable(),
    kind: z.enum(['top-off', 'at-repair', 'past', 'no-top-off']).meta({
      description: 'At a repair that was verified there; or seasonal, a first charge, a change of gas.',
    }),
    reason: z.string().meta({ description: 'Why it counts as a top-off, or not.' }),
    by: z.string(),
    visitId: z.string().nullable(),
  })
  .meta({ id: 'Addition' });
export const LeakPointView = z
  .object({
    id: z.string(),
    label: z.string(),
    place: z.string(),
    placeText: z.string(),
    where: z.string(),
    lowGramsPerYear: z.number().nullable(),
    highGramsPerYear: z.number().nullable(),
    state: z.enum(['open', 'repaired', 'verified', 'deferred', 'declined']),
    foundOn: z.string(),
    changedOn: z.string(),
  })
  .meta({ id: 'LeakPoint' });
export type LeakPointView = z.infer<typeof LeakPointView>;
export const LookView = z
  .object({
    id: z.string(),
    day: z.string(),
    placesText: z.array(z.string()),
    where: z.string().nullable(),
    methodText: z.string(),
    instrument: z.string().nullable(),
    sensitivityGramsPerYear: z.number().nullable(),
    unitState: z.string(),
    result: z.enum(['clear', 'hit', 'found', 'could-not-reach']),
    inDoubt: z.boolean(),
    why: z.string().nullable(),
    by: z.string(),
    visitId: z.string().nullable(),
  })
  .meta({ id: 'Look' });
export type LookView = z.infer<typeof LookView>;
/** A recorded fact as it stands in a visit or a unit's history. */
export const FactView = z
  .object({
    id: z.string(),
    kind: z.string(),
    title: z.string(),
    summary: z.string(),
    circuitId: z.string().nullable(),
    happenedAt: z.string(),
    recordedAt: z.string(),
    by: z.string(),
    correctsId: z.string().nullable(),
    correctedById: z.string().nullable(),
    photos: z.array(PhotoView),
    body: z.record(z.string(), z.unknown()),
  })
  .meta({ id: 'Fact' });
export type FactView = z.infer<typeof FactView>;
