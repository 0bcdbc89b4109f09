/** People of the firm: who they are, what they may do by law, and whether they are still here. */
import { Refusal } from '@ullage/contracts';
import type { CommandBody, CommandName } from '@ullage/contracts';
import { dayWords } from '@ullage/units';
import { dateToDay, dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lookAtPlaced } from '../visits/unfit.ts';

const dayOrNull = (text: string | null | undefined): Date | null => (text == null ? null : dayToDate(text));

/** A person of the firm, with certificates. The one who is invited under the e-mail address becomes this person. */
export async function registerPerson(desk: Case, { body }: Received<CommandBody<'register-person'>>): Promise<void> {
  const { tenantId } = desk;
  await assertOwnCertificates(desk, body);
  const known = await desk.tx.person.findUnique({ where: { tenantId_id: { tenantId, id: body.personId } } });
  if (known?.withdrawnAt) throw notFound();
  if (known)
    await desk.tx.person.update({ where: { tenantId_id: { tenantId, id: body.personId } }, data: { name: body.name } });
  else {
    await desk.tx.person.create({
      data: {
        tenantId,
        id: body.personId,
        name: body.name,
        email: body.email ?? null,
        active: true,
        createdAt: toDate(desk.recordedAt),
      },
    });
  }
  await desk.tx.certificate.createMany({
    data: body.certificates.map((certificate) => ({
      tenantId,
      id: certificate.id,
      personId: body.personId,
      scheme: certificate.scheme,
      type: certificate.type,
      registeredOn: dayOrNull(certificate.registeredOn),
      endsOn: dayOrNull(certificate.endsOn),
      version: 1,
    })),
    skipDuplicates: true,
  });
  desk.changed('person', body.personId, known ? 'changed' : 'made');
  // One more certificate may be the one that was missing.
  if (known) await lookAtPlaced(desk, body.personId);
}

/** Registering a person again leaves the certificates they have; an id that stands for somebody else's would be lost unseen. */
async function assertOwnCertificates(desk: Case, body: CommandBody<'register-person'>): Promise<void> {
  const ids = body.certificates.map(({ id }) => id);
  const where = { tenantId: desk.tenantId, id: { in: ids }, personId: { not: body.personId } };
  const [other] = await desk.tx.certificate.findMany({ where, select: { id: true } });
  if (!other) return;
  throw refuseField(
    `certificates/${ids.indexOf(other.id)}/id`,
    'Certificate: stands with another person; give it a new id.',
  );
}

/** From a day on the certificate is not valid. It may end earlier than it said, never later: that would be a correction. */
export async function endCertificate(
  desk: Case,
  { kind, body }: Received<CommandBody<'end-certificate'>>,
): Promise<void> {
  const row = await certificateOf(desk, body.certificateId);
  const lastDay = desk.world.calendar.addDays(body.fromDay, -1);
  const [registeredOn, endsOn] = [row.registeredOn, row.endsOn].map((day) => day && dateToDay(day));
  if (registeredOn && body.fromDay < registeredOn)
    throw refuseField(
      'fromDay',
      `Not valid from: before it was registered, ${dayWords(registeredOn)}; give that day or later.`,
    );
  if (endsOn && lastDay > endsOn)
    throw refuseField(
      'fromDay',
      `Not valid from: it ends on ${dayWords(endsOn)} already; correct it if that is wrong.`,
    );
  await change(desk, row, { kind, version: body.version, data: { endsOn: dayToDate(lastDay) } });
}

/** Type and days as they ought to have been entered. */
export async function correctCertificate(
  desk: Case,
  { kind, body }: Received<CommandBody<'correct-certificate'>>,
): Promise<void> {
  const { type, registeredOn, endsOn } = body;
  const row = await certificateOf(desk, body.certificateId);
  const data = { type, registeredOn: dayOrNull(registeredOn), endsOn: dayOrNull(endsOn) };
  await change(desk, row, { kind, version: body.version, data });
}

type CertificateRow = Awaited<ReturnType<typeof certificateOf>>;
async function certificateOf(desk: Case, id: string) {
  const row = await desk.tx.certificate.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!row || row.withdrawnAt) throw notFound();
  return row;
}

/** @throws Refusal `stale` when somebody changed it since the version that was seen */
async function change(
  desk: Case,
  row: CertificateRow,
  to: { kind: CommandName; version: number; data: { type?: string; registeredOn?: Date | null; endsOn: Date | null } },
): Promise<void> {
  const { tx, tenantId } = desk;
  const changed = await tx.certificate.updateMany({
    where: { tenantId, id: row.id, version: to.version },
    data: { ...to.data, version: { increment: 1 } },
  });
  if (changed.count !== 1) throw new Refusal('stale', 'Somebody changed this certificate; look at it again.');
  await keepBefore(desk, row, to.kind);
  desk.changed('person', row.personId);
  await lookAtPlaced(desk, row.personId);
}

/** The row keeps what stands now; what stood before is in the audit trail, beside the command that says why. */
async function keepBefore(desk: Case, row: CertificateRow, action: CommandName): Promise<void> {
  const { tx, tenantId, actor, commandId } = desk;
  const [registeredOn, endsOn] = [row.registeredOn, row.endsOn].map((day) => day && dateToDay(day));
  await tx.audit.create({
    data: {
      tenantId,
      id: desk.world.newId(),
      at: toDate(desk.recordedAt),
      action,
      userId: actor.userId,
      commandId,
      address: actor.address ?? null,
      recordKind: 'certificate',
      recordId: row.id,
      detail: { op: 'changed', before: { type: row.type, registeredOn, endsOn } },
    },
  });
}

/**
 * Somebody has left: nothing is placed on them any more, and what is placed is left to a person. Whoever signs in is shut
 * out first, by the sign-in library, which ends both; said once more it changes nothing, so that either order is safe.
 */
export async function deactivatePerson(
  desk: Case,
  { body }: Received<CommandBody<'deactivate-person'>>,
): Promise<void> {
  const person = await personOf(desk, body.personId);
  if (person.role !== null) throw refuseField('personId', 'Person: signs in; take the sign-in away, which ends both.');
  await setActive(desk, body.personId, false);
}

/** Somebody who had left is back, without a sign-in until they are invited. */
export async function reactivatePerson(
  desk: Case,
  { body }: Received<CommandBody<'reactivate-person'>>,
): Promise<void> {
  await personOf(desk, body.personId);
  await setActive(desk, body.personId, true);
}

async function personOf(desk: Case, id: string): Promise<{ role: string | null }> {
  const person = await desk.tx.person.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!person || person.withdrawnAt) throw notFound();
  return person;
}

async function setActive(desk: Case, personId: string, active: boolean): Promise<void> {
  const { tx, tenantId } = desk;
  await tx.person.updateMany({
    // An invitation may have been answered since we looked: a member is not put out by this door.
    where: { tenantId, id: personId, active: !active, ...(active ? {} : { role: null }) },
    data: { active },
  });
  const stands = await tx.person.count({ where: { tenantId, id: personId, active } });
  if (stands !== 1) throw refuseField('personId', 'Person: signs in; take the sign-in away, which ends both.');
  desk.changed('person', personId);
  await lookAtPlaced(desk, personId);
}
