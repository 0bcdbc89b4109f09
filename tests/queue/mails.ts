/** The mails beside the reminders, whichever datastore holds the queue. */
import { createMailer } from '@ullage/mail';
import type { Parts } from '@ullage/worker';
import { describe, expect, test } from 'vitest';
import { newId } from '../support/office.ts';
import { headerOf, mailServerForTest } from '../support/smtp.ts';
import type { MailServer } from '../support/smtp.ts';
import { followUp } from './follow-up.ts';
import { MAIL } from './night-shift.ts';
import type { Store } from './night-shift.ts';
import { comes, DAY, items, told, wantedRows } from './suite.ts';
import type { Told } from './suite.ts';

interface MailRow {
  person_id: string;
  tries: number;
  next_at: Date;
  sent_at: Date | null;
  dropped_at: Date | null;
  last_error: string | null;
}
interface Mailed extends Told {
  readonly server: MailServer;
}
async function mailed(store: Store): Promise<Mailed> {
  const server = await mailServerForTest();
  return { ...(await told(store, { smtpUrl: server.url })), server };
}
const mails = ({ shift }: Told) =>
  shift.world.sql<MailRow>(
    `SELECT person_id, tries, next_at, sent_at, dropped_at, last_error FROM notice_mail ORDER BY notice_id, person_id`,
  );
const addressOf = async ({ shift, firm }: Told, role: 'dispatcher' | 'manager'): Promise<string> => {
  const [row] = await shift.world.sql<{ email: string }>(
    'SELECT email FROM person WHERE tenant_id = $1 AND role = $2 AND active',
    [firm.tenantId, role],
  );
  return row!.email;
};
/** A second person who plans the days. */
async function secondDispatcher({ shift, firm }: Told, email: string): Promise<void> {
  const [user] = await shift.world.sql<{ id: string }>(
    `INSERT INTO auth."user" (name, email, "emailVerified", "updatedAt") VALUES ('Second', $1, true, now()) RETURNING id`,
    [email],
  );
  await shift.world.sql(
    `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, 'dispatcher', now())`,
    [firm.tenantId, user!.id],
  );
}
function passes({ shift }: Told, ms: number): void {
  shift.world.clock.now = new Date(Date.parse(shift.world.clock.now) + ms).toISOString();
}
const MINUTE = 60_000;
/** Moves the clock to each next try, until the mail is given up or sent. */
async function triesAll(all: Mailed): Promise<void> {
  for (let tried = 0; tried < 20; tried++) {
    await all.worker.mails.sendDue();
    const open = (await mails(all)).filter((row) => row.sent_at === null && row.dropped_at === null);
    if (open.length === 0 || (await items(all)).some((item) => item.closed_how === null)) return;
    passes(all, Math.max(0, open[0]!.next_at.getTime() - Date.parse(all.shift.world.clock.now)));
  }
}

export function mailSuite(store: Store): void {
  describe(`mails of reminders, queue in ${store}`, { timeout: 60_000 }, () => {
    arriving(store);
    failing(store);
    unwanted(store);
  });
}

