import { subcooling, superheat, type LineAnswer } from '@ullage/thermo';
import type { Typed } from '../check.ts';
import { kpaOf } from '../sums.ts';
import { kelvinOf } from './typed.ts';

export interface LineReadings {
  readonly suction: Typed;
  readonly suctionLine: Typed;
  readonly discharge: Typed;
  readonly liquidLine: Typed;
}
export interface LinesSum {
  readonly superheat: LineAnswer | undefined;
  readonly subcooling: LineAnswer | undefined;
}
interface Place {
  readonly refrigerant: string;
  readonly siteKpa: number;
  readonly gaugeSigmaKpa: number | undefined;
}

/** Superheat and subcooling of a running unit by readings as typed; undefined until there is either. */
export function linesSum(read: LineReadings, place: Place): LinesSum | undefined {
  const of = (sum: typeof superheat, pressure: Typed, line: Typed): LineAnswer | undefined => {
    const [pressureKpa, lineTemperatureK] = [kpaOf(pressure, place.siteKpa), kelvinOf(line)];
    if (pressureKpa === undefined || lineTemperatureK === undefined) return undefined;
    const { refrigerant, gaugeSigmaKpa } = place;
    const sigma = gaugeSigmaKpa === undefined ? {} : { pressureSigmaKpa: gaugeSigmaKpa };
    const answer = sum({ refrigerant, pressureKpa, lineTemperatureK, ...sigma });
    return answer.ok ? answer : undefined;
  };
  const found = {
    superheat: of(superheat, read.suction, read.suctionLine),
    subcooling: of(subcooling, read.discharge, read.liquidLine),
  };
  return found.superheat || found.subcooling ? found : undefined;
}
