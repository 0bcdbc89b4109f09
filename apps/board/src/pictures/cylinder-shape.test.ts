import { expect, test } from 'vitest';
import { cylinderShape, insideLabels, levelY, spread } from './cylinder-shape.ts';

const shape = cylinderShape(404);

test('empty stands at the bottom, more liquid stands higher, too much stays inside', () => {
  expect(levelY(shape, 0)).toBe(shape.bottom);
  expect(levelY(shape, 0.6)).toBeLessThan(levelY(shape, 0.5));
  expect(levelY(shape, 1.2)).toBe(levelY(shape, 1));
  expect(levelY(shape, 1)).toBeGreaterThan(shape.top);
});

test('spread keeps the order and the gap, and moves nothing that has room', () => {
  expect(spread([10, 100, 12, 14], 34)).toEqual([10, 112, 44, 78]);
  expect(spread([10, 60], 34)).toEqual([10, 60]);
});

test('a text is drawn only where it has room', () => {
  const texts = { ullage: 'ullage', room: '10.7 lb of room', figure: '31.0 lb', notes: ['R-448A'] };
  const kinds = (liquid: number, limit: number) => insideLabels(shape, { liquid, limit }, texts).map((one) => one.text);
  expect(kinds(0.567, 0.778)).toEqual(['ullage', '10.7 lb of room', '31.0 lb', 'R-448A']);
  expect(kinds(0.77, 0.778)).not.toContain('10.7 lb of room');
  expect(kinds(0.02, 0.778)).not.toContain('31.0 lb');
  expect(insideLabels(shape, {}, { empty: 'empty' })).toMatchObject([{ text: 'empty' }]);
});
