/** How a link comes to whom it is for. It stands in one mail or in one answer, and nowhere else. */
import type { Mailer, MailText } from '@ullage/mail';
import type { Log } from '../../http/log.ts';
import type { ResetLink } from './shapes.ts';

export interface HandedLink {
  readonly to: string;
  readonly url: string;
  /** Nothing where no mail is sent. */
  readonly words: MailText | undefined;
}

/** By mail where mail is set; else, and when the mail was not taken, to whoever made it, this once. */
export async function handOn(
  { mail, log }: { readonly mail: Mailer | undefined; readonly log: Log },
  link: HandedLink,
): Promise<ResetLink> {
  const { to, url, words } = link;
  if (mail === undefined || words === undefined) return { to, mail: 'off', url };
  try {
    await mail.send({ to, ...words });
    return { to, mail: 'sent', url: null };
  } catch (error) {
    log.trouble('a link was not mailed', error);
    return { to, mail: 'failed', url };
  }
}
