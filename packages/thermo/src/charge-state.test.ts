import { expect, test } from 'vitest';
import { chargeState } from './charge-state.ts';
import type { ChargeStateInput } from './charge-state.ts';

const state = (change: Partial<ChargeStateInput>) => {
  const answer = chargeState({
    refrigerant: 'R-448A',
    pressureKpa: 1100,
    temperatureK: 293.15,
    barometerKpa: 83.5,
    pressureSigmaKpa: 5,
    temperatureSigmaK: 0.5,
    ...change,
  });
  return answer.ok ? answer.state : answer.fault;
};

test.each([
  ['between dew and bubble', { pressureKpa: 1050 }, 'liquid-present'],
  ['at the bubble point', { pressureKpa: 1123 }, 'liquid-present'],
  ['well below the dew point', { pressureKpa: 700 }, 'vapour-only'],
  ['at the site’s barometer', { pressureKpa: 84 }, 'empty'],
  ['below the site’s barometer', { pressureKpa: 40 }, 'empty'],
  ['sea-level pressure at 1,600 m is still a little gas', { pressureKpa: 101.3 }, 'vapour-only'],
  ['well above the bubble point', { pressureKpa: 1250 }, 'above-saturation'],
  ['a thermometer too coarse to place the dew point', { pressureKpa: 1050, temperatureSigmaK: 4 }, 'cannot-tell'],
  ['beyond the fits', { temperatureK: 400 }, 'temperature-out-of-range'],
  ['a gas nobody fitted', { refrigerant: 'R-999' }, 'unknown-refrigerant'],
])('%s', (_, change, expected) => {
  expect(state(change)).toBe(expected);
});

test('where saturation itself lies near the barometer, empty and charged cannot be told apart', () => {
  expect(state({ refrigerant: 'R-123', temperatureK: 298, pressureKpa: 90, barometerKpa: 91 })).toBe('cannot-tell');
});

test('a coarse gauge may not tell liquid from vapour and still show that there is gas to search with', () => {
  const coarse = {
    refrigerant: 'R-134a',
    pressureKpa: 560,
    temperatureK: 293.15,
    barometerKpa: 101,
    temperatureSigmaK: 1,
  };
  expect(chargeState({ ...coarse, pressureSigmaKpa: 35 })).toMatchObject({ state: 'cannot-tell', gasPresent: true });
  expect(chargeState({ ...coarse, pressureKpa: 105, pressureSigmaKpa: 3 })).toMatchObject({
    state: 'empty',
    gasPresent: false,
  });
});