function arriving(store: Store): void {
  test('who plans is mailed once what is due, until when at the site, by which clause and of whom', async () => {
    const all = await mailed(store);
    const { worker, server } = all;
    const [row] = await wantedRows(all);
    await comes(all, row!);
    // The mail is in the row and in no queue: one that lost everything loses no mail.
    await worker.reminders.obliterate({ force: true });
    await worker.mails.sendDue();
    await worker.mails.sendDue();
    const [mail, ...more] = server.received;
    expect(more).toEqual([]);
    expect(mail?.to).toEqual([await addressOf(all, 'dispatcher')]);
    expect(headerOf(mail!, 'subject')).toEqual(['0417-A: Follow-up verification test, due Sunday 10 May 2026']);
    // The first reminder comes as 4 May begins in Denver, and 10 May is the last legal day.
    expect(mail?.text).toMatch(
      /^6 days are left: Follow-up verification test of 0417-A is due on Sunday 10 May 2026\./,
    );
    expect(mail?.text).toContain('Due: Sunday 10 May 2026, until midnight at the site (America/Denver)\n');
    expect(mail?.text).toMatch(/^Clause: 40 CFR 84\.106\(\w+\).* \(US HFC rule, 40 CFR 84 subpart C\)$/m);
    expect(mail?.text).toMatch(/^Responsible: owner or operator$/m);
    expect(mail?.text).toContain(`https://ullage.example/units/${all.of.unit}\n`);
    expect(await mails(all)).toMatchObject([{ tries: 1, last_error: null, dropped_at: null }]);
    expect((await mails(all))[0]?.sent_at).not.toBeNull();
  });

  test('asked for by many at once, each of two people gets it once', async () => {
    const all = await mailed(store);
    await secondDispatcher(all, 'second@firm.example');
    const [row] = await wantedRows(all);
    await comes(all, row!);
    const other = await all.shift.worker();
    await Promise.all([all.worker, other, all.worker, other].map((worker) => worker.mails.sendDue()));
    await expect.poll(() => all.server.received.length).toBe(2);
    // Whoever lost a race left the mail alone; when its pause is over there is nothing left to send.
    passes(all, 2 * MINUTE);
    await Promise.all([all.worker, other].map((worker) => worker.mails.sendDue()));
    const to = all.server.received.flatMap((mail) => mail.to);
    expect(to.sort()).toEqual([await addressOf(all, 'dispatcher'), 'second@firm.example'].sort());
  });

  test('it goes by itself, and each contractor’s to its own people', async () => {
    const server = await mailServerForTest();
    const all: Mailed = { ...(await told(store, { smtpUrl: server.url, pace: { pollMs: 200 } })), server };
    const second = await all.shift.world.contractor('Rill & Sons');
    const theirs: Mailed = { ...all, firm: second, of: await all.shift.job(second, DAY) };
    await all.worker.relay.sendAll();
    const rows = await wantedRows(all);
    for (const one of [all, theirs]) {
      const duties = await all.shift.world.sql<{ id: string }>('SELECT id FROM duty WHERE tenant_id = $1', [
        one.firm.tenantId,
      ]);
      const row = rows.find(({ duty_id }) => duties.some(({ id }) => id === duty_id));
      await comes(one, row!);
    }
    await expect.poll(() => server.received.length, { timeout: 20_000 }).toBe(2);
    for (const one of [all, theirs]) {
      const mine = server.received.filter(({ text }) => text.includes(one.of.unit));
      expect(mine.map(({ to }) => to)).toEqual([[await addressOf(one, 'dispatcher')]]);
    }
  });
}

function failing(store: Store): void {
  test('a dead server delays no notice; the mail is tried with pauses, lies with a person, and arrives when they say so', async () => {
    const all = await mailed(store);
    const { server, worker } = all;
    server.trouble = () => 'busy';
    const [row] = await wantedRows(all);
    await comes(all, row!);
    await worker.mails.sendDue();
    expect(await all.shift.notices()).toHaveLength(1);
    expect(await mails(all)).toMatchObject([{ tries: 1, last_error: '451', sent_at: null }]);
    // Not before the pause is over.
    const before = server.connections();
    await worker.mails.sendDue();
    expect(server.connections()).toBe(before);
    await triesAll(all);
    expect(server.connections()).toBe(8);
    const [item] = await items(all);
    expect(item).toMatchObject({ kind: 'job', subject_kind: 'duty', subject_id: row!.duty_id });
    const { items: shown } = await all.shift.world.office.attention(all.firm.actors.dispatcher);
    expect(shown[0]?.text).toMatch(/^A reminder could not be mailed to dispatcher of Tarn & Bracken Cooling\./);
    // While it lies there nobody tries.
    server.trouble = undefined;
    passes(all, 10 * MINUTE);
    await worker.mails.sendDue();
    expect(server.connections()).toBe(8);
    await all.firm.send('dispatcher', 'settle-attention', { attentionId: item!.id, how: 'try-again' });
    passes(all, 2 * MINUTE);
    await worker.mails.sendDue();
    expect(server.received).toHaveLength(1);
    expect(await items(all)).toHaveLength(1);
    expect((await mails(all))[0]?.sent_at).not.toBeNull();
  });

  test('left out by a person it is not sent any more', async () => {
    const all = await mailed(store);
    all.server.trouble = () => 'busy';
    await comes(all, (await wantedRows(all))[0]!);
    await triesAll(all);
    const [item] = await items(all);
    await all.firm.send('dispatcher', 'settle-attention', { attentionId: item!.id, how: 'leave-out' });
    all.server.trouble = undefined;
    passes(all, 2 * MINUTE);
    await all.worker.mails.sendDue();
    expect(all.server.received).toEqual([]);
    expect((await mails(all))[0]?.dropped_at).not.toBeNull();
  });

  test('an address that the server refuses is shown at once, and holds up nobody else', async () => {
    const all = await mailed(store);
    await secondDispatcher(all, 'gone@firm.example');
    all.server.trouble = (to) => (to === 'gone@firm.example' ? 'address' : undefined);
    await comes(all, (await wantedRows(all))[0]!);
    await all.worker.mails.sendDue();
    expect(all.server.received.map(({ to }) => to)).toEqual([[await addressOf(all, 'dispatcher')]]);
    const { items: shown } = await all.shift.world.office.attention(all.firm.actors.dispatcher);
    expect(shown.map(({ text }) => text)).toEqual([
      'The mail server refuses the address of Second. Try again, or leave it out: the notice stands on the board.',
    ]);
  });

  test('a process that dies after the server took it sends the same message again, and no third', async () => {
    const all = await mailed(store);
    await comes(all, (await wantedRows(all))[0]!);
    const dies = (parts: Parts): Parts => ({
      ...parts,
      night: { ...parts.night, mailed: () => Promise.reject(new Error('died')) },
    });
    // It begins to send as soon as it starts.
    await all.shift.worker({}, dies);
    await expect.poll(() => all.server.received.length).toBe(1);
    await all.worker.mails.sendDue();
    expect(all.server.received).toHaveLength(1);
    passes(all, 2 * MINUTE);
    await all.worker.mails.sendDue();
    await all.worker.mails.sendDue();
    expect(all.server.received).toHaveLength(2);
    expect(new Set(all.server.received.flatMap((mail) => headerOf(mail, 'message-id'))).size).toBe(1);
  });

  test('a server that hangs is given up within the time, and a fault of our own is shown in the end', async () => {
    const all = await mailed(store);
    all.server.trouble = () => 'silent';
    await comes(all, (await wantedRows(all))[0]!);
    const began = performance.now();
    // It begins to send as soon as it starts.
    await all.shift.worker({}, (parts) => ({
      ...parts,
      mail: { ...MAIL, mailer: createMailer({ smtpUrl: all.server.url, from: MAIL.from }, { withinMs: 300 }) },
    }));
    await expect.poll(async () => (await mails(all))[0]?.last_error, { timeout: 10_000 }).toBeTruthy();
    expect(performance.now() - began).toBeLessThan(5_000);
    expect(await mails(all)).toMatchObject([{ tries: 1, sent_at: null }]);
    // A site whose zone nobody knows cannot be written into a mail.
    all.server.trouble = undefined;
    await all.shift.world.sql(`UPDATE site SET time_zone = 'Nowhere/None'`);
    passes(all, 2 * MINUTE);
    await triesAll(all);
    expect(await items(all)).toMatchObject([{ kind: 'job', closed_how: null }]);
    expect(await mails(all)).toMatchObject([{ last_error: 'fault' }]);
  });
}

