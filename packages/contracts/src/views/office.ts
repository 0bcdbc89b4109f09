import * as z from 'zod';
import { PERMISSIONS, ROLES } from '../access.ts';
import { CERTIFICATE_TYPES } from '../commands/desk.ts';
import { AccountRef } from './statement.ts';

const CertificateView = z.object({
  id: z.string(),
  type: z.enum(CERTIFICATE_TYPES),
  text: z.string(),
  registeredOn: z.string().nullable(),
  endsOn: z.string().nullable(),
});
export const MeView = z
  .object({
    user: z.object({ id: z.string(), name: z.string(), email: z.string() }),
    role: z.enum(ROLES),
    permissions: z.array(z.enum(PERMISSIONS)),
    person: z.object({ id: z.string(), name: z.string(), certificates: z.array(CertificateView) }),
    tenant: z.object({
      id: z.string(),
      name: z.string(),
      locale: z.string(),
      timeZone: z.string(),
      massUnit: z.string(),
      pressureUnit: z.string(),
      temperatureUnit: z.string(),
      vacuumUnit: z.string(),
      demo: z.boolean(),
    }),
    now: z.string(),
  })
  .meta({ id: 'Me' });
export type MeView = z.infer<typeof MeView>;

export const PeopleView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        email: z.string().nullable(),
        role: z.enum(ROLES).nullable(),
        active: z.boolean().meta({ description: 'False once they have left.' }),
        signsIn: z.boolean(),
        certificates: z.array(
          CertificateView.extend({
            version: z.int(),
            standing: z
              .enum(['holds', 'ended', 'not-yet'])
              .meta({ description: 'By its own days, today at the contractor’s.' }),
          }),
        ),
        placedAhead: z.int().meta({ description: 'Visits from now on that they are placed on.' }),
      }),
    ),
    invitations: z.array(z.object({ id: z.string(), email: z.string(), role: z.enum(ROLES), expiresAt: z.string() })),
    mailsLinks: z.boolean().meta({ description: 'Links go by mail; else they are shown once to whoever makes them.' }),
  })
  .meta({ id: 'People' });
export type PeopleView = z.infer<typeof PeopleView>;

export const AttentionView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        kind: z.string(),
        reason: z.string(),
        title: z.string(),
        text: z.string(),
        openedAt: z.string(),
        commandId: z.string().nullable(),
        commandKind: z.string().nullable(),
        envelope: z.record(z.string(), z.unknown()).nullable(),
        subjectKind: z.string().nullable(),
        subjectId: z.string().nullable(),
        closedAt: z.string().nullable(),
        closedHow: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'AttentionList' });
export type AttentionView = z.infer<typeof AttentionView>;

export const NoticesView = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        kind: z.string(),
        text: z.string(),
        at: z.string(),
        dutyId: z.string().nullable(),
        unitId: z.string().nullable(),
        circuitLetter: z.string().nullable(),
        read: z.boolean().meta({ description: 'Ticked off by whoever asks.' }),
        over: z
          .enum(['discharged', 'withdrawn', 'suspended', 'said-later'])
          .nullable()
          .meta({ description: 'Why nobody has to act on it any more; null while somebody has to.' }),
      }),
    ),
  })
  .meta({ id: 'Notices' });
export type NoticesView = z.infer<typeof NoticesView>;

/** The gas accounts with their balances: per refrigerant they sum to zero. */
export const BooksView = z
  .object({
    accounts: z.array(
      AccountRef.extend({
        balances: z.array(
          z.object({ refrigerant: z.string(), grams: z.int(), owner: z.string().nullable(), state: z.string() }),
        ),
      }),
    ),
    totals: z.array(z.object({ refrigerant: z.string(), grams: z.int() })),
    number: z.int(),
  })
  .meta({ id: 'Books' });
export type BooksView = z.infer<typeof BooksView>;

/** Changes since a cursor. `reset` says the cursor is of an older epoch: fetch everything again. */
export const ChangesView = z
  .object({
    epoch: z.int(),
    number: z.int(),
    reset: z.boolean(),
    rows: z.array(
      z.object({ number: z.int(), kind: z.string(), recordId: z.string(), op: z.string(), at: z.string() }),
    ),
    more: z.boolean(),
  })
  .meta({ id: 'Changes' });
export type ChangesView = z.infer<typeof ChangesView>;
