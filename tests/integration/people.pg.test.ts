import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandBody, PeopleView } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { ids, theCall } from '../support/story.ts';

/** It is 30 April 2026; Rosa Quill (Type II) is placed on 4 May and on 11 May. */
let world: TestOffice;
let firm: Contractor;
const of = ids();
const later = newId();
const paper = newId();
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('07:30'));
  firm = await world.contractor();
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }));
  await firm.send('dispatcher', 'take-call', {
    customer: { id: of.customer },
    site: { id: of.site },
    unit: { id: of.unit },
    circuit: { id: of.circuit },
    history: [],
    visit: { id: later },
  });
  await firm.send('manager', 'register-person', {
    personId: of.technician,
    name: 'Rosa Quill',
    certificates: [{ id: paper, scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' }],
  });
  await place(of.visit, '2026-05-04');
  await place(later, '2026-05-11');
});

const headOf = async (visitId: string) => (await world.office.visit(firm.actors.owner, visitId)).visit;
async function place(visitId: string, day: string) {
  const { version } = await headOf(visitId);
  const at = { visitId, version, personId: of.technician, day, time: '09:00', minutes: 60 };
  return firm.send('dispatcher', 'place-visit', at);
}
const people = async (): Promise<PeopleView['items']> =>
  (await world.office.people(firm.actors.owner, { invitations: [], mailsLinks: false })).items;
const rosa = async (): Promise<PeopleView['items'][number]> => {
  return (await people()).find(({ id }) => id === of.technician)!;
};
const seen = async () => ({ certificateId: paper, version: (await rosa()).certificates[0]!.version });
const end = async (more: Partial<CommandBody<'end-certificate'>> = {}) =>
  firm.send('manager', 'end-certificate', { ...(await seen()), fromDay: '2026-05-08', why: 'Withdrawn', ...more });
const correct = async (more: Partial<CommandBody<'correct-certificate'>> = {}) =>
  firm.send('manager', 'correct-certificate', {
    ...(await seen()),
    type: 'II',
    registeredOn: '2025-06-01',
    endsOn: null,
    why: 'A slip',
    ...more,
  });
/** What stands before a person about visits, and what stood there. */
const asked = async (state: 'open' | 'closed' = 'open') => {
  const { items } = await world.office.attention(firm.actors.owner);
  const about = items.filter(({ reason }) => ['placed-without-papers', 'placed-on-left'].includes(reason));
  return about.filter(({ closedAt }) => (closedAt === null) === (state === 'open'));
};
const askedAbout = async (): Promise<Set<string | null>> => new Set((await asked()).map(({ subjectId }) => subjectId));

describe('a certificate that ends', () => {
  test('is not valid from that day in the placing rules; the day before it is', async () => {
    await end();
    expect((await rosa()).certificates).toMatchObject([{ endsOn: '2026-05-07', version: 2, standing: 'holds' }]);
    await place(of.visit, '2026-05-07');
    await expect(place(of.visit, '2026-05-08')).rejects.toMatchObject({
      rules: [{ code: 'certificate-ended', whose: 'law', overridable: false }],
    });
  });

  test('leaves what was placed as it is, and leaves to a person the visit that the law would now refuse', async () => {
    expect(await headOf(later)).toMatchObject({ state: 'placed', people: [{ name: 'Rosa Quill' }] });
    expect((await headOf(later)).people[0]?.certificates).toBe('certificate ended');
    expect((await headOf(of.visit)).people[0]?.certificates).toBe('Type II');
    expect(await asked()).toMatchObject([
      {
        reason: 'placed-without-papers',
        subjectKind: 'visit',
        subjectId: later,
        text:
          '0417-A on 11 May 2026 is placed on Rosa Quill. The certificate for high-pressure gas ended on 7 May 2026 ' +
          '(40 CFR 82.161(a)). Place it anew.',
      },
    ]);
  });

  test('is asked about no more once the visit is placed where the law lets her go', async () => {
    await place(later, '2026-05-06');
    expect(await asked()).toEqual([]);
    expect(await asked('closed')).toMatchObject([{ subjectId: later, closedHow: 'placed-anew' }]);
  });

  test('never ends later than it said, nor before it was registered', async () => {
    await expect(end({ fromDay: '2026-06-01' })).rejects.toMatchObject({ errors: [{ pointer: '#/body/fromDay' }] });
    await expect(end({ fromDay: '2025-05-31' })).rejects.toMatchObject({ errors: [{ pointer: '#/body/fromDay' }] });
    await expect(end({ version: 1 })).rejects.toMatchObject({ code: 'stale' });
    expect((await rosa()).certificates).toMatchObject([{ endsOn: '2026-05-07', version: 2 }]);
  });

  test('found to be none is never valid: it ends from the day it was registered', async () => {
    await end({ fromDay: '2025-06-01' });
    expect((await rosa()).certificates).toMatchObject([{ endsOn: '2025-05-31', standing: 'ended' }]);
    await expect(place(of.visit, '2026-05-05')).rejects.toMatchObject({ rules: [{ code: 'certificate-ended' }] });
  });
});

