/** Sums of the leak search: the bare theory, and where to look next on a circuit. */
import { EQUIPMENT_KINDS, INSTRUMENT_CLASSES, LEAK_PLACES, LOOK_METHODS, SIGNS, UNIT_STATES } from '@ullage/trail';
import * as z from 'zod';
import { instantText, text } from '../primitives.ts';
import { choice, object, quantity, Reasons, yesNo } from './fields.ts';

const keys = <const T extends readonly { readonly id: string }[]>(rows: T) =>
  rows.map(({ id }) => id) as unknown as readonly [T[number]['id'], ...T[number]['id'][]];
const list = <T extends z.ZodType>(label: string, item: T, most: number) =>
  z.array(item, { error: `${label}: give a list.` }).max(most, { error: `${label}: give at most ${most}.` });

const minutes = () => quantity('Minutes', { unit: 'min', above: 0, max: 1e6 });
const chance = () => quantity('Chance found', { unit: '', min: 0, max: 1 });
const weight = (label: string) => quantity(label, { unit: '', min: 0, max: 1e9 });

/** Letters or digits first, so that no id means something to a program. */
const id = (label: string) => {
  const error = `${label}: give an id of at most 100 characters, beginning with a letter or digit.`;
  return z
    .string({ error })
    .max(100, { error })
    .regex(/^[\p{L}\p{N}]/u, { error });
};
export const ELSEWHERE_ID = 'elsewhere';

const SearchPlace = object('Place', {
  id: id('Place'),
  prior: weight('Prior').meta({ description: 'Relative weight; all, with elsewhere, are made to sum to one' }),
  clearLooks: z
    .int({ error: 'Clear looks: give a whole number.' })
    .min(0, { error: 'Clear looks: give zero or more.' })
    .max(100_000, { error: 'Clear looks: give at most 100,000.' })
    .optional()
    .meta({ description: 'By the look here; with several looks, by the first listed that covers the place' }),
  chanceFound: chance().optional().meta({ description: 'Short form: of the one look at this place' }),
  minutes: minutes().optional().meta({ description: 'Short form: of the one look at this place' }),
});
const SearchLook = object('Look', {
  id: id('Look'),
  minutes: minutes(),
  covers: list('Covers', object('Cover', { place: id('Place'), chanceFound: chance() }), 500),
  method: id('Method')
    .optional()
    .meta({ description: 'Looks of one method count once at a place, the best of them; its own id unless given' }),
  usable: yesNo('Usable').optional().meta({ description: 'False where a precondition fails: it finds nothing' }),
  whyNot: text('Why not', { max: 400 }).optional(),
});

interface AskedPlan {
  readonly places: readonly z.output<typeof SearchPlace>[];
  readonly looksAt?: readonly z.output<typeof SearchLook>[] | undefined;
}
type Fault = readonly [path: readonly (string | number)[], message: string];

const twice = (rows: readonly { readonly id: string }[], field: string, label: string): Fault[] =>
  rows.flatMap((row, i): Fault[] =>
    rows.findIndex(({ id: other }) => other === row.id) < i
      ? [[[field, i, 'id'], `${label}: this id is there twice; give each its own.`]]
      : [],
  );
const shortFaults = ({ places }: AskedPlan): Fault[] =>
  places.flatMap(({ chanceFound, minutes: of }, i): Fault[] => [
    ...(chanceFound === undefined
      ? [[['places', i, 'chanceFound'], 'Chance found: give it at each place, or give looksAt.'] as const]
      : []),
    ...(of === undefined
      ? [[['places', i, 'minutes'], 'Minutes: give them at each place, or give looksAt.'] as const]
      : []),
  ]);
