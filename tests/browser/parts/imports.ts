/** A file on its way in through the addresses the screen uses, for tests that are about something else. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext } from '@playwright/test';
import { PORT } from '../playwright.config.ts';
import { get, newId, post } from './firm.ts';

export const sample = (name: string): string => join(import.meta.dirname, '../../samples/imports', name);

/** Hands a file in. Gives its id; it is read soon after. */
export async function imported(
  context: BrowserContext,
  name: string,
  data: Buffer = readFileSync(sample(name)),
): Promise<string> {
  const id = newId();
  const headers = { origin: `http://localhost:${PORT}`, 'content-type': 'application/octet-stream' };
  const path = `/v1/imports/${id}?kind=equipment&name=${name}`;
  const answer = await context.request.put(path, { data, headers });
  if (!answer.ok()) throw new Error(`${path}: ${answer.status()} ${await answer.text()}`);
  return id;
}

interface Read {
  readonly columns: readonly { readonly field: string | null }[];
  readonly settings: object;
}
/** Takes the columns as they are proposed. */
export async function matched(context: BrowserContext, id: string): Promise<void> {
  const { columns, settings } = await get<Read>(context, `/v1/imports/${id}`);
  await post(context, `/v1/imports/${id}/match`, { matched: columns.map(({ field }) => field), settings });
}
