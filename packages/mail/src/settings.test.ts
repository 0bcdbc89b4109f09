import * as z from 'zod';
import { expect, test } from 'vitest';
import { MAIL_ENVIRONMENT, mailFaults, mailSettings, SENDER_IS_NAMED } from './settings.ts';

const Environment = z.object({ ...MAIL_ENVIRONMENT, PORT: z.string() }).check(SENDER_IS_NAMED);
const faults = (given: Record<string, string>): string[] =>
  (Environment.safeParse({ PORT: '1', ...given }).error?.issues ?? []).map(
    ({ path, message }) => `${path.join('.')}: ${message}`,
  );
const settings = (given: Record<string, string>) => mailSettings(Environment.parse({ PORT: '1', ...given }));

test('without SMTP_URL nothing is sent, whatever the sender', () => {
  expect(settings({})).toBeUndefined();
  expect(settings({ MAIL_FROM: 'mail@firm.example' })).toBeUndefined();
});

test.each([
  ['mail@firm.example', { name: '', address: 'mail@firm.example' }],
  ['Ullage <mail@firm.example>', { name: 'Ullage', address: 'mail@firm.example' }],
  ['"Coldwell, Inc." <mail@firm.example>', { name: 'Coldwell, Inc.', address: 'mail@firm.example' }],
])('the sender is read: %s', (MAIL_FROM, from) => {
  expect(settings({ SMTP_URL: 'smtps://u:p@mail.example', MAIL_FROM })).toEqual({
    smtpUrl: 'smtps://u:p@mail.example',
    from,
  });
});

const FROM = 'MAIL_FROM: give the sender, as Ullage <mail@firm.example>';
test.each([
  [{ SMTP_URL: 'http://mail.example', MAIL_FROM: 'a@b.example' }, 'SMTP_URL: give smtp://host:587 or smtps://host:465'],
  [{ SMTP_URL: 'mail.example:25', MAIL_FROM: 'a@b.example' }, 'SMTP_URL: give smtp://host:587 or smtps://host:465'],
  [{ SMTP_URL: 'smtp://', MAIL_FROM: 'a@b.example' }, 'SMTP_URL: give smtp://host:587 or smtps://host:465'],
  [{ SMTP_URL: 'smtp://mail.example' }, `${FROM}: SMTP_URL needs it`],
  [{ SMTP_URL: 'smtp://mail.example', MAIL_FROM: 'Ullage' }, FROM],
  [{ SMTP_URL: 'smtp://mail.example', MAIL_FROM: 'a@b.example, c@d.example' }, FROM],
  [{ SMTP_URL: 'smtp://mail.example', MAIL_FROM: 'A\r\nBcc: c@d.example <a@b.example>' }, FROM],
])('a start is refused with the variable named: %j', (given, said) => {
  expect(faults(given)).toEqual([said]);
  expect(mailFaults(given)).toEqual([said]);
});

test('the sender is missed beside whatever else is missing', () => {
  const { error } = Environment.safeParse({ SMTP_URL: 'smtp://mail.example' });
  expect(error?.issues.map(({ path }) => path.join('.'))).toEqual(['PORT', 'MAIL_FROM']);
});