function longFaults({ places, looksAt = [] }: AskedPlan): Fault[] {
  const known = new Set(places.map((place) => place.id));
  const unheard = looksAt.flatMap(({ covers }, i) =>
    covers.flatMap(({ place }, j): Fault[] => {
      const path = ['looksAt', i, 'covers', j, 'place'];
      if (!known.has(place)) return [[path, 'Place: covered, but not listed under places; list it.']];
      const isAgain = covers.findIndex((other) => other.place === place) < j;
      return isAgain ? [[path, 'Place: covered twice by one look; give it once.']] : [];
    }),
  );
  const both = places.flatMap((place, i): Fault[] =>
    place.chanceFound === undefined && place.minutes === undefined
      ? []
      : [[['places', i], 'Place: chance and minutes stand in looksAt; leave them out here.']],
  );
  return [...unheard, ...both];
}

export const SearchPlanInput = object('Search plan', {
  places: list('Places', SearchPlace, 500),
  looksAt: list('Looks', SearchLook, 500).optional(),
  elsewherePrior: weight('Elsewhere').optional().meta({ description: 'Elsewhere, or not leaking now; 0 unless given' }),
  repeats: choice('Repeats', ['independent', 'until-changed']).optional().meta({
    description:
      'independent (unless given): each repeat may find what the last missed; until-changed: a method counts once at a place',
  }),
  looks: z
    .int({ error: 'Looks: give how many to plan, a whole number.' })
    .min(0, { error: 'Looks: give zero or more.' })
    .max(200, { error: 'Looks: give at most 200.' })
    .meta({ description: 'How many to plan' }),
}).superRefine((asked, context) => {
  const faults = [
    ...twice(asked.places, 'places', 'Place'),
    ...twice(asked.looksAt ?? [], 'looksAt', 'Look'),
    ...(asked.looksAt === undefined ? shortFaults(asked) : longFaults(asked)),
  ];
  asked.places.forEach((place, i) => {
    if (place.id === ELSEWHERE_ID)
      faults.push([['places', i, 'id'], 'Place: elsewhere has its own field; give elsewherePrior.']);
  });
  for (const [path, message] of faults.slice(0, 50)) context.addIssue({ code: 'custom', path: [...path], message });
});

const chanceOut = z.number().min(0).max(1.000001);
export const SearchPlanOutput = z.strictObject({
  order: z.array(z.string()).meta({ description: 'Looks by id; ends where no look would find anything more' }),
  foundBy: z.array(z.strictObject({ minutes: z.number().min(0), chance: chanceOut })),
  posterior: z
    .record(z.string(), chanceOut)
    .meta({ description: 'After the clear looks; with "elsewhere" where that has a prior. Sums to one' }),
  notUsable: z.array(z.strictObject({ id: z.string(), whyNot: z.string() })),
  reasons: Reasons,
});

const place = () =>
  z.enum(keys(LEAK_PLACES), { error: 'Place: choose one of the leak places, as flare-nut or service-valve-core.' });
const method = () => choice('Method', keys(LOOK_METHODS));
const gramsAYear = (label: string) => quantity(label, { unit: 'g/year', min: 0, max: 1e9 });
const sense = () => quantity('Sensitivity', { unit: 'g/year', above: 0, max: 1e9 });
const unitState = () => choice('Unit', UNIT_STATES);
const kpaGauge = (label: string) => quantity(label, { unit: 'kPa gauge', min: -110, max: 100_000 });

