import { pressureTest, type PressureTest } from '@ullage/thermo';
import type { Typed } from '../check.ts';
import { kpaOf } from '../sums.ts';
import { kelvinOf, ORDINARY } from './typed.ts';

export interface TestReadings {
  readonly start: Typed;
  readonly startTemperature: Typed;
  readonly end: Typed;
  readonly endTemperature: Typed;
}
export interface TestSum extends PressureTest {
  readonly endKpa: number;
  readonly limitKpa: number;
}

/** Common practice: half a percent of the test pressure may be missing. */
const ALLOWED_SHARE = 0.005;

/**
 * Whether nitrogen held, by readings as typed; undefined until there are all four.
 * @param siteKpa barometer of the site @param gaugeSigmaKpa repeatability of the gauge, where known
 */
export function testSum(read: TestReadings, siteKpa: number, gaugeSigmaKpa?: number): TestSum | undefined {
  const [startKpa, endKpa] = [kpaOf(read.start, siteKpa), kpaOf(read.end, siteKpa)];
  const [startK, endK] = [kelvinOf(read.startTemperature), kelvinOf(read.endTemperature)];
  if (startKpa === undefined || endKpa === undefined || startK === undefined || endK === undefined) return undefined;
  const limitKpa = ALLOWED_SHARE * startKpa;
  const answer = pressureTest({
    startPressureKpa: startKpa,
    startTemperatureK: startK,
    endPressureKpa: endKpa,
    endTemperatureK: endK,
    pressureSigmaKpa: gaugeSigmaKpa ?? ORDINARY.pressureSigmaKpa,
    temperatureSigmaK: ORDINARY.temperatureSigmaK,
    limitKpa,
    barometerKpa: siteKpa,
  });
  return answer.ok ? { ...answer, endKpa, limitKpa } : undefined;
}
