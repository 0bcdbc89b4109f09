import type { CommandBody, FieldFault, Pressure, SumAnswer, SumInput } from '@ullage/contracts';
import { Refusal } from '@ullage/contracts';
import { runSum } from '@ullage/sums';
import { innerVolumeM3 } from '@ullage/thermo';
import { bookedGrams, toKelvin, toKpa } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { isAbsolute, readingKpa, SIGMA, siteBarometerKpa } from './site-readings.ts';
import { notFound, refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { leaveCylinder } from '../recalls/leave.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';
import { sigmaOf } from './instrument-sigma.ts';
import { tareOf } from './register.ts';
import { assertVisit } from './transfer.ts';
import { assertHolds, keepWeighings } from './weigh.ts';

type Body = CommandBody<'record-air-check'>;
type Answer = SumAnswer<'air-check'>;

/**
 * What the barometer of an air check was, and where that comes from: the place where the cylinder was read, never the site
 * its gas came from. Null where an absolute gauge needs none and nobody gave it.
 */
type Barometer = {
  readonly kpa: number;
  readonly from: 'measured' | 'location' | 'visit' | 'elevation';
} | null;

/**
 * An air check of a rested cylinder. The verdict is kept with all that it rests on, and clears or confirms doubts by
 * replay; what it says is answered then.
 */
export async function recordAirCheck(desk: Case, received: Received<Body>): Promise<void> {
  const { body, id: factId, happenedAt: at } = received;
  const { cylinderId } = body;
  await lock(desk.tx, desk.tenantId, { visitId: body.visitId, gas: { cylinderIds: [cylinderId], since: at } });
  await assertVisit(desk, body.visitId);
  const account = await cylinderAccount(desk, cylinderId);
  for (const id of [body.scaleId, body.gaugeId, body.thermometerId]) await assertInstrument(desk, id);
  const tareGrams = await tareOf(desk, cylinderId, at);
  if (body.gross)
    await assertHolds(desk, { cylinderId, tareGrams }, { gross: body.gross, role: 'weight', field: 'gross' });
  const barometer = await barometerOf(desk, body);
  const input = await inputOf(desk, body, { barometer, tareGrams });
  const answer = ask(desk, input);
  const { visitId, cylinderId: _of, ...rest } = body;
  await addFact(desk, {
    id: factId,
    kind: 'air-check',
    visitId,
    at: { instant: at },
    body: { ...rest, barometerUsed: barometer, input, answer },
    refs: [
      { role: 'cylinder', cylinderId },
      ...instrumentRef('scale', body.scaleId),
      ...instrumentRef('gauge', body.gaugeId),
      ...instrumentRef('thermometer', body.thermometerId),
    ],
  });
  await keepWeighings(desk, { cylinderId, factId, before: body.gross, scaleId: body.scaleId, at, tareGrams });
  desk.accounts.add(account);
  if (answer.verdict === 'over-shop-limit') await leaveCylinder(desk, cylinderId, 'air-check-over');
}

/** @throws Refusal where nothing says what the barometer stood at, and the gauge needs it */
async function barometerOf(desk: Case, body: Body): Promise<Barometer> {
  const location = await locationOf(desk, body.locationId);
  if (body.barometer) return { kpa: measuredKpa(body.barometer), from: 'measured' };
  if (location) return { kpa: siteBarometerKpa(location), from: 'location' };
  if (body.elevationM !== undefined)
    return { kpa: siteBarometerKpa({ elevationM: body.elevationM }), from: 'elevation' };
  const { tenantId } = desk;
  if (body.visitId !== undefined) {
    const visit = await desk.tx.visit.findUniqueOrThrow({
      where: { tenantId_id: { tenantId, id: body.visitId } },
      select: { site: { select: { elevationM: true } } },
    });
    return { kpa: siteBarometerKpa(visit.site), from: 'visit' };
  }
  const stands = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: body.cylinderId } },
    select: { location: { select: { elevationM: true } } },
  });
  if (stands.location) return { kpa: siteBarometerKpa(stands.location), from: 'location' };
  if (isAbsolute(body.pressure.unit)) return null;
  const detail = 'Barometer: give its reading, or where the cylinder was read: a location or an elevation.';
  throw refuseField('barometer', detail);
}

async function locationOf(desk: Case, id: string | undefined): Promise<{ elevationM: unknown } | undefined> {
  if (id === undefined) return undefined;
  const row = await desk.tx.location.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!row) throw notFound();
  return row;
}

function measuredKpa({ value, unit }: Pressure): number {
  if (!isAbsolute(unit)) throw refuseField('barometer/unit', 'Barometer: give an absolute pressure, as kPa or psia.');
  const kpa = toKpa(Number(value), unit, 0);
  if (kpa < LEAST_BAROMETER_KPA || kpa > MOST_BAROMETER_KPA)
    throw refuseField('barometer/value', 'Barometer: give 30 to 120 kPa absolute; check number and unit.');
  return kpa;
}
const LEAST_BAROMETER_KPA = 30;
const MOST_BAROMETER_KPA = 120;

async function inputOf(
  desk: Case,
  body: Body,
  { barometer, tareGrams }: { barometer: Barometer; tareGrams: number },
): Promise<SumInput<'air-check'>> {
  const { tenantId } = desk;
  const cylinder = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: body.cylinderId } },
  });
  const asked = { field: 'pressure', label: 'Pressure', reading: body.pressure };
  const gauge = await sigmaOf(desk, { instrumentId: body.gaugeId, quantity: 'pressure' });
  const thermometer = await sigmaOf(desk, { instrumentId: body.thermometerId, quantity: 'temperature' });
  const netGrams = body.gross && Math.max(0, bookedGrams(body.gross) - tareGrams);
  return {
    refrigerant: body.refrigerant,
    temperatureK: toKelvin(Number(body.temperature.value), body.temperature.unit),
    // An absolute reading takes nothing from the barometer, whatever stands in for it.
    pressureKpa: readingKpa(asked, { barometerKpa: barometer?.kpa ?? 0 }),
    temperatureSigmaK: body.temperatureSigmaK ?? thermometer ?? SIGMA.thermometerK,
    pressureSigmaKpa: body.pressureSigmaKpa ?? gauge ?? SIGMA.gaugeKpa,
    liquidPresent: body.liquidPresent,
    restedHours: body.restedHours,
    shopExcessKpa: Number(desk.tenant.shopExcessKpa),
    ...(barometer === null ? {} : { barometerKpa: barometer.kpa }),
    ...(netGrams === undefined
      ? {}
      : { netKg: netGrams / 1000, volumeM3: innerVolumeM3(Number(cylinder.waterCapacityKg)) }),
  };
}

/** Where the sum's fields stand in the command. */
const FIELDS: Readonly<Record<string, string>> = {
  '#/temperatureK': 'temperature',
  '#/pressureKpa': 'pressure',
  '#/refrigerant': 'refrigerant',
};

/** @throws Refusal for figures that the laboratory knows no answer to */
function ask(desk: Case, input: SumInput<'air-check'>): Answer {
  const result = runSum('air-check', input, desk.world.calendar);
  if (result.ok) return result.answer as Answer;
  const errors = (result.problem.errors ?? []).map(({ pointer, detail }): FieldFault => ({
    pointer: `#/body/${FIELDS[pointer] ?? 'pressure'}`,
    detail,
  }));
  throw new Refusal('not-possible', errors[0]?.detail ?? 'No answer can be given for these figures.', { errors });
}
