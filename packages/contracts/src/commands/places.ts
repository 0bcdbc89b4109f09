/** What the office learns later about a place and its equipment, and what it put down wrongly at the call. */
import { EQUIPMENT, SUBSECTORS, USES } from '@ullage/rulebook';
import { add, compare, exactGrams, multiply, parseMass, rational } from '@ullage/units';
import * as z from 'zod';
import { Coordinates, dayText, Elevation, Id, mass, type Mass, note, optionalText, text } from '../primitives.ts';

export const FULL_CHARGE_METHODS = ['manufacturer', 'calculated', 'measured', 'range'] as const;

const ENDS = 'Full charge: a range needs both ends, as 200 to 240 lb.';
type Entry = { mass: Mass; low?: Mass | undefined; high?: Mass | undefined };
type Fault = readonly [path: keyof Entry, message: string];

/** What is wrong with a range whose masses are masses. */
function rangeFault({ mass: midpoint, low, high }: Entry): Fault | undefined {
  if (!low || !high) return [low ? 'high' : 'low', ENDS];
  if (low.unit !== high.unit || low.unit !== midpoint.unit)
    return ['high', 'Full charge: give both ends and the midpoint in one unit.'];
  const [least, most] = [exactGrams(low), exactGrams(high)];
  if (compare(least, most) >= 0) return ['high', 'Upper end of the range: must be more than the lower end.'];
  const isHalf = compare(multiply(exactGrams(midpoint), rational(2n)), add(least, most)) === 0;
  return isHalf ? undefined : ['mass', 'Full charge: of a range the midpoint counts; give that.'];
}
function endsFault({ low, high }: Entry): Fault | undefined {
  if (!low && !high) return undefined;
  return [low ? 'low' : 'high', 'Full charge: ends belong to a range; choose it, or leave them out.'];
}

/** A range is kept with its ends; the midpoint is what counts (40 CFR 82.152 and 84.102, "Full charge"). */
export const FullChargeEntry = z
  .strictObject({
    mass: mass('Full charge', { positive: true, atMostKg: 50_000 }),
    method: z.enum(FULL_CHARGE_METHODS, { error: 'Full charge: say where the figure comes from.' }),
    low: mass('Lower end of the range', { positive: true, atMostKg: 50_000 }).optional(),
    high: mass('Upper end of the range', { positive: true, atMostKg: 50_000 }).optional(),
  })
  .superRefine((entry, context) => {
    // What is no mass at all has been refused by its own field.
    if ([entry.low, entry.high, entry.mass].some((one) => one && !parseMass(one).ok)) return;
    const fault = entry.method === 'range' ? rangeFault(entry) : endsFault(entry);
    if (fault) context.addIssue({ code: 'custom', path: [fault[0]], message: fault[1] });
  });

/** A circuit's full charge from a day on: a new figure stands beside the old ones, it replaces none. */
export const SetFullCharge = z
  .strictObject({ circuitId: Id, fromOn: dayText('Holds from'), fullCharge: FullChargeEntry })
  .meta({
    id: 'SetFullCharge',
    description: 'A new full charge of a circuit, from a day on; the law is worked out anew.',
  });

const atLeastOne = (body: object): boolean => Object.keys(body).length > 2;
const NOTHING = { error: 'Nothing is changed: give what is different.' };
/** Decisions about a circuit that the law asks somebody to make; who made it and why is kept. */
export const DescribeCircuit = z
  .strictObject({
    circuitId: Id,
    why: text('Why', { min: 3, max: 400 }),
    use: z.enum(USES, { error: 'Use: choose one, as commercial refrigeration.' }).optional(),
    equipment: z.enum(EQUIPMENT, { error: 'Equipment: choose one from the list.' }).optional(),
    subsector: z.enum(SUBSECTORS, { error: 'Subsector: choose one, or none.' }).optional(),
    installedOn: dayText('Installed on').optional(),
  })
  .refine(atLeastOne, NOTHING)
  .meta({
    id: 'DescribeCircuit',
    description: 'Use, kind of equipment, subsector and start of a circuit, with the reason.',
  });

/** The contact and access text replace what stood; what is left out stays as it is. */
export const DescribeSite = z
  .strictObject({
    siteId: Id,
    name: optionalText('Site name', { max: 120 }),
    address: optionalText('Site address', { max: 300 }),
    elevationM: Elevation.optional(),
    coordinates: Coordinates.optional(),
    accessNotes: note('Access'),
    contact: z
      .strictObject({ name: text('Contact', { max: 120 }), phone: optionalText('Phone', { max: 40 }) })
      .optional(),
  })
  .refine((body) => Object.keys(body).length > 1, NOTHING)
  .meta({ id: 'DescribeSite', description: 'What is known of a site: height, place on the map, access, contact.' });
