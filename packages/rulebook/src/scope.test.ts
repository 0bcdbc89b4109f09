import { toNumber } from '@ullage/units';
import { describe, expect, test } from 'vitest';
import { findRefrigerant, scope } from './index.ts';
import type { ScopeInput } from './index.ts';

const asked = (refrigerant: string, pounds: string, more: Partial<ScopeInput> = {}) =>
  scope({
    refrigerant,
    mass: { value: pounds, unit: 'lb' },
    use: 'commercial-refrigeration',
    onDay: '2026-07-15',
    jurisdictions: ['us-hfc'],
    ...more,
  })[0]!;

describe('40 CFR 84.106(a), GWP of 84.64(b)', () => {
  test.each([
    ['HFE-569sf2', '20', true, 'GWP 59 is over 53'],
    ['R-1336mzz(E)', '20', false, 'GWP 26'],
    ['R-290', '20', false, 'GWP 3.3'],
    ['R-744', '40', false, 'GWP 1'],
    ['R-454C', '20', true, 'holds HFC-32, whatever its GWP'],
    ['R-454B', '40', true, 'holds HFC-32'],
    ['R-404A', '14.99', false, 'below 15 lb'],
    ['R-404A', '15.0', true, '15 lb or more'],
    ['R-22', '400', false, 'only ozone-depleting'],
  ])('%s, %s lb: %s (%s)', (refrigerant, pounds, inScope) => expect(asked(refrigerant, pounds).inScope).toBe(inScope));
  test('the day before the rule applied it did not', () => {
    expect(asked('R-404A', '100', { onDay: '2025-12-31' }).inScope).toBe(false);
    expect(asked('R-404A', '100', { onDay: '2026-01-01' }).inScope).toBe(true);
  });
  // Published values of 84.64: R-454B 465.4, R-513A 629.8, R-448A 1386.1, R-454C 145.9.
  test.each([
    ['R-454B', 465.4],
    ['R-513A', 629.8],
    ['R-448A', 1386.1],
    ['R-454C', 145.9],
  ])('GWP of %s is %d', (name, gwp) => expect(toNumber(findRefrigerant(name)!.gwp)).toBeCloseTo(gwp, 1));
});

describe('the excluded subsector (preamble, 89 FR 82717-82719)', () => {
  const comfort = (equipment: ScopeInput['equipment'], subsector?: ScopeInput['subsector']) =>
    asked('R-410A', '16', { use: 'comfort-cooling', equipment, subsector });
  test('chillers are caught, whatever the building', () => {
    expect(comfort('chiller').inScope).toBe(true);
    expect(comfort('chiller', 'residential-light-commercial-ac')).toMatchObject({
      inScope: true,
      flags: ['chiller-is-not-excluded'],
    });
  });
  test('rooftop and split are not; who decided is asked for', () => {
    expect(comfort('rooftop')).toMatchObject({ inScope: false, flags: ['subsector-presumed'] });
    expect(comfort('split', 'residential-light-commercial-ac')).toMatchObject({ inScope: false, flags: [] });
    expect(comfort('rooftop', 'none').inScope).toBe(true);
    expect(asked('R-410A', '14.9', { use: 'comfort-cooling', equipment: 'rooftop' }).inScope).toBe(false);
  });
  test('variable flow is excluded and contested', () =>
    expect(comfort('variable-flow')).toMatchObject({ inScope: false, flags: ['subsector-presumed', 'contested'] }));
  test('transport stays in, with the proposal beside it (FR Doc 2026-10388)', () =>
    expect(asked('R-452A', '16', { use: 'refrigerated-transport' })).toMatchObject({
      inScope: true,
      flags: ['proposal-pending'],
    }));
});

describe('40 CFR 82.157(a)', () => {
  const ods = (refrigerant: string, pounds: string) =>
    asked(refrigerant, pounds, { jurisdictions: ['us-ods'] }).inScope;
  test('50 lb or more of a gas that holds an ozone-depleting part', () => {
    expect([ods('R-22', '50'), ods('R-22', '49.99'), ods('R-410A', '500'), ods('R-409A', '50')]).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });
  test('a blend with both is under both books', () =>
    expect(
      scope({
        refrigerant: 'R-402A',
        mass: { value: '60', unit: 'lb' },
        use: 'other',
        onDay: '2026-07-15',
        jurisdictions: ['us-ods', 'us-hfc'],
      }).map((own) => own.inScope),
    ).toEqual([true, true]));
  test('an unknown gas is not concluded on', () =>
    expect(asked('R-9999', '60')).toMatchObject({ inScope: null, flags: ['refrigerant-unknown'] }));
});
