/** What happened to a circuit, as the law sums read it. */
import * as z from 'zod';
import { dayText, instantText, text } from '../primitives.ts';
import { choice, lawMass, object, quantity, yesNo } from './fields.ts';

const id = (label: string) => text(label, { max: 100 });
const ids = (label: string) => z.array(id(label), { error: `${label}: give a list of ids.` }).max(200);

const when = z
  .union(
    [
      instantText('Time of the event'),
      object('Time of the event', {
        on: dayText('Day of the event'),
        seq: z.int({ error: 'Order in the day: give a whole number.' }),
      }),
    ],
    { error: 'Time of the event: give an instant with offset, or a day: {"on": "2026-03-20", "seq": 1}.' },
  )
  .meta({ description: 'An instant with offset, or a day and its order in that day' });

const happened = { id: id('Event id'), at: when, visit: id('Visit').optional() };
const by = choice('By', ['us', 'other']).optional();
const result = choice('Result', ['pass', 'fail']);
/** Null when nobody knows it: then the event counts for days only. */
const moved = lawMass('Mass').nullable();

const statement = <const Kind extends string>(kind: Kind) => object('Event', { ...happened, kind: z.literal(kind) });

const fullChargeMethod = choice('Method of the full charge', ['manufacturer', 'calculated', 'measured', 'range']);
export const fullChargeFields = {
  mass: lawMass('Full charge', { positive: true }),
  method: fullChargeMethod.optional(),
  low: lawMass('Low end of the full charge').optional(),
  high: lawMass('High end of the full charge').optional(),
};

const gas = [
  object('Addition', {
    ...happened,
    kind: z.literal('addition'),
    mass: moved,
    seasonal: yesNo('Seasonal').optional(),
    retrofit: yesNo('Retrofit').optional(),
    installation: yesNo('Installation').optional(),
    sameLeakAs: id('Same leak as').optional(),
    by,
  }),
  object('Removal', {
    ...happened,
    kind: z.literal('removal'),
    mass: moved,
    seasonal: yesNo('Seasonal').optional(),
    by,
  }),
  object('Purge', {
    ...happened,
    kind: z.literal('purged'),
    mass: lawMass('Mass purged'),
    destroyedPercent: quantity('Part destroyed', { unit: '%', min: 0, max: 100 }),
    noticedOn: dayText('Day of the notice').optional(),
  }),
  object('Full charge', { ...happened, kind: z.literal('full-charge'), ...fullChargeFields }),
] as const;

const leaks = [
  object('Leak found', {
    ...happened,
    kind: z.literal('leak-found'),
    leakId: id('Leak'),
    place: text('Place').optional(),
  }),
  object('Repair', {
    ...happened,
    kind: z.literal('repair'),
    leakId: id('Leak'),
    evacuated: yesNo('Evacuated'),
  }),
  object('Verification', {
    ...happened,
    kind: z.enum(['initial-verification', 'follow-up-verification']),
    leakIds: ids('Leaks'),
    result,
  }),
  object('Inspection', {
    ...happened,
    kind: z.literal('inspection'),
    result,
    leakIds: ids('Leaks').optional(),
    inaccessible: text('What could not be reached', { max: 4000 }).optional(),
  }),
] as const;

const papers = [
  object('Part due', {
    ...happened,
    kind: z.literal('part-due'),
    on: dayText('Day of delivery'),
    delivered: yesNo('Delivered').optional(),
    leakIds: ids('Leaks'),
  }),
  object('Extension', {
    ...happened,
    kind: z.literal('extension'),
    requestedOn: dayText('Day of the request'),
    grantedUntilOn: dayText('Granted until').optional(),
    reason: text('Reason', { max: 4000 }),
  }),
  object('Plan', {
    ...happened,
    kind: z.literal('plan'),
    planKind: choice('Kind of plan', ['retrofit', 'retirement']),
    on: dayText('Date of the plan'),
    completeOn: dayText('Complete on').optional(),
  }),
  object('Relief request', {
    ...happened,
    kind: z.literal('relief-request'),
    on: dayText('Day of the request'),
    answeredOn: dayText('Answered on').optional(),
    granted: yesNo('Granted').optional(),
  }),
  object('Chronic leak report', {
    ...happened,
    kind: z.literal('chronic-report'),
    year: z.int({ error: 'Year: give four digits, as 2026.' }).min(1990).max(2200),
  }),
  object('Running hours', {
    ...happened,
    kind: z.literal('running-hours'),
    hours: quantity('Running hours', { unit: 'h', min: 0, max: 10_000_000 }),
  }),
] as const;

const statements = [
  statement('normal-operation'),
  statement('shutdown-needed'),
  statement('mothball'),
  statement('return-to-service'),
  statement('retrofit'),
  statement('installation'),
  statement('retired'),
  statement('owner-told'),
  statement('owner-declined'),
  statement('detection-alarm'),
  statement('detection-audit'),
] as const;

export const CircuitEvents = z
  .array(
    z.discriminatedUnion('kind', [...gas, ...leaks, ...papers, ...statements], {
      error: 'Kind of event: give one that is known here, such as addition, repair or inspection.',
    }),
    { error: 'Events: give a list of events; it may be empty.' },
  )
  .max(5000, { error: 'Events: give at most 5,000.' });
