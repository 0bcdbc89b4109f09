/** What a recorded fact was about, where the server's line leaves it out. */
import type { FactView } from '@ullage/contracts';
import { listOf, PLACES, textOf } from './words.ts';

const texts = (value: unknown): readonly string[] =>
  Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];

/** The places of a look; nothing for other kinds. */
export function detailOf({ kind, body }: Pick<FactView, 'kind' | 'body'>): string | undefined {
  if (kind !== 'look') return undefined;
  const places = listOf(texts(body['places']).map((place) => textOf(PLACES, place)));
  return typeof body['where'] === 'string' ? `${places}, ${body['where']}` : places;
}
