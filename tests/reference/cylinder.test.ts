import { REFRIGERANTS, cylinderRoom, saturation } from '@ullage/thermo';
import type { CylinderRoomInput } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';

const POUND = 0.45359237;
const PSI_KPA = 6.894757293;
/** Litres of a cylinder by kg of water capacity: 27.737 cubic inches to the pound (49 CFR 173.304a(a)(2), note 1). */
const LITRES_PER_KG = (27.737 * 0.016387064) / POUND;

const room = (input: CylinderRoomInput) => {
  const answer = cylinderRoom(input);
  if (!answer.ok) throw new Error(answer.fault);
  return answer;
};
const inPounds = (change: Partial<CylinderRoomInput> & { refrigerant: string; wcLb?: number; twLb?: number }) => {
  const { wcLb = 47.6, twLb = 28, ...rest } = change;
  const tareKg = twLb * POUND;
  return room({ waterCapacityKg: wcLb * POUND, tareKg, grossKg: tareKg, ...rest });
};
const netOf = (answer: ReturnType<typeof room>, rule: string) =>
  (answer.limits.find((limit) => limit.rule === rule)?.netKg ?? Number.NaN) / POUND;

const vessels = rowsOf('cylinder.csv').filter((row) => REFRIGERANTS.includes(row.fluid ?? ''));
const charged = (row: (typeof vessels)[number]) =>
  room({
    refrigerant: row.fluid ?? '',
    waterCapacityKg: number(row, 'water_capacity_L') / LITRES_PER_KG,
    tareKg: 0,
    grossKg: number(row, 'charge_kg'),
  });

test.each(vessels)(
  '$fluid, $charge_kg kg in $water_capacity_L L: liquid-full temperature (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const ours = charged(row).liquidFullTemperatureK;
    // The table leaves blank what happens in the last kelvin below the critical point (R-22: 369.295 K).
    if (row.T_liquid_full_C === '') expect(ours ?? Number.POSITIVE_INFINITY).toBeGreaterThan(368.295);
    else expect(Math.abs((ours ?? Number.NaN) - 273.15 - number(row, 'T_liquid_full_C'))).toBeLessThan(0.3);
  },
);

test.each(vessels.filter((row) => row.state_25C === 'two-phase' && row.fluid !== 'R-23'))(
  '$fluid, $charge_kg kg in $water_capacity_L L: pressure and densities at 25 °C (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const ours = saturation({ refrigerant: row.fluid ?? '', temperatureK: 298.15 });
    if (!ours.ok) throw new Error(ours.fault);
    // Of a blend the table gives the state of this very cylinder: its vapour took some of the light part, so that it
    // stands below the bubble pressure, by 1.3 % at most (R-455A, two thirds full).
    const above = percentOff(ours.bubblePressureKpa, number(row, 'p_25C_kPa'));
    expect(above).toBeGreaterThan(-0.05);
    expect(above).toBeLessThan(ours.dewPressureKpa < ours.bubblePressureKpa ? 1.3 : 0.05);
    expect(Math.abs(percentOff(ours.liquidDensityKgPerM3, number(row, 'rho_liquid_25C_kgm3')))).toBeLessThan(0.3);
  },
);

test.each(vessels.filter((row) => row['state_54.4C'] === 'two-phase'))(
  '$fluid, $charge_kg kg in $water_capacity_L L: liquid at 55 °C lies just above that at 54.4 °C (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const ours = charged(row).liquidVolumeFractionAt55C ?? Number.NaN;
    const cooler = number(row, 'liquid_volume_fraction_54.4C');
    // 0.6 K of expansion is at most 0.005 of the volume here; what a blend's vapour takes away (R-455A) is 0.005 more.
    expect(ours).toBeGreaterThan(cooler - 0.003);
    expect(ours).toBeLessThan(cooler + 0.01);
  },
);

test('AHRI Guideline K, as quoted in the trade press: R-22, 1,000 lb of water, 380 lb tare, 1.197: 957.6 and 1,337.6 lb', () => {
  const answer = inPounds({ refrigerant: 'R-22', wcLb: 1000, twLb: 380, densityKgPerM3: 1197 });
  expect(answer.limitedBy).toBe('guideline-k');
  expect(answer.netLimitKg! / POUND).toBeCloseTo(957.6, 2);
  expect(answer.grossLimitKg! / POUND).toBeCloseTo(1337.6, 2);
});

/** Computed from 0.80 × water capacity × liquid density at 25 °C (equations of state as in CoolProp 8.0.1dev HEOS). */
test.each([
  ['R-410A', 40.3, 68.3, 0.977, 57.0],
  ['R-134a', 46.0, 74.0, 0.893, 74.9],
  ['R-32', 36.6, 64.6, 0.949, 60.6],
  ['R-404A', 39.8, 67.8, 0.969, 57.8],
])(
  '%s in 47.6 lb of water: net %f lb, gross %f lb, and how full it is then',
  (refrigerant, net, gross, share, fullAtC) => {
    const empty = inPounds({ refrigerant });
    expect(empty.netLimitKg! / POUND).toBeCloseTo(net, 1);
    expect(empty.grossLimitKg! / POUND).toBeCloseTo(gross, 1);
    const full = inPounds({ refrigerant, grossKg: empty.grossLimitKg! });
    expect(full.roomKg).toBeCloseTo(0, 3);
    expect(Math.abs(full.liquidFullTemperatureK! - 273.15 - fullAtC)).toBeLessThan(0.3);
    // The share counts all contents as liquid; ours leaves to the vapour what is vapour, up to 0.7 % of the volume.
    expect(share - full.liquidVolumeFractionAt55C!).toBeGreaterThan(-0.001);
    expect(share - full.liquidVolumeFractionAt55C!).toBeLessThan(0.008);
  },
);

