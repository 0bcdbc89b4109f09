import { PARCEL_LIMITS } from '@ullage/contracts';
import type * as z from 'zod';
import { BadFile } from './bad-file.ts';

const NEWLINE = 10;

/** The lines of a file of JSON lines, each checked against its shape. @throws BadFile naming file and line */
export async function* linesOf<Line>(
  name: string,
  { content, shape }: { content: AsyncIterable<Uint8Array>; shape: z.ZodType<Line> },
): AsyncGenerator<{ line: Line; number: number }> {
  let number = 0;
  for await (const bytes of split(name, content)) {
    number += 1;
    yield { line: read(`${name}, line ${number}`, bytes, shape), number };
  }
}

async function* split(name: string, content: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let held: Uint8Array[] = [];
  let bytes = 0;
  for await (const piece of content) {
    let from = 0;
    for (let end = piece.indexOf(NEWLINE); end >= 0; end = piece.indexOf(NEWLINE, from)) {
      yield Buffer.concat([...held, piece.subarray(from, end)]);
      held = [];
      bytes = 0;
      from = end + 1;
    }
    const rest = piece.subarray(from);
    if (rest.length > 0) held.push(rest);
    bytes += rest.length;
    if (bytes > PARCEL_LIMITS.lineBytes) throw new BadFile(name, 'Has a line of more than 2 MB.');
  }
  if (bytes > 0) throw new BadFile(name, 'Ends in the middle of a line.');
}

function read<Line>(where: string, bytes: Uint8Array, shape: z.ZodType<Line>): Line {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw new BadFile(where, 'Is no JSON.');
  }
  const parsed = shape.safeParse(value);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  const field = issue?.path.join('/') ?? '';
  throw new BadFile(where, field === '' ? 'Is not a line of this file.' : `${field}: is not what belongs there.`);
}
