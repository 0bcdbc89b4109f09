import { barometerKpa } from '@ullage/units';
import { describe, expect, test } from 'vitest';
import { evacuationLevel, findRefrigerant, REFRIGERANTS } from './index.ts';
import type { EvacuationInput, Work } from './index.ts';

const SEA = 101.325;
const level = (refrigerant: string, pounds: string, more: Partial<EvacuationInput> = {}) =>
  evacuationLevel({
    refrigerant,
    fullCharge: { value: pounds, unit: 'lb' },
    machineMadeOn: '2020-06-01',
    barometerKpa: SEA,
    evacuateAfter: true,
    leakingPart: false,
    major: true,
    ...more,
  });

describe('40 CFR 82.156, Table 1', () => {
  test.each([
    ['R-410A', '210', '2020-01-01', '10 inHg vacuum'],
    ['R-22', '150', '2020-01-01', '0 inHg vacuum'],
    ['R-22', '200', '2020-01-01', '10 inHg vacuum'],
    ['R-22', '199.99', '2020-01-01', '0 inHg vacuum'],
    ['R-22', '260', '1992-01-01', '4 inHg vacuum'],
    ['R-134a', '250', '2020-01-01', '15 inHg vacuum'],
    ['R-134a', '250', '1992-01-01', '4 inHg vacuum'],
    ['R-134a', '250', '1993-11-14', '4 inHg vacuum'],
    ['R-134a', '250', '1993-11-15', '15 inHg vacuum'],
    ['R-12', '199', '2020-01-01', '10 inHg vacuum'],
    ['R-12', '199', '1992-01-01', '4 inHg vacuum'],
    ['R-123', '600', '2020-01-01', '25 mmHg absolute'],
    ['R-123', '600', '1992-01-01', '25 mmHg absolute'],
    ['R-508B', '300', '2020-01-01', '0 inHg vacuum'],
  ])('%s, %s lb, machine of %s: %s', (refrigerant, pounds, machineMadeOn, text) =>
    expect(level(refrigerant, pounds, { machineMadeOn }).levelText).toBe(text),
  );
  // 29.9 - 10 = 19.9 inHg = 67.4 kPa; 29.9 - 15 = 14.9 inHg = 50.5 kPa; 25 mmHg = 3.33 kPa (NIST SP 811 factors).
  test.each([
    ['R-22', '260', 67.4],
    ['R-134a', '400', 50.5],
    ['R-123', '400', 3.33],
  ])('%s, %s lb: %d kPa absolute', (refrigerant, pounds, kpa) =>
    expect(level(refrigerant, pounds).levelKpa).toBeCloseTo(kpa, 1),
  );
  test('0 inHg at 1,600 m is the local barometer, never above it', () => {
    const high = barometerKpa(1600);
    expect(level('R-410A', '12', { barometerKpa: high }).levelKpa).toBe(high);
  });
});

describe('major work (40 CFR 82.152)', () => {
  const judged = (work: Work) => level('R-22', '260', { major: undefined, work }).major;
  test.each([
    ['compressor removed, open for 2 minutes', { removes: 'compressor', openMinutes: 2 }, true],
    ['5 square inches for 10 minutes', { openingSquareInches: 5, openMinutes: 10 }, false],
    ['3 square inches for 20 minutes', { openingSquareInches: 3, openMinutes: 20 }, false],
    ['4.1 square inches for 16 minutes', { openingSquareInches: 4.1, openMinutes: 16 }, true],
    ['4 square inches for 15 minutes: neither is passed', { openingSquareInches: 4, openMinutes: 15 }, false],
    ['a coil among other parts', { removes: ['other', 'auxiliary-coil'] }, true],
  ] as const)('%s', (_, work, major) => expect(judged(work)).toBe(major));
  test('a gauge hose is not even an opening', () =>
    expect(level('R-22', '260', { major: undefined, work: { hosesOnly: true } })).toMatchObject({
      levelKpa: null,
      flags: ['not-an-opening'],
    }));
  test('not said: the level of major work is given', () =>
    expect(level('R-22', '260', { major: undefined, evacuateAfter: false })).toMatchObject({
      major: null,
      levelText: '10 inHg vacuum',
    }));
});

