/** What every refusal owes the person who reads it. */
import { Refusal } from '@ullage/contracts';
import { expect } from 'vitest';

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-/i;
/** The language of schemas and databases. */
const INNER_WORDS =
  /uuid|schema|constraint|expected|received|invalid|undefined|\bnull\b|\bstring\b|\bobject\b|regex|pattern|_p?f?key|prisma|zod|unrecognized|too_|NaN/i;

export const refusalOf = async (work: Promise<unknown>): Promise<Refusal> => {
  const error = await work.then(
    (answer) => expect.fail(`not refused: ${JSON.stringify(answer)}`),
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof Refusal)) throw error;
  return error;
};
export const faultsIn = (refusal: Refusal): Record<string, string> =>
  Object.fromEntries(refusal.errors.map(({ pointer, detail }) => [pointer, detail]));

/** At most twenty words, a label before what would be right, and nothing of the inside. */
export function expectPlainWords({ message, errors }: Refusal, at: string): void {
  for (const words of [message, ...errors.map(({ detail }) => detail)]) {
    expect(words.split(/\s+/).length, `${at}: ${words}`).toBeLessThanOrEqual(20);
    expect(words, at).not.toMatch(UUID);
    expect(words, at).not.toMatch(INNER_WORDS);
  }
  for (const { pointer, detail } of errors) {
    expect(pointer, at).toMatch(/^#(\/[A-Za-z0-9]+)*$/);
    expect(detail, at).toMatch(/^[A-Z][^:]{1,40}: \S/);
  }
}
