/** The way out: one message to one person over SMTP, within a time. */
import { createTransport } from 'nodemailer';
import * as z from 'zod';
import type { MailText } from './letter.ts';
import { oneLine } from './line.ts';
import type { MailSettings } from './settings.ts';

export interface Outgoing extends MailText {
  /** One address, of one person. */
  readonly to: string;
  /** What makes the message this one: sent twice, it is the same message to every mail system. Free without it. */
  readonly key?: string;
}
export interface Mailer {
  /** Settles once the server has taken the message. @throws MailFailed */
  send(mail: Outgoing): Promise<void>;
}

/** `address`: the server does not take this address, and will not tomorrow. `server`: it may take it later. */
export type Fault = 'address' | 'server';
/** Says nothing of whom the mail was for or of what stood in it: it may be written to a log. */
export class MailFailed extends Error {
  readonly fault: Fault;
  /** The library's word or the server's number. */
  readonly code: string;
  constructor(fault: Fault, code: string) {
    super(fault === 'address' ? 'The mail server refuses the address.' : 'The mail server did not take the message.');
    this.name = 'MailFailed';
    this.fault = fault;
    this.code = code;
  }
}

const LOOPBACK = new Set(['localhost', '127.0.0.1', '[::1]']);

/** A password is not sent in the clear, but to this very computer. */
function insistsOnTls(smtpUrl: string): boolean {
  const { protocol, username, hostname } = new URL(smtpUrl);
  return protocol === 'smtp:' && username !== '' && !LOOPBACK.has(hostname);
}

/** `withinMs` bounds the whole of one sending; a server that answers later has perhaps taken the message all the same. */
export function createMailer({ smtpUrl, from }: MailSettings, { withinMs }: { withinMs: number }): Mailer {
  const transport = createTransport({
    url: smtpUrl,
    requireTLS: insistsOnTls(smtpUrl),
    connectionTimeout: withinMs,
    greetingTimeout: withinMs,
    socketTimeout: withinMs,
    // Nothing that a person typed may name a file or an address to be fetched.
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  const host = from.address.slice(from.address.lastIndexOf('@') + 1);
  return {
    async send({ to, key, subject, text, html }) {
      // The library reads a list out of one text: what is no single address must not reach it.
      if (!z.email().safeParse(to).success) throw new MailFailed('address', 'not-an-address');
      try {
        await transport.sendMail({
          from,
          to: { name: '', address: to },
          envelope: { from: from.address, to: [to] },
          subject: oneLine(subject),
          text,
          html,
          ...(key === undefined ? {} : { messageId: `<${key}@${host}>` }),
          // No answer by a machine to a machine (RFC 3834).
          headers: { 'Auto-Submitted': 'auto-generated' },
          signal: AbortSignal.timeout(withinMs),
        });
      } catch (error) {
        throw failureOf(error);
      }
    },
  };
}

/** What the library tells of a failure beside its message, which may quote the mail. */
const Told = z.object({
  code: z.string().optional().catch(undefined),
  responseCode: z.int().optional().catch(undefined),
  command: z.string().optional().catch(undefined),
});
function failureOf(error: unknown): MailFailed {
  const { code = 'unknown', responseCode, command } = Told.safeParse(error).data ?? {};
  const isRefused = command === 'RCPT TO' && responseCode !== undefined && responseCode >= 500;
  return new MailFailed(isRefused ? 'address' : 'server', responseCode === undefined ? code : String(responseCode));
}
