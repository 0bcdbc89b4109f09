/** One letter in both forms: plain text for every reader, and the same words in as little HTML as shows a link. */
import { escaped, oneLine } from './line.ts';

/** What goes out, ready to be addressed. The subject is one line. */
export interface MailText {
  readonly subject: string;
  readonly text: string;
  readonly html: string;
}
export interface Letter {
  readonly subject: string;
  readonly before: readonly string[];
  /** What it is about, as name and value. */
  readonly facts?: readonly (readonly [name: string, value: string])[];
  readonly link: { readonly words: string; readonly url: string };
  readonly after: readonly string[];
}

const STYLE = 'font:16px/1.5 system-ui,sans-serif;max-width:36em;margin:1.5em auto;padding:0 1em';

export function write({ subject, before, facts = [], link, after }: Letter): MailText {
  const clean = (lines: readonly string[]): string[] => lines.map(oneLine);
  const rows = facts.map(([name, value]) => [oneLine(name), oneLine(value)] as const);
  const paragraph = (line: string): string => `<p>${escaped(line)}</p>`;
  const table = rows.map(
    ([name, value]) => `<tr><td style="padding-right:1em">${escaped(name)}</td><td>${escaped(value)}</td></tr>`,
  );
  const url = escaped(link.url);
  return {
    subject: oneLine(subject),
    text: [
      ...clean(before),
      ...(rows.length === 0 ? [] : [rows.map(([name, value]) => `${name}: ${value}`).join('\n')]),
      `${oneLine(link.words)}:\n${link.url}`,
      ...clean(after),
    ]
      .join('\n\n')
      .concat('\n'),
    html: [
      `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${escaped(oneLine(subject))}</title></head>`,
      `<body style="${STYLE}">`,
      ...clean(before).map(paragraph),
      ...(table.length === 0 ? [] : [`<table>${table.join('')}</table>`]),
      `<p><a href="${url}">${escaped(oneLine(link.words))}</a><br>${url}</p>`,
      ...clean(after).map(paragraph),
      '</body></html>',
    ].join('\n'),
  };
}
