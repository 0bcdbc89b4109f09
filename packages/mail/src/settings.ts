/** What the environment says of mail, for every program that sends any. */
import * as z from 'zod';

export interface Sender {
  /** Empty when only an address was given. */
  readonly name: string;
  readonly address: string;
}
export interface MailSettings {
  /** `smtp:` takes TLS when the server offers it, and insists on it before a password; `smtps:` begins with it. */
  readonly smtpUrl: string;
  readonly from: Sender;
}

const NAMED = /^(?<name>[^<>]*)<(?<address>[^<>\s]+)>$/;
const FROM = 'give the sender, as Ullage <mail@firm.example>';

const Sender = z
  .string({ error: FROM })
  // A control character would begin another header.
  .regex(/^[^\p{Cc}]*$/u, { error: FROM })
  .transform((text): Sender => {
    const { name = '', address = text } = NAMED.exec(text.trim())?.groups ?? {};
    return { name: name.trim().replace(/^"(.*)"$/, '$1'), address: address.trim() };
  })
  .refine(({ address }) => z.email().safeParse(address).success, { error: FROM });

const SERVER = 'give smtp://host:587 or smtps://host:465';
const isServer = (text: string): boolean => {
  const url = URL.parse(text);
  return url !== null && /^smtps?:$/.test(url.protocol) && url.hostname !== '';
};

/** The two variables, to be spread into a program's own list. Without `SMTP_URL` no mail is sent. */
export const MAIL_ENVIRONMENT = {
  SMTP_URL: z.string({ error: SERVER }).refine(isServer, { error: SERVER }).optional(),
  MAIL_FROM: Sender.optional(),
};
interface MailEnvironment {
  readonly SMTP_URL?: string | undefined;
  readonly MAIL_FROM?: Sender | undefined;
}

/** Told beside whatever else is missing: nobody should mend one variable to hear of the next. */
export const SENDER_IS_NAMED = z.refine<MailEnvironment>(
  (given) => given.SMTP_URL === undefined || given.MAIL_FROM !== undefined,
  { error: `${FROM}: SMTP_URL needs it`, path: ['MAIL_FROM'], when: () => true },
);

/** What is wrong with the two variables, a sentence for each and never a value; for who starts programs that read them. */
export const mailFaults = (given: { readonly [Name in keyof MailEnvironment]?: string | undefined }): string[] =>
  (z.object(MAIL_ENVIRONMENT).check(SENDER_IS_NAMED).safeParse(given).error?.issues ?? []).map(
    ({ path, message }) => `${path.join('.')}: ${message}`,
  );

/** Undefined where no mail is sent. */
export const mailSettings = ({ SMTP_URL: smtpUrl, MAIL_FROM: from }: MailEnvironment): MailSettings | undefined =>
  smtpUrl === undefined || from === undefined ? undefined : { smtpUrl, from };
