import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { portFree } from '../postgres/cluster.ts';

const Ports = z.object({ board: z.int(), api: z.int() });
export type Ports = z.output<typeof Ports>;

export interface PortWishes {
  readonly file: string;
  /** From PORT: taken or refused, never replaced by another. */
  readonly board?: number;
  readonly firstBoard?: number;
  readonly firstApi?: number;
}

/**
 * The ports of board and api: those of the last start, else the first free ones from 3000 and 3100 on. A bookmark so
 * keeps working.
 */
export async function choosePorts({ file, board, firstBoard = 3000, firstApi = 3100 }: PortWishes): Promise<Ports> {
  const before = existsSync(file) ? Ports.safeParse(JSON.parse(readFileSync(file, 'utf8'))).data : undefined;
  if (board !== undefined && !(await portFree(board))) throw new Error(`Port ${board}, asked for by PORT, is taken.`);
  const ports = {
    board: board ?? (await firstFree([before?.board, ...from(firstBoard)])),
    api: await firstFree([before?.api, ...from(firstApi)]),
  };
  if (board === undefined) {
    writeFileSync(`${file}.new`, JSON.stringify(ports));
    renameSync(`${file}.new`, file);
  }
  return ports;
}

const from = (first: number): number[] => Array.from({ length: 99 }, (_, index) => first + index);

async function firstFree(candidates: readonly (number | undefined)[]): Promise<number> {
  for (const port of candidates) if (port !== undefined && (await portFree(port))) return port;
  throw new Error('No free port was found.');
}
