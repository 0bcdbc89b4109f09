export { invitationMail, resetMail } from './links.ts';
export type { Invitation, Reset, Writer } from './links.ts';
export { createMailer, MailFailed } from './mailer.ts';
export type { Mailer, Outgoing } from './mailer.ts';
export { reminderMail } from './reminder.ts';
export type { Reminder } from './reminder.ts';
export { MAIL_ENVIRONMENT, mailFaults, mailSettings, SENDER_IS_NAMED } from './settings.ts';
export type { MailSettings } from './settings.ts';
export type { MailText } from './letter.ts';