/** 49 CFR 173.304a(a)(2), note 1: percent of the water capacity. */
test.each([
  ['R-12', 30, 35.7],
  ['R-22', 123, 129.15],
  ['R-115', 30, 33.0],
  ['R-717', 50, 27.0],
  ['R-22', 47.6, 49.98],
])('%s, %f lb of water: filling density allows %f lb', (refrigerant, wcLb, pounds) => {
  expect(netOf(inPounds({ refrigerant, wcLb }), 'filling-density')).toBeCloseTo(pounds, 6);
});

test('R-22: Guideline K (45.3 lb) lies below the law (49.98 lb) and holds', () => {
  const answer = inPounds({ refrigerant: 'R-22' });
  expect(answer.limitedBy).toBe('guideline-k');
  expect(answer.netLimitKg! / POUND).toBeCloseTo(45.3, 1);
});

/** 49 CFR 173.304a(c): pressure at 131 °F at most 5/4 of the service pressure. Pressures: CoolProp 8.0.1dev HEOS. */
test.each([
  ['R-134a', 161],
  ['R-1234yf', 158],
  ['R-12', 146],
  ['R-290', 210],
  ['R-407C', 276],
  ['R-404A', 288],
  ['R-507A', 295],
  ['R-410A', 387],
  ['R-32', 397],
])('%s needs a service pressure of %f psig', (refrigerant, psig) => {
  expect(Math.abs(inPounds({ refrigerant }).minServicePressureKpaGauge! / PSI_KPA - psig)).toBeLessThan(0.6);
});

test('R-410A fails in a 350 and fits in a 400; R-22 fits in a 240 by its own row (49 CFR 173.304a(a)(2))', () => {
  const why = (refrigerant: string, psig: number) =>
    inPounds({ refrigerant, servicePressureKpaGauge: psig * PSI_KPA }).whyNot.map(({ code }) => code);
  expect(why('R-410A', 350)).toEqual(['service-pressure-too-low']);
  expect(why('R-410A', 400)).toEqual([]);
  expect(why('R-32', 400)).toEqual([]);
  expect(why('R-22', 240)).toEqual([]);
  expect(why('R-22', 225)).toEqual(['service-pressure-too-low']);
});

/** 49 CFR 180.205(c), (d); 180.209(a), (e), (g). */
const MARCH_2021: Partial<CylinderRoomInput> = { lastTest: { month: '2021-03', kind: 'hydrostatic' } };
const dated = (change: Partial<CylinderRoomInput>) =>
  inPounds({ refrigerant: 'R-410A', specification: 'DOT-4BA400', ...MARCH_2021, ...change });

test('recovery cylinder tested in March 2021: by the end of March 2026, no filling after', () => {
  const recovery = (filledOn: string, todayOn?: string) => dated({ kind: 'recovery', filledOn, todayOn });
  expect(recovery('2026-03-20').requalifyByOn).toBe('2026-03-31');
  expect(recovery('2026-03-20').mayFill).toBe(true);
  expect(recovery('2026-03-31', '2026-03-31').mayFill).toBe(true);
  expect(dated({ kind: 'recovery', todayOn: '2026-04-01' }).mayFill).toBe(false);
  expect(recovery('2026-04-01').mayFill).toBe(false);
  expect(recovery('2026-04-02').whyNot.map(({ code }) => code)).toEqual(['filled-after-due-date']);
  expect(dated({ kind: 'recovery', todayOn: '2026-04-02' }).mayFill).toBe(false);
});

test('filled on 20 March and still full in June: it may stay, but takes no more', () => {
  const answer = dated({ kind: 'recovery', filledOn: '2026-03-20', todayOn: '2026-06-15' });
  expect(answer).toMatchObject({ mayStayUntilEmptied: true, mayFill: false });
  expect(answer.whyNot.map(({ code }) => code)).toEqual(['requalification-overdue']);
});

test('used only for clean new gas: outside visual by March 2026, the next by March 2031', () => {
  const service = 'clean-non-corrosive';
  expect(dated({ service }).requalifyByOn).toBe('2026-03-31');
  expect(dated({ service, lastTest: { month: '2026-03', kind: 'visual' } }).requalifyByOn).toBe('2031-03-31');
});

test('coated and clean: 12 years after an expansion test, 10 after a proof test', () => {
  const clean = { service: 'clean-non-corrosive', coated: true } as const;
  expect(dated(clean).requalifyByOn).toBe('2033-03-31');
  expect(dated({ ...clean, lastTest: { month: '2021-02', kind: 'proof' } }).requalifyByOn).toBe('2031-02-28');
});

test('4B240ET and recovery service know the five-year test alone', () => {
  const clean = { refrigerant: 'R-22', service: 'clean-non-corrosive', coated: true } as const;
  expect(dated({ ...clean, specification: 'DOT-4B240ET' }).requalifyByOn).toBe('2026-03-31');
  const visual = { lastTest: { month: '2021-03', kind: 'visual' } } as const;
  for (const change of [{ ...clean, specification: 'DOT-4B240ET' }, { kind: 'recovery' as const }]) {
    const answer = dated({ ...change, ...visual });
    expect(answer.requalifyByOn).toBeNull();
    expect(answer.whyNot.map(({ code }) => code)).toEqual(['visual-does-not-count']);
  }
});

test('a dent: test at once, whatever the date; known over-pressure: condemn', () => {
  expect(dated({ damage: 'dent', todayOn: '2022-01-01' }).whyNot.map(({ code }) => code)).toEqual(['damaged-test-now']);
  expect(dated({ damage: 'over-pressurised' }).whyNot.map(({ code }) => code)).toEqual(['over-pressurised-condemn']);
});