describe('a certificate that is corrected', () => {
  test('counts as it is entered now, and what stood before is in the audit trail with who changed it', async () => {
    await correct({ type: 'universal', registeredOn: '2024-01-15' });
    expect((await rosa()).certificates).toMatchObject([{ type: 'universal', endsOn: null, standing: 'holds' }]);
    await place(of.visit, '2026-05-05');
    const rows = await world.sql<{ user_id: string; detail: unknown }>(
      `SELECT user_id, detail FROM audit WHERE record_kind = 'certificate' AND action = 'correct-certificate'`,
    );
    expect(rows).toEqual([
      {
        user_id: firm.actors.manager.userId,
        detail: { op: 'changed', before: { type: 'II', registeredOn: '2025-06-01', endsOn: '2025-05-31' } },
      },
    ]);
  });
  test('to one that the law does not ask for leaves every visit to come to a person, once each', async () => {
    const answer = await correct({ type: 'III' });
    expect(answer.asks).toMatchObject([{ code: 'placed-without-papers' }]);
    expect(answer.asks[0]?.text).toMatch(/^0417-A on 5 May 2026 .* One more waits under Attention\.$/);
    await correct({ type: 'III', why: 'Once more' });
    expect(await asked()).toHaveLength(2);
    expect(await askedAbout()).toEqual(new Set([of.visit, later]));
  });
  test('back to what the law asks for is asked about no more', async () => {
    const before = await asked('closed');
    await correct({ type: 'II' });
    expect(await asked()).toEqual([]);
    const closed = (await asked('closed')).filter(({ id }) => !before.some((one) => one.id === id));
    expect(closed).toMatchObject([{ closedHow: 'no-longer-so' }, { closedHow: 'no-longer-so' }]);
  });
  test('is refused where its days cannot be: an apprenticeship without its day, an end before the beginning', async () => {
    await expect(correct({ type: 'apprentice', registeredOn: null })).rejects.toMatchObject({
      errors: [{ pointer: '#/body/registeredOn' }],
    });
    await expect(correct({ endsOn: '2025-05-31' })).rejects.toMatchObject({ errors: [{ pointer: '#/body/endsOn' }] });
  });
  test('by two at once is changed by one, and the other is told to look again', async () => {
    const at = await seen();
    const both = await Promise.allSettled([correct(at), correct({ ...at, type: 'universal' })]);
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(both.find(({ status }) => status === 'rejected')).toMatchObject({ reason: { code: 'stale' } });
  });
});

describe('somebody who leaves', () => {
  test('is placed no more and stays in the records; back, they are placed again', async () => {
    await correct();
    expect(await rosa()).toMatchObject({ active: true, placedAhead: 2 });
    const answer = await firm.send('manager', 'deactivate-person', { personId: of.technician });
    expect(answer.asks).toMatchObject([{ code: 'placed-on-left' }]);
    expect(await rosa()).toMatchObject({ active: false, certificates: [{ id: paper }] });
    await expect(place(of.visit, '2026-05-06')).rejects.toMatchObject({ code: 'not-found' });
    expect((await headOf(of.visit)).people).toMatchObject([{ name: 'Rosa Quill', certificates: 'has left' }]);
    expect(await askedAbout()).toEqual(new Set([of.visit, later]));
    expect((await asked())[0]?.text).toMatch(/ is placed on Rosa Quill, who has left\. Place it anew\.$/);
    // Two managers press the button: the second changes nothing.
    await firm.send('manager', 'deactivate-person', { personId: of.technician });
    expect(await asked()).toHaveLength(2);
    await firm.send('manager', 'reactivate-person', { personId: of.technician });
    expect(await asked()).toEqual([]);
    await place(of.visit, '2026-05-12');
  });
  test('and signs in is shut out first: the two never disagree', async () => {
    const dispatcher = (await people()).find(({ role }) => role === 'dispatcher')!;
    await expect(firm.send('manager', 'deactivate-person', { personId: dispatcher.id })).rejects.toMatchObject({
      message: 'Person: signs in; take the sign-in away, which ends both.',
    });
    await world.sql('DELETE FROM auth.member WHERE "userId" = $1', [firm.actors.dispatcher.userId]);
    const after = (await people()).find(({ id }) => id === dispatcher.id);
    expect(after).toMatchObject({ active: false, role: null, signsIn: false });
    await firm.send('manager', 'reactivate-person', { personId: dispatcher.id });
    await world.sql(
      `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, 'auditor', now())`,
      [firm.tenantId, firm.actors.dispatcher.userId],
    );
    const back = (await people()).filter(({ id }) => id === dispatcher.id);
    expect(back).toMatchObject([{ active: true, role: 'auditor', signsIn: true }]);
  });
});
