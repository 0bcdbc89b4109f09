/** A mail server in the test's process: it keeps what it takes, and fails the way it is told to. */
import { once } from 'node:events';
import { createServer } from 'node:net';
import type { Socket } from 'node:net';
import { onTestFinished } from 'vitest';

export interface Received {
  readonly from: string;
  readonly to: readonly string[];
  /** Unfolded, by their names in small letters; twice the same name is two entries. */
  readonly headers: readonly (readonly [name: string, value: string])[];
  readonly text: string;
  readonly html: string;
}
/**
 * `address`: this recipient is refused for good. `busy`: try later. `silent`: it takes the connection and says nothing.
 * `cut`: it takes the message, and the line is dead before it can say so. `mute`: it takes the message and says nothing.
 */
export type Trouble = 'address' | 'busy' | 'silent' | 'cut' | 'mute';
export interface MailServer {
  readonly url: string;
  readonly received: Received[];
  /** Every command that clients gave, as it came. */
  readonly commands: string[];
  /** What goes wrong for a recipient, or for all; nothing when undefined. */
  trouble: ((to: string) => Trouble | undefined) | undefined;
  /** Connections since the start. */
  connections(): number;
  close(): Promise<void>;
}

export const headerOf = ({ headers }: Received, name: string): string[] =>
  headers.filter(([known]) => known === name).map(([, value]) => decodedWords(value));

export async function openMailServer(): Promise<MailServer> {
  const open = new Set<Socket>();
  let connections = 0;
  const server = createServer((socket) => {
    connections += 1;
    open.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => open.delete(socket));
    talk(socket, mail);
  }).listen(0);
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  const mail: MailServer = {
    url: `smtp://127.0.0.1:${address.port}`,
    received: [],
    commands: [],
    trouble: undefined,
    connections: () => connections,
    close: async () => {
      for (const socket of open) socket.destroy();
      if (server.listening) await new Promise((done) => server.close(done));
    },
  };
  return mail;
}
export async function mailServerForTest(): Promise<MailServer> {
  const mail = await openMailServer();
  onTestFinished(() => mail.close());
  return mail;
}

/** One conversation of RFC 5321, as far as a client of ours goes. */
function talk(socket: Socket, mail: MailServer): void {
  let rest = '';
  let from = '';
  let to: string[] = [];
  let inData = false;
  const say = (line: string): void => void socket.write(`${line}\r\n`);
  const path = (line: string): string => /<([^>]*)>/.exec(line)?.[1] ?? '';
  const trouble = (): Trouble | undefined => to.map((each) => mail.trouble?.(each)).find((each) => each !== undefined);
  const take = (raw: string): void => {
    mail.received.push({ from, to, ...readMessage(raw.replaceAll('\r\n..', '\r\n.')) });
    const wrong = trouble();
    if (wrong === 'cut') socket.destroy();
    else if (wrong !== 'mute') say('250 taken');
    to = [];
  };
  const command = (line: string): void => {
    mail.commands.push(line);
    const verb = line.slice(0, 4).toUpperCase();
    if (verb === 'EHLO') return say('250-test\r\n250 AUTH PLAIN');
    if (verb === 'AUTH') return say('235 ok');
    if (verb === 'MAIL') {
      from = path(line);
      return say('250 ok');
    }
    if (verb === 'RCPT') {
      const wrong = mail.trouble?.(path(line));
      if (wrong === 'address') return say('550 no such mailbox');
      if (wrong === 'busy') return say('451 later');
      to.push(path(line));
      return say('250 ok');
    }
    if (verb === 'DATA') {
      inData = true;
      return say('354 go on');
    }
    if (verb === 'QUIT') return void socket.end('221 bye\r\n');
    return say('250 ok');
  };
  socket.on('data', (bytes: Buffer) => {
    rest += bytes.toString('latin1');
    for (;;) {
      const end = rest.indexOf(inData ? '\r\n.\r\n' : '\r\n');
      if (end < 0) return;
      const piece = rest.slice(0, end);
      rest = rest.slice(end + (inData ? 5 : 2));
      if (inData) {
        inData = false;
        take(piece);
      } else command(piece);
    }
  });
  if (mail.trouble?.('') !== 'silent') say('220 test');
}

function readMessage(raw: string): Pick<Received, 'headers' | 'text' | 'html'> {
  const { headers, body } = split(raw);
  const boundary = /boundary="([^"]+)"/.exec(headers.find(([name]) => name === 'content-type')?.[1] ?? '')?.[1];
  const parts = boundary === undefined ? [raw] : body.split(`--${boundary}`).slice(1, -1);
  const found = { text: '', html: '' };
  for (const part of parts) {
    const { headers: own, body: inner } = split(part.replace(/^\r\n|\r\n$/g, ''));
    const value = (name: string): string => own.find(([known]) => known === name)?.[1] ?? '';
    const content = decoded(inner, value('content-transfer-encoding')).replaceAll('\r\n', '\n');
    if (value('content-type').startsWith('text/html')) found.html = content;
    else found.text = content;
  }
  return { headers, ...found };
}
function split(raw: string): { headers: (readonly [string, string])[]; body: string } {
  const at = raw.indexOf('\r\n\r\n');
  const lines = raw
    .slice(0, at)
    .replace(/\r\n[ \t]+/g, ' ')
    .split('\r\n');
  const headers = lines.map((line) => {
    const colon = line.indexOf(':');
    return [line.slice(0, colon).toLowerCase(), line.slice(colon + 1).trim()] as const;
  });
  return { headers, body: raw.slice(at + 4) };
}
function decoded(body: string, encoding: string): string {
  if (encoding === 'base64') return Buffer.from(body, 'base64').toString('utf8');
  if (encoding === 'quoted-printable') return quotedPrintable(body.replace(/=\r\n/g, ''));
  return Buffer.from(body, 'latin1').toString('utf8');
}
const quotedPrintable = (text: string): string =>
  Buffer.from(
    text.replace(/=([0-9A-F]{2})/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16))),
    'latin1',
  ).toString('utf8');
/** Encoded words of RFC 2047, as far as they are in UTF-8. */
const decodedWords = (value: string): string =>
  value
    .replace(/\?= +=\?/g, '?==?')
    .replace(/=\?utf-8\?([qb])\?([^?]*)\?=/gi, (_, way: string, text: string) =>
      way.toLowerCase() === 'b'
        ? Buffer.from(text, 'base64').toString('utf8')
        : quotedPrintable(text.replaceAll('_', ' ')),
    );