const Conditions = object('Conditions', {
  flammable: yesNo('Flammable').optional(),
  inside: choice('Inside', ['refrigerant', 'nitrogen', 'trace-gas', 'vacuum']).optional(),
  pressureKpaGauge: kpaGauge('Pressure inside').optional(),
  saturationKpaGauge: kpaGauge('Saturation at ambient').optional(),
  detector: choice('Detector', keys(INSTRUMENT_CLASSES)).optional(),
  surface: choice('Surface', ['dry', 'wet']).optional(),
  wind: yesNo('Wind').optional(),
  dyeAllowed: yesNo('Dye allowed').optional(),
});
const Look = object('Look', {
  at: instantText('Time of the look'),
  earlierVisit: yesNo('Earlier visit'),
  places: list('Places', place(), 60),
  method: method(),
  instrumentId: id('Instrument').optional(),
  senseGramsPerYear: sense().optional(),
  unitState: unitState(),
  result: choice('Result', ['clear', 'hit', 'found', 'could-not-reach']),
});
const detector = {
  id: id('Detector'),
  tag: text('Tag', { max: 60 }),
  atHand: yesNo('At hand').meta({ description: 'Whether it can be taken for the next look' }),
  senseGramsPerYear: sense().optional(),
  checks: list(
    'Checks',
    object('Check', { at: instantText('Time of the check'), result: choice('Result', ['pass', 'adjusted', 'fail']) }),
    2000,
  ).meta({ description: 'Oldest first' }),
};
const Leak = object('Leak', {
  place: place(),
  lowGramsPerYear: gramsAYear('Size, low end').optional(),
  highGramsPerYear: gramsAYear('Size, high end').optional(),
}).refine(({ lowGramsPerYear = 0, highGramsPerYear = Infinity }) => lowGramsPerYear <= highGramsPerYear, {
  error: 'Size, high end: give at least the low end.',
  path: ['highGramsPerYear'],
});
const Loss = object('Loss', { low: gramsAYear('Loss, low end'), high: gramsAYear('Loss, high end') }).refine(
  ({ low, high }) => low <= high,
  { error: 'Loss, high end: give at least the low end.', path: ['high'] },
);

const FINDINGS = 'Findings: give counts by place, as {"flare-nut": 3}.';
const facts = {
  equipment: choice('Equipment', EQUIPMENT_KINDS),
  goneGramsPerYear: Loss.optional().meta({ description: 'What is lost, g/year; left out where nobody knows' }),
  findings: z
    .partialRecord(place(), z.int({ error: FINDINGS }).min(0, { error: FINDINGS }).max(1e6, { error: FINDINGS }), {
      error: FINDINGS,
    })
    .meta({ description: "The contractor's own confirmed leaks by place, on this kind of equipment" }),
  signs: list('Signs', object('Sign', { place: place(), sign: choice('Sign', keys(SIGNS)) }), 500),
  leaks: list('Leaks', Leak, 200).meta({ description: 'Found, and not known to be tight again' }),
  looks: list('Looks', Look, 1000),
  detectors: list('Detectors', object('Detector', detector), 100),
  unitState: unitState(),
  conditions: Conditions,
};
/** What a search stands on, with every part there. */
export const SearchFacts = z.strictObject(facts).meta({ id: 'SearchFacts' });
export type SearchFacts = z.output<typeof SearchFacts>;

export const WhereToLookInput = object('Where to look', {
  ...facts,
  findings: facts.findings.default({}),
  signs: facts.signs.default([]),
  leaks: facts.leaks.default([]),
  looks: facts.looks.default([]),
  detectors: list('Detectors', object('Detector', { ...detector, atHand: detector.atHand.default(true) }), 100).default(
    [],
  ),
  unitState: facts.unitState.default('off'),
  conditions: facts.conditions.default({}),
  looksToPlan: z
    .int({ error: 'Looks to plan: give a whole number.' })
    .min(1, { error: 'Looks to plan: give at least one.' })
    .max(60, { error: 'Looks to plan: give at most 60.' })
    .default(3),
});

export const WhereToLookOutput = z.strictObject({
  looks: z.array(
    z.strictObject({
      id: z.string(),
      words: z.string(),
      places: z.array(z.string()),
      method: z.string(),
      instrumentId: z.string().nullable(),
      minutes: z.number(),
      chance: chanceOut.meta({ description: 'That it shows the leak, those before it in the list having been clear' }),
      why: z.string(),
    }),
  ),
  places: z.array(z.strictObject({ place: z.string(), chance: chanceOut })),
  elsewhere: chanceOut.meta({ description: 'Elsewhere, or not leaking now' }),
  advice: z.string().nullable(),
  notNow: z.array(z.strictObject({ methods: z.array(z.string()), text: z.string(), hurts: z.boolean() })),
  lossGramsPerYear: z.number().min(0),
  reasons: Reasons,
});
