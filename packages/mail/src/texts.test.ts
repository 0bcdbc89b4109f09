import { expect, test } from 'vitest';
import { invitationMail, resetMail } from './links.ts';
import { longDay, reminderMail } from './reminder.ts';
import type { Reminder } from './reminder.ts';

const invitation = {
  by: { name: 'Ada Quill', contractor: 'Coldwell Refrigeration' },
  role: 'a technician',
  to: 'kim@firm.example',
  url: 'https://ullage.firm.example/join/1d4f',
  days: 7,
};
const reminder: Reminder = {
  contractor: 'Coldwell Refrigeration',
  circuit: '0417-A',
  customer: 'Harvest Foods',
  site: 'Market 12',
  address: '1 Main St, Denver',
  duty: 'Follow-up verification test',
  rulebook: 'US HFC rule, 40 CFR 84 subpart C',
  clause: '40 CFR 84.106(e)',
  why: 'Within 10 days of normal operation.',
  responsible: 'owner-or-operator',
  dueOn: '2026-05-10',
  daysLeft: 6,
  timeZone: 'America/Denver',
  provisional: false,
  url: 'https://ullage.firm.example/units/7',
};

test('an invitation says who invites to what as whom, and how long the link is good', () => {
  const { subject, text, html } = invitationMail(invitation);
  expect(subject).toBe('Ada Quill invites you to Coldwell Refrigeration');
  expect(text).toBe(
    'Ada Quill invites you to work in Ullage for Coldwell Refrigeration, as a technician.\n\n' +
      'Open the invitation:\nhttps://ullage.firm.example/join/1d4f\n\n' +
      'The link works once and ends after 7 days. It is for kim@firm.example alone. ' +
      'If you do not know Coldwell Refrigeration, leave it.\n',
  );
  expect(html).toContain('<a href="https://ullage.firm.example/join/1d4f">Open the invitation</a>');
});

test('a reset says who had it sent, and that nothing happens to whoever leaves it', () => {
  const link = { url: 'https://ullage.firm.example/reset/abc', days: 7 };
  const door = resetMail({ ...link, by: 'the door' });
  expect(door.subject).toBe('A new password for Ullage');
  expect(door.text).toContain('Somebody asked for a new password for the account under this address.');
  expect(door.text).toContain('https://ullage.firm.example/reset/abc\n');
  expect(door.text).toContain('If you did not want this, leave it');
  const named = resetMail({ ...link, by: { name: 'Ada Quill', contractor: 'Coldwell Refrigeration' } });
  expect(named.text).toMatch(/^Ada Quill of Coldwell Refrigeration had this sent to you/);
});

test('a reminder says what is due, until when by the site’s clock, by which clause and of whom', () => {
  const { subject, text } = reminderMail(reminder);
  expect(subject).toBe('0417-A: Follow-up verification test, due Sunday 10 May 2026');
  expect(text.split('\n').slice(0, 8)).toEqual([
    '6 days are left: Follow-up verification test of 0417-A is due on Sunday 10 May 2026.',
    '',
    'Site: Market 12, 1 Main St, Denver',
    'Customer: Harvest Foods',
    'Due: Sunday 10 May 2026, until midnight at the site (America/Denver)',
    'Clause: 40 CFR 84.106(e) (US HFC rule, 40 CFR 84 subpart C)',
    'Responsible: owner or operator',
    'Why: Within 10 days of normal operation.',
  ]);
  expect(text).toContain('Open the unit:\nhttps://ullage.firm.example/units/7\n');
  expect(text).toContain('It is not legal advice.');
  expect(reminderMail({ ...reminder, provisional: true }).text).toContain('(America/Denver); provisional\n');
});

test.each([
  [3, /^3 days are left: .* is due on/],
  [1, /^Tomorrow is the last legal day: .* is due on/],
  [0, /^Today is the last legal day: .* is due on/],
  [-1, /^The last legal day is over: .* was due on/],
])('with %i days left it says so', (daysLeft, said) => {
  expect(reminderMail({ ...reminder, daysLeft }).text).toMatch(said);
});

test('days are said in full', () => {
  // 29 February 2028 is a Tuesday, by the Gregorian calendar.
  expect(longDay('2028-02-29')).toBe('Tuesday 29 February 2028');
});

const EVIL = 'Firm\r\nBcc: all@firm.example\n\n<script>"&\u2028\u202eevil';
test('what people typed begins no header, no paragraph and no element', () => {
  const mails = [
    invitationMail({ ...invitation, by: { name: EVIL, contractor: EVIL } }),
    resetMail({ by: { name: EVIL, contractor: EVIL }, url: invitation.url, days: 7 }),
    reminderMail({ ...reminder, circuit: EVIL, site: EVIL, customer: EVIL, contractor: EVIL }),
  ];
  for (const { subject, text, html } of mails) {
    expect(subject).not.toMatch(/[\p{Cc}\p{Zl}\u202e]/u);
    expect(text).not.toMatch(/^Bcc:/m);
    expect(text).not.toMatch(/[\r\u2028\u202e]/);
    expect(html).not.toContain('<script>');
    expect(html).not.toMatch(/[\r\u2028\u202e]/);
  }
  expect(mails[0]?.html).toContain('&lt;script&gt;&quot;&amp;');
});

test('a name without end does not make a subject without end', () => {
  const { subject } = invitationMail({ ...invitation, by: { name: 'x'.repeat(5_000), contractor: 'Firm' } });
  expect(subject).toHaveLength(200);
  expect(subject).toMatch(/…$/);
});