function unwanted(store: Store): void {
  test('what was done meanwhile, or is said by a later reminder, is not mailed', async () => {
    const all = await mailed(store);
    const rows = await wantedRows(all);
    await comes(all, rows[0]!);
    await comes(all, rows[1]!);
    await all.worker.mails.sendDue();
    // 8 May begins in Denver: two days are left to the 10th.
    expect(all.server.received.map(({ text }) => text.split(':')[0])).toEqual(['2 days are left']);
    await comes(all, rows[2]!);
    await followUp(all, '2026-05-10', 'pass');
    await all.worker.mails.sendDue();
    expect(all.server.received).toHaveLength(1);
    expect((await mails(all)).filter((row) => row.dropped_at !== null)).toHaveLength(2);
  });

  test('nobody is mailed who left, or does other work now', async () => {
    const all = await mailed(store);
    await secondDispatcher(all, 'second@firm.example');
    await comes(all, (await wantedRows(all))[0]!);
    await all.shift.world.sql(`UPDATE person SET active = false WHERE email = 'second@firm.example'`);
    await all.shift.world.sql(`UPDATE person SET role = 'technician' WHERE role = 'dispatcher' AND active`);
    await all.worker.mails.sendDue();
    expect(all.server.received).toEqual([]);
    expect((await mails(all)).every((row) => row.dropped_at !== null)).toBe(true);
  });

  test('without a mail server no mail is planned', async () => {
    const all = await told(store);
    await comes(all, (await wantedRows(all))[0]!);
    expect(await all.shift.notices()).toHaveLength(1);
    expect(await mails(all)).toEqual([]);
  });

  test('in a demo, whose people are invented, no mail is planned', async () => {
    const demo = await mailed(store);
    await demo.shift.world.sql('UPDATE tenant SET demo = true');
    await comes(demo, (await wantedRows(demo))[0]!);
    expect(await demo.shift.notices()).toHaveLength(1);
    expect(await mails(demo)).toEqual([]);
  });

  test('names that people typed begin no header', async () => {
    const all = await mailed(store);
    await all.shift.world.sql(`UPDATE unit SET tag = E'0417\\r\\nBcc: all@firm.example'`);
    await all.shift.world.sql(`UPDATE customer SET name = E'Firm\\n\\n<b>${newId()}</b>'`);
    await comes(all, (await wantedRows(all))[0]!);
    await all.worker.mails.sendDue();
    const [mail] = all.server.received;
    expect(headerOf(mail!, 'bcc')).toEqual([]);
    expect(headerOf(mail!, 'subject')[0]).toMatch(/^0417 Bcc: all@firm\.example-A: /);
    expect(mail?.to).toEqual([await addressOf(all, 'dispatcher')]);
    expect(mail?.html).not.toContain('<b>');
  });
}
