import { expect, test } from 'vitest';
import { REFRIGERANTS, correlationOf } from './correlations/index.ts';
import { saturation } from './saturation.ts';

test.each(REFRIGERANTS)('%s: pressure and temperature are each other’s inverse over the whole range', (refrigerant) => {
  const { lowestK, highestK, dewPressure } = correlationOf(refrigerant)!;
  for (let i = 1; i < 40; i++) {
    const temperatureK = lowestK + ((highestK - lowestK) * i) / 40;
    const there = saturation({ refrigerant, temperatureK });
    if (!there.ok) throw new Error(there.fault);
    const back = saturation({ refrigerant, pressureKpa: there.bubblePressureKpa });
    // Near its ends a blend has a bubble point at a pressure whose dew point lies beyond the fits.
    if (back.ok) expect(Math.abs(back.bubbleTemperatureK - temperatureK)).toBeLessThan(1e-6);
    else expect(dewPressure).toBeDefined();
    const dew = saturation({ refrigerant, pressureKpa: there.dewPressureKpa });
    if (dew.ok) expect(Math.abs(dew.dewTemperatureK - temperatureK)).toBeLessThan(1e-6);
    else expect(dewPressure).toBeDefined();
    // Azeotropes touch: 0.05 % is the error of two fits together.
    expect(there.dewPressureKpa).toBeLessThan(there.bubblePressureKpa * 1.0005);
    expect(there.vapourDensityKgPerM3).toBeLessThan(there.liquidDensityKgPerM3);
    expect(there.latentHeatKjPerKg).toBeGreaterThan(0);
  }
});

test('a refrigerant nobody fitted is refused by name', () => {
  expect(saturation({ refrigerant: 'R-999', temperatureK: 300 })).toEqual({
    ok: false,
    fault: 'unknown-refrigerant',
    refrigerant: 'R-999',
  });
});

test.each([Number.NaN, -1, 0, 179, 374.2, Number.POSITIVE_INFINITY])(
  'R-134a at %f K is beyond the fits',
  (temperatureK) => {
    expect(saturation({ refrigerant: 'R-134a', temperatureK })).toMatchObject({
      ok: false,
      fault: 'temperature-out-of-range',
      lowK: 180.001,
    });
  },
);

test.each([Number.NaN, -5, 0, 5000])('R-134a at %f kPa is beyond the fits', (pressureKpa) => {
  const answer = saturation({ refrigerant: 'R-134a', pressureKpa });
  expect(answer).toMatchObject({ ok: false, fault: 'pressure-out-of-range' });
});

test('a blend at a pressure has no latent heat and says why; a pure fluid has one', () => {
  const blend = saturation({ refrigerant: 'R-407C', pressureKpa: 1000 });
  expect(blend).toMatchObject({ ok: true, latentHeatKjPerKg: null });
  expect(blend.ok && blend.reasons.some(({ text }) => text.includes('latent heat'))).toBe(true);
  const pure = saturation({ refrigerant: 'R-134a', pressureKpa: 1000 });
  expect(pure.ok && pure.latentHeatKjPerKg).toBeGreaterThan(150);
});

test('a blend whose mixture model has estimated pairs says so', () => {
  const said = (refrigerant: string) => {
    const answer = saturation({ refrigerant, temperatureK: 290 });
    return answer.ok && answer.reasons.some(({ text }) => text.includes('off by 1 to 2 %'));
  };
  expect(said('R-409A')).toBe(true);
  expect(said('R-502')).toBe(false);
});
