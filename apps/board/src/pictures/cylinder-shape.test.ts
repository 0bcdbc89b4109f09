import { expect, test } from 'vitest';
import { cylinderShape, levelY, spread } from './cylinder-shape.ts';

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
