/** What the warehouse reports: cylinders that come in, change hands, and are put on a scale. */
import * as z from 'zod';
import { Id, mass, note, optionalText, text } from '../primitives.ts';
import { Refrigerant } from '../refrigerants.ts';

/** One cylinder of a delivery; what is not said of it is as for all. */
const DeliveredCylinder = z.strictObject({
  cylinderId: Id,
  serial: text('Serial', { max: 60 }),
  label: optionalText('Label', { max: 40 }),
  gross: mass('Gross weight', { positive: true, atMostKg: 4_000 }).optional().meta({
    description: 'As weighed on arrival; without it the tare and the net of the invoice count.',
  }),
});
const SERIALS = 'Cylinders: scan or type at least one serial.';

/** New or reclaimed gas from a supplier: all cylinders are alike, and all come in or none. */
export const RecordDelivery = z
  .strictObject({
    supplier: text('Supplier', { max: 120 }),
    note: note('Note'),
    locationId: Id.optional().meta({ description: 'Where they stand from now on.' }),
    refrigerant: Refrigerant,
    state: z.enum(['new', 'reclaimed'], { error: 'State of the gas: new or reclaimed.' }),
    kind: z.enum(['disposable', 'refillable'], { error: 'Kind: disposable or refillable.' }),
    specification: text('Specification', { max: 40 }),
    waterCapacity: mass('Water capacity', { positive: true, atMostKg: 2_000 }),
    tare: mass('Tare', { positive: true, atMostKg: 2_000 }),
    net: mass('Net weight', { positive: true, atMostKg: 2_000 }),
    servicePressurePsig: z.number().positive().max(10_000).optional(),
    cylinders: z
      .array(DeliveredCylinder)
      .min(1, { error: SERIALS })
      .max(100, { error: 'Cylinders: at most 100 in one delivery.' }),
  })
  .meta({ id: 'RecordDelivery', description: 'Cylinders full of bought gas, alike but for their serials.' });

/** From whoever has them to one place: a shelf, or a van with its keeper. */
export const HandOver = z
  .strictObject({
    cylinders: z
      .array(
        z.strictObject({
          cylinderId: Id,
          fromId: Id.nullable().meta({ description: 'Where the sender saw it; null for nowhere.' }),
        }),
      )
      .min(1, { error: 'Cylinders: choose at least one.' })
      .max(100, { error: 'Cylinders: at most 100 at once.' }),
    toId: Id.meta({ description: 'A location.' }),
    note: note('Note'),
  })
  .meta({ id: 'HandOver', description: 'Cylinders change hands; whoever was quicker is named to the other.' });

/** A cylinder on a scale without gas going anywhere. */
export const WeighCylinder = z
  .strictObject({
    cylinderId: Id,
    gross: mass('Gross weight', { atMostKg: 4_000 }),
    scaleId: Id.optional(),
    note: note('Note'),
  })
  .meta({
    id: 'WeighCylinder',
    description: 'What the scale shows; a difference to the books is booked and asked about.',
  });

/** A tare read wrongly counts from the beginning, one that changed (another valve) from a moment on. */
export const CorrectTare = z
  .strictObject({
    cylinderId: Id,
    tare: mass('Tare', { positive: true, atMostKg: 2_000 }),
    since: z.enum(['always', 'now'], { error: 'Holds since: always, or from now on.' }),
    why: text('Why', { min: 3, max: 400 }),
  })
  .meta({ id: 'CorrectTare', description: 'Another tare; what was weighed under it is posted anew.' });
