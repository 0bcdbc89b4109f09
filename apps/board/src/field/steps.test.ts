import { describe, expect, test } from 'vitest';
import { pathTo, routeOf } from './router.ts';
import { factsAt, nextOpenStep, placeOf, stepOf, STEPS, stepsFor } from './steps.ts';

const fact = (kind: string, body: Record<string, unknown> = {}, circuitId: string | null = 'c1') => ({
  kind,
  body,
  circuitId,
});

describe('the order of the work', () => {
  test('a call leads through all steps; the repair is proven before gas goes in', () => {
    const order = stepsFor({ purpose: 'call' }, []).map((step) => step.id);
    expect(order).toEqual(STEPS.map((step) => step.id));
    expect(order.indexOf('test')).toBeLessThan(order.indexOf('charge'));
    expect(order.indexOf('readings')).toBeLessThan(order.indexOf('looks'));
  });
  test('a follow-up is short until its test fails', () => {
    const short = stepsFor({ purpose: 'follow-up' }, [fact('verification', { result: 'pass' })]);
    expect(short.map((step) => step.id)).not.toContain('recovery');
    expect(short.find((step) => step.id === 'test')?.title).toBe('Follow-up verification');
    expect(stepsFor({ purpose: 'follow-up' }, [fact('verification', { result: 'fail' })])).toBe(STEPS);
  });
  test('a step outside a short order still has its place', () => {
    const short = stepsFor({ purpose: 'follow-up' }, []);
    expect(placeOf(short, 'recovery').of).toBe(STEPS.length);
    expect(placeOf(short, 'safety')).toMatchObject({ number: 2, of: short.length });
  });
  test('going on is after the last thing recorded', () => {
    expect(nextOpenStep(STEPS, [], 'c1').id).toBe('safety');
    expect(nextOpenStep(STEPS, [fact('arrival', {}, null)], 'c1').id).toBe('safety');
    expect(nextOpenStep(STEPS, [fact('look'), fact('safety', {}, null)], 'c1').id).toBe('leaks');
    expect(nextOpenStep(STEPS, [fact('departure', {}, null)], 'c1').id).toBe('leave');
  });
  test('facts stand at their step, first and closing readings apart, each circuit for itself', () => {
    expect(stepOf(fact('readings', { stage: 'first' }))).toBe('readings');
    expect(stepOf(fact('readings', { stage: 'closing' }))).toBe('closing');
    expect(stepOf(fact('normal-operation'))).toBe('closing');
    expect(stepOf(fact('correction', { why: 'x' }))).toBeUndefined();
    expect(factsAt([fact('look', {}, 'c2'), fact('look')], 'looks', 'c1')).toHaveLength(1);
  });
});

describe('addresses', () => {
  test.each([
    ['/field', '', { is: 'today' }],
    ['/field/', '', { is: 'today' }],
    ['/field/visits/v1', '', { is: 'visit', visitId: 'v1', step: 'start', circuitId: null }],
    ['/field/visits/v1/charge', '?circuit=c2', { is: 'visit', visitId: 'v1', step: 'charge', circuitId: 'c2' }],
    ['/field/visits/v1/steps', '', { is: 'visit', visitId: 'v1', step: 'steps', circuitId: null }],
    ['/field/visits/v1/nonsense', '', { is: 'nowhere' }],
    ['/field/visits', '', { is: 'nowhere' }],
    ['/units', '', { is: 'nowhere' }],
  ])('%s%s', (path, search, route) => expect(routeOf(path, search)).toEqual(route));
  test('a path leads back to where it was made for', () => {
    for (const step of ['start', 'leaks', 'steps'] as const) {
      const [path = '', search = ''] = pathTo('v1', step, 'c 1').split(/(?=\?)/);
      expect(routeOf(path, search)).toEqual({ is: 'visit', visitId: 'v1', step, circuitId: 'c 1' });
    }
  });
});