describe('40 CFR 82.156(a)(1), (a)(2)', () => {
  const minor = { major: false, evacuateAfter: false } as const;
  test('not major and not evacuated afterwards: 0 psig, which is the barometer', () => {
    expect(level('R-22', '260', minor)).toMatchObject({ levelKpa: SEA, clause: '40 CFR 82.156(a)(1)(i)' });
    expect(level('R-123', '260', minor)).toMatchObject({ levelKpa: SEA, clause: '40 CFR 82.156(a)(1)(ii)' });
  });
  test('not major but evacuated afterwards: Table 1', () =>
    expect(level('R-22', '260', { major: false }).levelText).toBe('10 inHg vacuum'));
  test('an oil change stays at or below 5 psig', () =>
    expect(level('R-22', '260', { ...minor, work: { oilChange: true } }).levelKpa).toBeCloseTo(135.8, 1));
  test('a leaking part that cannot be isolated: lowest clean level, never above 0 psig', () =>
    expect(level('R-22', '260', { leakingPart: true, isolatable: false })).toMatchObject({
      levelKpa: SEA,
      clause: '40 CFR 82.156(a)(2)',
      flags: ['lowest-attainable'],
    }));
  test('one that can be isolated: sound parts to Table 1', () =>
    expect(level('R-22', '260', { leakingPart: true, isolatable: true })).toMatchObject({
      flags: ['isolate-leaking-part'],
      levelKpa: level('R-22', '260').levelKpa,
    }));
});

describe('small appliances (40 CFR 82.156(b)) and system-dependent equipment (e)', () => {
  const small = (more: Partial<EvacuationInput>) =>
    level('R-134a', '4.0', { smallAppliance: true, factorySealed: true, ...more });
  test.each([
    ['machine of 2020, compressor runs', { compressorRuns: true }, 90],
    ['machine of 2020, compressor dead', { compressorRuns: false }, 80],
    ['machine of 1992', { compressorRuns: true, machineMadeOn: '1992-05-01' }, 80],
  ] as const)('%s', (_, more, percent) => {
    expect(small(more).percentOfCharge).toBe(percent);
    expect(small(more).levelKpa).toBeCloseTo(87.7, 1); // or 4 inHg: 25.9 inHg absolute
  });
  test('charged in the field, or over 5 lb, it is none', () => {
    expect(small({ factorySealed: false })).toMatchObject({
      flags: ['not-a-small-appliance'],
      levelText: '10 inHg vacuum',
    });
    expect(level('R-134a', '5.01', { smallAppliance: true, factorySealed: true }).percentOfCharge).toBeUndefined();
    expect(level('R-134a', '5', { smallAppliance: true, factorySealed: true }).percentOfCharge).toBe(90);
  });
  test('system-dependent: 15 lb yes, 15.1 lb no', () => {
    expect(level('R-22', '15', { systemDependent: true }).flags).toEqual([]);
    expect(level('R-22', '15.1', { systemDependent: true }).flags).toEqual(['system-dependent-not-allowed']);
  });
});

describe('pressure classes (40 CFR 82.152)', () => {
  const classes = (names: string) => new Set(names.split(' ').map((name) => findRefrigerant(name)?.pressureClass));
  test('the examples that the law names', () => {
    expect(classes('R-11 R-113 R-123 R-245fa')).toEqual(new Set(['low']));
    expect(classes('R-12 R-114 R-124 R-134a R-500')).toEqual(new Set(['medium']));
    expect(classes('R-22 R-407A R-407C R-410A R-502')).toEqual(new Set(['high']));
    expect(classes('R-13 R-23 R-503 R-508B')).toEqual(new Set(['very-high']));
  });
  test('R-32 is very high by the figure, 359.4 psia, and marked as doubtful', () =>
    expect(findRefrigerant('R-32')).toMatchObject({
      pressureClass: 'very-high',
      pressureClassReason: { doubtful: true },
    }));
  test('every blend is whole, of known substances', () => {
    for (const { name, components } of Object.values(REFRIGERANTS)) {
      const total = components.reduce((sum, part) => sum + Number(part.massPercent), 0);
      expect(total, name).toBeCloseTo(100, 9);
      for (const part of components) expect(REFRIGERANTS[part.name], `${name}: ${part.name}`).toBeDefined();
    }
  });
  test('an unknown gas gets no level', () => {
    expect(level('R-9999', '10')).toMatchObject({ levelKpa: null, flags: ['refrigerant-unknown'] });
    expect(findRefrigerant('constructor')).toBeUndefined();
  });
});
