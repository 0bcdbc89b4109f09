/** An air check as it is typed, and the command's body from it. What is absurd or missing is the API's to refuse. */
import type { CommandBody, CylinderView, Pressure, Temperature } from '@ullage/contracts';
import { KPA_PER_PSI, type MassUnit } from '@ullage/units';
import { massFromText } from '../../../lib/mass-text.ts';
import { elevationM } from '../../../screens/call/call-form.ts';
import type { FieldProblem } from '../../../lib/problem.ts';
import type { MassQuantity } from '../../../ui/mass-field.tsx';
import type { Quantity } from '../../../ui/number-field.tsx';
import { finder } from '../../unit/known/edits.ts';

export interface AirCheckForm {
  readonly refrigerant: string;
  readonly rested: string;
  readonly liquid: '' | 'yes' | 'no';
  readonly temperature: Quantity<Temperature['unit']>;
  readonly temperatureSigma: Quantity<'K' | 'F'>;
  readonly pressure: Quantity<Pressure['unit']>;
  readonly pressureSigma: Quantity<'kPa' | 'psi'>;
  /** By which the barometer of the place is known. */
  readonly by: 'location' | 'elevation' | 'barometer';
  /** One of the firm's places, whose height is known. */
  readonly locationId: string;
  readonly elevation: Quantity<'ft' | 'm'>;
  readonly barometer: Quantity<'kpa' | 'psia'>;
  readonly gross: MassQuantity;
  /** Instruments by id; empty for one that is not registered. */
  readonly gaugeId: string;
  readonly thermometerId: string;
  readonly scaleId: string;
  readonly note: string;
}
export const airCheckForm = ({ cylinder }: CylinderView, unit: MassUnit): AirCheckForm => ({
  refrigerant: cylinder.refrigerant ?? '',
  rested: '',
  liquid: '',
  temperature: { text: '', unit: 'F' },
  temperatureSigma: { text: '', unit: 'K' },
  pressure: { text: '', unit: 'psig' },
  pressureSigma: { text: '', unit: 'kPa' },
  // Where it is kept is where it is read, unless somebody says otherwise.
  by: cylinder.place ? 'location' : 'elevation',
  locationId: cylinder.place?.id ?? '',
  elevation: { text: '', unit: 'ft' },
  barometer: { text: '', unit: 'kpa' },
  gross: { text: '', unit },
  gaugeId: '',
  thermometerId: '',
  scaleId: '',
  note: '',
});

/** A figure as typed; NaN, which the API refuses by name, for what is none. */
const figure = (text: string): number =>
  text.trim() === ''
    ? Number.NaN
    : Number(
        text
          .trim()
          .replaceAll(',', '')
          .replace(/\u2212/g, '-'),
      );
const reading = <U extends string>({ text, unit }: Quantity<U>) => ({
  value: text.trim().replace(/\u2212/g, '-'),
  unit,
});
/** A difference of 1 °F is 5/9 K. */
const PER: Readonly<Record<'K' | 'F' | 'kPa' | 'psi', number>> = { K: 1, F: 5 / 9, kPa: 1, psi: KPA_PER_PSI };
const sigma = ({ text, unit }: Quantity<keyof typeof PER>): number | undefined =>
  text.trim() === '' ? undefined : figure(text) * PER[unit];

/** Where an absolute gauge needs no barometer the place may stay empty. */
function place({ by, locationId, elevation, barometer, pressure }: AirCheckForm) {
  const isAbsolute = pressure.unit === 'psia' || pressure.unit === 'kpa';
  if (by === 'location') return locationId === '' ? {} : { locationId };
  if (by === 'barometer') return barometer.text.trim() === '' && isAbsolute ? {} : { barometer: reading(barometer) };
  return elevation.text.trim() === '' && isAbsolute ? {} : { elevationM: elevationM(elevation.text, elevation.unit) };
}

export function airCheckBody(cylinderId: string, form: AirCheckForm): CommandBody<'record-air-check'> {
  const [temperatureSigmaK, pressureSigmaKpa] = [sigma(form.temperatureSigma), sigma(form.pressureSigma)];
  const gross = massFromText(form.gross.text, form.gross.unit);
  return {
    cylinderId,
    refrigerant: form.refrigerant,
    restedHours: figure(form.rested),
    liquidPresent: form.liquid === 'yes',
    temperature: reading(form.temperature),
    pressure: reading(form.pressure),
    ...place(form),
    ...(temperatureSigmaK !== undefined && { temperatureSigmaK }),
    ...(pressureSigmaKpa !== undefined && { pressureSigmaKpa }),
    ...(form.gross.text.trim() !== '' && {
      gross: gross.ok ? gross.mass : { value: form.gross.text, unit: form.gross.unit },
    }),
    ...(form.gaugeId !== '' && { gaugeId: form.gaugeId }),
    ...(form.thermometerId !== '' && { thermometerId: form.thermometerId }),
    ...(form.scaleId !== '' && { scaleId: form.scaleId }),
    ...(form.note.trim() !== '' && { note: form.note.trim() }),
  };
}

/** Whether there is liquid is never taken for granted. */
export const airCheckGaps = ({ liquid }: AirCheckForm): FieldProblem[] =>
  liquid === '' ? [{ pointer: '/liquidPresent', detail: 'Liquid in it: say yes or no.' }] : [];

export const airCheckField = finder([
  [/^refrigerant/, 'air-refrigerant', 'Gas'],
  [/^restedHours/, 'air-rested', 'Rested'],
  [/^liquidPresent/, 'air-liquid', 'Liquid in it'],
  [/^temperatureSigmaK/, 'air-temperature-sigma', 'Thermometer, ±'],
  [/^temperature/, 'air-temperature', 'Temperature'],
  [/^pressureSigmaKpa/, 'air-pressure-sigma', 'Gauge, ±'],
  [/^pressure/, 'air-pressure', 'Pressure'],
  [/^barometer/, 'air-barometer', 'Barometer'],
  [/^elevationM/, 'air-elevation', 'Elevation'],
  [/^locationId/, 'air-location', 'Place'],
  [/^gross/, 'air-gross', 'Gross weight'],
  [/^gaugeId/, 'air-gauge', 'Gauge'],
  [/^thermometerId/, 'air-thermometer', 'Thermometer'],
  [/^scaleId/, 'air-scale', 'Scale'],
  [/^note/, 'air-note', 'Note'],
]);
