/** What the office reports: calls, placements, people, things. */
import * as z from 'zod';
import { Role } from '../access.ts';
import { clockText, dayText, Id, mass, monthText, note, optionalText, text } from '../primitives.ts';
import { Refrigerant } from '../refrigerants.ts';
import { CallCircuit, CallCustomer, CallSite, CallUnit, PastAddition } from './call-parts.ts';

/** A customer rings: whom, where, which unit, what is wrong, what was added before. One command, so nothing is half taken. */
export const TakeCall = z
  .strictObject({
    customer: CallCustomer,
    site: CallSite,
    unit: CallUnit,
    circuit: CallCircuit,
    history: z.array(PastAddition).max(200, { error: 'Past additions: at most 200 in one call.' }),
    visit: z.strictObject({ id: Id, symptom: note('What is wrong') }),
  })
  .meta({
    id: 'TakeCall',
    description: 'Take a call: customer, site, unit, circuit, past additions and the visit asked for.',
  });

const VERSION_WORDS = { error: 'Version: send the one you saw.' };
/** A row's version: counted in 32 bits, so a larger one was never seen. */
const Version = z.int(VERSION_WORDS).refine((value) => value > 0 && value < 2 ** 31, VERSION_WORDS);

export const OVERRIDE_RULES = ['double-booked', 'outside-working-day'] as const;
export type OverrideRule = (typeof OVERRIDE_RULES)[number];
/** Which of our own rules are bent, each with a reason of its own that is kept: a reason for one is none for another. */
const Override = z
  .partialRecord(z.enum(OVERRIDE_RULES), text('Reason', { min: 3, max: 400 }))
  .refine((reasons) => Object.keys(reasons).length > 0, {
    error: 'Override: give a reason for a rule, or leave it out.',
  });
/** Put a visit on a technician's day. The moment is wall-clock time at the site. */
export const PlaceVisit = z
  .strictObject({
    visitId: Id,
    version: Version,
    personId: Id,
    withPersonIds: z.array(Id).max(6).optional(),
    day: dayText('Day'),
    time: clockText('Time'),
    which: z
      .enum(['earlier', 'later'])
      .optional()
      .meta({ description: 'Which of the two, where clocks are put back.' }),
    minutes: z.int().min(5, { error: 'Length: at least 5 minutes.' }).max(1440, { error: 'Length: at most a day.' }),
    override: Override.optional(),
  })
  .meta({ id: 'PlaceVisit', description: 'Place a visit on a technician, at a moment inside its window.' });

export const UnplaceVisit = z
  .strictObject({ visitId: Id, version: Version })
  .meta({ id: 'UnplaceVisit', description: 'Take a visit off the plan; it is proposed again.' });

export const CERTIFICATE_TYPES = ['I', 'II', 'III', 'universal', 'apprentice'] as const;
const CertificateType = z.enum(CERTIFICATE_TYPES, {
  error: 'Certificate: choose I, II, III, universal or registered apprentice.',
});
const CertificateEntry = z.strictObject({
  id: Id,
  scheme: z.literal('us-608'),
  type: CertificateType,
  registeredOn: dayText('Registered on').optional(),
  endsOn: dayText('Ends on').optional().meta({ description: 'The last day on which it holds.' }),
});
/** A person of the firm. With an e-mail address the one invited under it becomes this person. */
export const RegisterPerson = z
  .strictObject({
    personId: Id,
    name: text('Name', { max: 120 }),
    email: z.email({ error: 'E-mail: give an address, as kim@firm.example.' }).optional(),
    role: Role.optional(),
    certificates: z.array(CertificateEntry).max(10),
  })
  .meta({ id: 'RegisterPerson', description: 'Register a person with certificates.' });

const why = text('Why', { min: 3, max: 400 });
/** A certificate is no longer valid from a day on: withdrawn, lapsed, or found to be none. What was placed before stands. */
export const EndCertificate = z
  .strictObject({
    certificateId: Id,
    version: Version,
    fromDay: dayText('Not valid from'),
    why,
  })
  .meta({ id: 'EndCertificate', description: 'End a certificate: from this day on it is not valid.' });

