import { SaxesParser } from 'saxes';

export interface XmlReader {
  readonly open?: (name: string, attributes: Readonly<Record<string, string>>) => void;
  readonly text?: (text: string) => void;
  readonly close?: (name: string) => void;
}

const AT_ONCE = 64 * 1024;
/** `x:row` and `row` are one here: a workbook may name its own prefix. */
const local = (name: string): string => name.slice(name.indexOf(':') + 1);

/** Reads a part of a workbook, piece by piece. @throws Error for what is no XML, and for a document type: none is needed, and entities grow */
export function readXml(bytes: Uint8Array, reader: XmlReader): void {
  const parser = new SaxesParser();
  const fail = (why: string): never => {
    throw new Error(why);
  };
  parser.on('error', (error) => fail(error.message));
  parser.on('doctype', () => fail('a document type'));
  parser.on('opentag', ({ name, attributes }) => reader.open?.(local(name), attributes));
  parser.on('text', (text) => reader.text?.(text));
  parser.on('cdata', (text) => reader.text?.(text));
  parser.on('closetag', ({ name }) => reader.close?.(local(name)));
  const decoder = new TextDecoder('utf-8', { fatal: true });
  for (let at = 0; at < bytes.length; at += AT_ONCE)
    parser.write(decoder.decode(bytes.subarray(at, at + AT_ONCE), { stream: true }));
  parser.write(decoder.decode());
  parser.close();
}
