import { toDecimal } from '@ullage/units';
import { describe, expect, test } from 'vitest';
import { GWP_SETS, reportedGwp } from './gwp-sets.ts';
import { SUBSTANCES } from './substances.ts';

const figures = (name: string) =>
  GWP_SETS.map((set) => {
    const gwp = reportedGwp(name, set);
    return gwp ? toDecimal(gwp.value, 3) : null;
  });

describe('GWP by assessment report', () => {
  // Sums of the tables' values by nominal composition: 50/50, 44/52/4 and, HFOs of AR6 included, 26/26/20/21/7.
  test.each([
    ['R-410A', ['2087.5', '1923.5', '2255.5']],
    ['R-404A', ['3921.6', '3942.8', '4728']],
    ['R-507A', ['3985', '3985', '4775']],
    ['R-448A', ['1385.8', '1273.22', '1494.356']],
    ['R-22', ['1810', '1760', '1960']],
  ])('%s: %j', (name, wanted) => expect(figures(name)).toEqual(wanted));

  test('what a report has no figure for is left out of a blend by name, and unknown by itself', () => {
    expect(reportedGwp('R-448A', 'AR4')?.leftOut).toEqual(['R-1234yf', 'R-1234ze(E)']);
    expect(reportedGwp('R-448A', 'AR6')?.leftOut).toEqual([]);
    expect(figures('R-1234yf')).toEqual([null, null, '0.501']);
    expect(figures('R-717')).toEqual([null, null, null]);
    expect(figures('R-999')).toEqual([null, null, null]);
  });

  // 40 CFR 84 App. A: the exchange values of HFCs are those of AR4 (numerically; from memory).
  test('AR4 gives every HFC the exchange value of the AIM Act', () => {
    const hfcs = Object.entries(SUBSTANCES).filter(([, { kind }]) => kind === 'hfc');
    expect(hfcs.length).toBeGreaterThan(8);
    for (const [name, { gwp }] of hfcs) expect(figures(name)[0], name).toBe(gwp);
  });
});
