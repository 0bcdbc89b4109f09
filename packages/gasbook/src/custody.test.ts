import { describe, expect, test } from 'vitest';
import { contradicted, lastStep, stepAt } from './index.ts';
import type { CustodyStep, Whereabouts } from './index.ts';

const at = (hour: number): string => `2026-05-04T${String(hour).padStart(2, '0')}:00:00.000Z`;
const placed = (placeId: string | null): Whereabouts => ({ state: 'placed', placeId });
const step = (factId: string, hour: number, to: string, fromId?: string | null): CustodyStep => ({
  factId,
  happenedAt: at(hour),
  now: placed(to),
  fromId,
});
const delivered = step('a', 8, 'shelf');
const taken = step('b', 10, 'van 3', 'shelf');

describe('where a cylinder is', () => {
  test('follows the order of happening, not of telling', () => {
    expect(lastStep([taken, delivered])?.now).toEqual(placed('van 3'));
    expect(stepAt([taken, delivered], at(9))?.now).toEqual(placed('shelf'));
    expect(stepAt([taken, delivered], at(10))?.now).toEqual(placed('van 3'));
    expect(stepAt([taken, delivered], at(7))).toBeUndefined();
  });
});

describe('a step that is told', () => {
  const wants = (hour: number, fromId: string | null, to: string) => ({
    happenedAt: at(hour),
    fromId,
    now: placed(to),
  });
  test('fits where the cylinder is, and names who has it where it is not', () => {
    expect(contradicted([delivered], wants(11, 'shelf', 'van 4'))).toBeUndefined();
    expect(contradicted([delivered, taken], wants(11, 'shelf', 'van 4'))).toBe(taken);
    expect(contradicted([delivered, taken], wants(11, 'van 3', 'van 4'))).toBeUndefined();
  });
  test('of the very same instant comes after the one that was told first', () =>
    expect(contradicted([delivered, taken], wants(10, 'shelf', 'van 4'))).toBe(taken));
  test('told late fits in between only where the next one takes it from there', () => {
    expect(contradicted([delivered, taken], wants(9, 'shelf', 'van 4'))).toBe(taken);
    const onward = step('c', 12, 'yard', 'van 4');
    expect(contradicted([delivered, onward], wants(9, 'shelf', 'van 4'))).toBeUndefined();
  });
  test('takes nothing that is lost or gone', () => {
    const lost: CustodyStep = { factId: 'd', happenedAt: at(12), now: { state: 'lost' }, fromId: 'shelf' };
    expect(contradicted([delivered, lost], wants(13, 'shelf', 'van 4'))).toBe(lost);
    expect(contradicted([delivered, lost], wants(13, null, 'van 4'))).toBe(lost);
  });
  test('before anybody said where it is takes it from anywhere', () =>
    expect(contradicted([], wants(9, 'shelf', 'van 4'))).toBeUndefined());
});