/** A slip at entering a certificate is put right; what stood before stays in the audit trail. */
export const CorrectCertificate = z
  .strictObject({
    certificateId: Id,
    version: Version,
    type: CertificateType,
    registeredOn: dayText('Registered on').nullable(),
    endsOn: dayText('Ends on').nullable().meta({ description: 'The last day on which it holds.' }),
    why,
  })
  .refine(({ registeredOn, endsOn }) => registeredOn === null || endsOn === null || registeredOn <= endsOn, {
    path: ['endsOn'],
    error: 'Ends on: it lies before the registration.',
  })
  // An apprenticeship without its registration cannot be judged by the law's two years (40 CFR 82.161(a)(1)).
  .refine(({ type, registeredOn }) => type !== 'apprentice' || registeredOn !== null, {
    path: ['registeredOn'],
    error: 'Registered on: the apprenticeship needs its day.',
  })
  .meta({ id: 'CorrectCertificate', description: 'Put right what was entered of a certificate.' });

export const DeactivatePerson = z.strictObject({ personId: Id }).meta({
  id: 'DeactivatePerson',
  description: 'A person without a sign-in has left: nothing is placed on them any more.',
});
export const ReactivatePerson = z
  .strictObject({ personId: Id })
  .meta({ id: 'ReactivatePerson', description: 'A person who had left is back; they can be invited to sign in.' });

export const INSTRUMENT_KINDS = [
  'detector',
  'gauge',
  'scale',
  'thermometer',
  'vacuum-gauge',
  'recovery-machine',
] as const;
/** Differences, not readings: an °F is 5/9 K. */
export const REPEATABILITY_UNITS = ['K', 'F', 'kPa', 'psi'] as const;
export const RegisterInstrument = z
  .strictObject({
    instrumentId: Id,
    kind: z.enum(INSTRUMENT_KINDS, { error: 'Kind: choose what it is, as detector.' }),
    tag: text('Tag', { max: 40 }),
    senseGramsPerYear: z.number().positive().max(100_000).optional(),
    repeatability: z
      .strictObject({
        value: z.number().positive({ error: 'Repeatability: give more than zero.' }).max(1000),
        unit: z.enum(REPEATABILITY_UNITS, { error: 'Repeatability: choose a unit, as kPa.' }),
      })
      .optional()
      .meta({ description: 'One standard deviation of a reading; it enters every verdict made with the instrument.' }),
    carrierId: Id.optional(),
    madeOn: dayText('Made on').optional(),
  })
  .meta({
    id: 'RegisterInstrument',
    description: 'Register a detector, gauge, scale or machine, on the spot if need be.',
  });

export const CYLINDER_KINDS = ['disposable', 'refillable', 'recovery'] as const;
export const RegisterCylinder = z
  .strictObject({
    cylinderId: Id,
    kind: z.enum(CYLINDER_KINDS, { error: 'Kind: disposable, refillable or recovery.' }),
    specification: text('Specification', { max: 40 }).meta({ description: 'As stamped, as DOT-4BA400.' }),
    serial: text('Serial', { max: 60 }),
    label: optionalText('Label', { max: 40 }),
    waterCapacity: mass('Water capacity', { positive: true, atMostKg: 2_000 }),
    tare: mass('Tare', { positive: true, atMostKg: 2_000 }),
    servicePressurePsig: z.number().positive().max(10_000).optional(),
    madeMonth: monthText('Made').optional(),
    testedMonth: monthText('Last test').optional(),
    ownerCustomerId: Id.optional(),
    dedicatedTo: Refrigerant.optional(),
    gas: z
      .strictObject({
        refrigerant: Refrigerant,
        state: z.enum(['new', 'recovered', 'recycled', 'reclaimed']),
        gross: mass('Gross weight'),
      })
      .optional()
      .meta({ description: 'What is in it as it is registered; nothing for an empty one.' }),
  })
  .meta({ id: 'RegisterCylinder', description: 'Register a cylinder by its stamps, with what is in it.' });

export const SettleAttention = z
  .strictObject({ attentionId: Id, how: z.enum(['try-again', 'leave-out', 'looked-at']), note: note('Note') })
  .meta({ id: 'SettleAttention', description: 'Try a refused command again, or leave it out; it is kept either way.' });

export const LinkOwnerTold = z
  .strictObject({
    circuitId: Id,
    visitId: Id.optional(),
    who: text('Who was told', { max: 120 }),
    what: note('What was said'),
  })
  .meta({ id: 'OwnerTold', description: 'The owner or operator was told what the law asks of them.' });

/** Whoever sends it has read these; the others they went to still have them before them. */
export const MarkNoticesRead = z
  .strictObject({
    noticeIds: z
      .array(Id)
      .min(1, { error: 'Notices: choose at least one.' })
      .max(200, { error: 'Notices: at most 200 at once.' }),
  })
  .meta({ id: 'MarkNoticesRead', description: 'Tick notices off as read, for oneself.' });
