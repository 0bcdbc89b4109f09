import { expect, test } from 'vitest';
import { netWords, standingWeights, weightsOf } from './weights.ts';

const lb = (value: string) => ({ value, unit: 'lb' as const });
const fact = (id: string, kind: string, body: Record<string, unknown>, correctsId: string | null = null) => ({
  id,
  kind,
  body,
  correctsId,
  happenedAt: `2026-04-30T17:0${id.length}:00.000Z`,
});
const charge = fact('a', 'charge', { before: lb('145.3'), after: lb('127.3') });

test('without a correction the weights stand as written', () => {
  expect(standingWeights(charge, [charge])).toEqual({ before: lb('145.3'), after: lb('127.3') });
  expect(netWords(charge, [charge])).toBe('18 lb');
});
test('each weight stands as its last correction left it', () => {
  const facts = [
    fact('aaa', 'correction', { after: lb('128'), why: 'second look' }, 'a'),
    fact('aa', 'correction', { before: lb('146'), after: lb('126'), why: 'wrong line' }, 'a'),
    charge,
    fact('other', 'correction', { after: lb('1'), why: 'of another fact' }, 'b'),
  ];
  expect(standingWeights(charge, facts)).toEqual({ before: lb('146'), after: lb('128') });
  expect(netWords(charge, facts)).toBe('18 lb');
});
test('a recovery counts the other way round', () => {
  const grams = (value: string) => ({ value, unit: 'g' as const });
  expect(netWords(fact('r', 'recovery', { before: grams('15400'), after: grams('27400') }), [])).toBe('12,000 g');
});
test('a fact without weights has none, and is left out of a sum', () => {
  const look = fact('l', 'look', { places: ['flare-nut'] });
  expect(standingWeights(look, [])).toBeUndefined();
  expect(weightsOf([look, charge], [])).toHaveLength(1);
  expect(standingWeights(fact('x', 'charge', { before: 'lots', after: { value: 1, unit: 'lb' } }), [])).toBeUndefined();
});
