/** What the keeper of the store reports of cylinders that leave: to a reclaimer, back to their supplier, to scrap, or lost. */
import * as z from 'zod';
import { dayText, Id, mass, note, optionalText, text } from '../primitives.ts';

const SOME = 'Cylinders: choose at least one.';
const MANY = 'Cylinders: at most 100 on one manifest.';
const FromId = Id.nullable().meta({ description: 'Where the sender saw it; null for nowhere.' });
const gross = () => mass('Gross weight', { atMostKg: 4_000 });

export const SHIPMENT_PURPOSES = ['reclaim', 'destroy'] as const;
/** Cylinders with gas leave for whoever reclaims or destroys it. The gas stays in our books until it is accepted. */
export const RecordShipment = z
  .strictObject({
    receiverId: Id.meta({ description: 'A location of kind reclaimer; the cylinders are there from now on.' }),
    purpose: z.enum(SHIPMENT_PURPOSES, { error: 'Purpose: reclaim or destroy.' }),
    certificate: optionalText('Certificate number', { max: 60 }),
    carrier: text('Carrier', { max: 120 }),
    reference: optionalText('Reference', { max: 60 }),
    scaleId: Id.optional(),
    note: note('Note'),
    cylinders: z
      .array(z.strictObject({ cylinderId: Id, fromId: FromId, gross: gross() }))
      .min(1, { error: SOME })
      .max(100, { error: MANY }),
  })
  .meta({ id: 'RecordShipment', description: 'A manifest: cylinders sent to a reclaimer, each weighed on leaving.' });

export const ACCEPTED_AS = ['as-sent', 'mixed', 'contaminated', 'other-gas'] as const;
export const CYLINDER_AFTER = ['evacuated', 'not-evacuated', 'kept'] as const;
/** What the receiver's own scale and laboratory said. Said again for a cylinder, the later counts. */
export const RecordAcceptance = z
  .strictObject({
    shipmentId: Id,
    note: note('Note'),
    cylinders: z
      .array(
        z.strictObject({
          cylinderId: Id,
          accepted: mass('Accepted', { atMostKg: 2_000 }),
          found: z.enum(ACCEPTED_AS, { error: 'Found: as sent, mixed, contaminated or another gas.' }),
          told: optionalText('What the laboratory said', { max: 400 }),
          why: optionalText('Why the weights differ', { min: 3, max: 400 }),
          after: z.enum(CYLINDER_AFTER, { error: 'Cylinder: evacuated, not evacuated, or kept.' }),
        }),
      )
      .min(1, { error: SOME })
      .max(100, { error: MANY }),
  })
  .meta({
    id: 'RecordAcceptance',
    description: 'What was accepted of a shipment; the difference goes to discrepancy.',
  });

export const MarkLost = z
  .strictObject({
    cylinderId: Id,
    lastSeenOn: dayText('Last seen').optional(),
    why: text('Why', { min: 3, max: 400 }),
  })
  .meta({ id: 'MarkLost', description: 'Nobody knows where it is: its gas stands in discrepancy until it is found.' });

export const MarkFound = z
  .strictObject({
    cylinderId: Id,
    toId: Id.meta({ description: 'The location where it is now.' }),
    gross: gross(),
    scaleId: Id.optional(),
    note: note('Note'),
  })
  .meta({
    id: 'MarkFound',
    description: 'It is there again: what was lost with it comes back, as far as the scale shows it.',
  });

/** With what is left in it: the heel is weighed, and leaves our books with the cylinder. */
export const ReturnCylinder = z
  .strictObject({
    cylinderId: Id,
    fromId: FromId,
    supplier: text('Supplier', { max: 120 }),
    gross: gross(),
    scaleId: Id.optional(),
    note: note('Note'),
  })
  .meta({ id: 'ReturnCylinder', description: 'Back to its supplier, with its heel.' });

export const ScrapCylinder = z
  .strictObject({
    cylinderId: Id,
    fromId: FromId,
    gross: gross().meta({ description: 'After its heel was recovered and it was evacuated.' }),
    scaleId: Id.optional(),
    evacuated: z.literal(true, { error: 'Evacuated: recover the heel and evacuate it before it is scrapped.' }),
    receiver: text('Receiver', { max: 120 }),
    note: note('Note'),
  })
  .meta({ id: 'ScrapCylinder', description: 'Evacuated and given to be scrapped.' });

/** A slip is answered, never erased: what followed from the report is reversed. */
export const TakeBack = z
  .strictObject({
    factId: Id.meta({ description: 'A hand-over, shipment, acceptance, loss, find, return or scrapping.' }),
    why: text('Why', { min: 3, max: 400 }),
  })
  .meta({ id: 'TakeBack', description: 'It did not happen as reported; what followed from it is reversed.' });
