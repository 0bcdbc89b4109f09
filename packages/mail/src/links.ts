/** The mails that carry a link which opens something: made once, good once, for some days. */
import { write } from './letter.ts';
import type { MailText } from './letter.ts';

interface OneLink {
  readonly url: string;
  /** How long the link is good. */
  readonly days: number;
}
/** Whoever had the mail sent, and the contractor they work for. */
export interface Writer {
  readonly name: string;
  readonly contractor: string;
}
export interface Invitation extends OneLink {
  readonly by: Writer;
  /** The role as a person says it, with its article: `a technician`. */
  readonly role: string;
  /** The address the invitation is for: it opens for no other. */
  readonly to: string;
}

const once = (days: number): string => `The link works once and ends after ${days} days.`;

export const invitationMail = ({ by, role, to, url, days }: Invitation): MailText =>
  write({
    subject: `${by.name} invites you to ${by.contractor}`,
    before: [`${by.name} invites you to work in Ullage for ${by.contractor}, as ${role}.`],
    link: { words: 'Open the invitation', url },
    after: [`${once(days)} It is for ${to} alone. If you do not know ${by.contractor}, leave it.`],
  });

export interface Reset extends OneLink {
  /** A person of the contractor, or nobody but whoever typed the address at the door. */
  readonly by: Writer | 'the door';
}

export const resetMail = ({ by, url, days }: Reset): MailText =>
  write({
    subject: 'A new password for Ullage',
    before: [
      by === 'the door'
        ? 'Somebody asked for a new password for the account under this address.'
        : `${by.name} of ${by.contractor} had this sent to you, so that you can choose a new password.`,
    ],
    link: { words: 'Choose a new password', url },
    after: [
      `${once(days)} All devices are signed out when the new password is saved.`,
      'If you did not want this, leave it: the password stays as it is.',
    ],
  });
