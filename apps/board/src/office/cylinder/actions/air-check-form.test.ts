import type { CylinderView } from '@ullage/contracts';
import { RecordAirCheck } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { airCheckBody, airCheckField, airCheckForm, airCheckGaps, type AirCheckForm } from './air-check-form.ts';

const ID = '019a0000-0000-7000-8000-000000000001';
const VIEW = { cylinder: { refrigerant: 'R-134a' } } as CylinderView;
const form = (but: Partial<AirCheckForm> = {}): AirCheckForm => ({
  ...airCheckForm(VIEW, 'lb'),
  rested: '24',
  liquid: 'yes',
  temperature: { text: '75', unit: 'F' },
  pressure: { text: ' 90.0 ', unit: 'psig' },
  elevation: { text: '0', unit: 'ft' },
  ...but,
});

test('what is typed is a body that the API takes, with nothing said that nobody said', () => {
  const body = airCheckBody(ID, form());
  expect(RecordAirCheck.safeParse(body).error).toBeUndefined();
  expect(body).toEqual({
    cylinderId: ID,
    refrigerant: 'R-134a',
    restedHours: 24,
    liquidPresent: true,
    temperature: { value: '75', unit: 'F' },
    pressure: { value: '90.0', unit: 'psig' },
    elevationM: 0,
  });
});

test('a sigma in psi or °F is sent in kPa and K', () => {
  // 1 psi = 6.894757 kPa (NIST SP 811, appendix B); a difference of 1.8 °F is 1 K.
  const body = airCheckBody(
    ID,
    form({ pressureSigma: { text: '1', unit: 'psi' }, temperatureSigma: { text: '1.8', unit: 'F' } }),
  );
  expect(body.pressureSigmaKpa).toBeCloseTo(6.894757, 5);
  expect(body.temperatureSigmaK).toBeCloseTo(1, 12);
});

test('a cylinder that is kept somewhere is read there, unless somebody says otherwise', () => {
  const kept = { cylinder: { ...VIEW.cylinder, place: { id: ID, name: 'Shelf 2' } } } as CylinderView;
  const { by, locationId } = airCheckForm(kept, 'lb');
  expect(airCheckBody(ID, form({ by, locationId }))).toMatchObject({ locationId: ID });
  expect(airCheckBody(ID, form({ by, locationId }))).not.toHaveProperty('elevationM');
  expect(airCheckBody(ID, form({ by: 'elevation', locationId }))).not.toHaveProperty('locationId');
});

test('the place is its elevation or its barometer, and an absolute gauge needs neither', () => {
  // 1 ft = 0.3048 m exactly, kept to the decimetre.
  expect(airCheckBody(ID, form({ elevation: { text: '5,280', unit: 'ft' } })).elevationM).toBe(1609.3);
  const read = airCheckBody(ID, form({ by: 'barometer', barometer: { text: '83.4', unit: 'kpa' } }));
  expect(read).toMatchObject({ barometer: { value: '83.4', unit: 'kpa' } });
  expect(read).not.toHaveProperty('elevationM');
  const absolute = form({ pressure: { text: '104.7', unit: 'psia' }, elevation: { text: '', unit: 'ft' } });
  expect(airCheckBody(ID, absolute)).not.toHaveProperty('elevationM');
});

test('what is missing is refused at its own field and never taken for zero', () => {
  const body = airCheckBody(
    ID,
    form({ rested: '', elevation: { text: '', unit: 'ft' }, gross: { text: 'x', unit: 'lb' } }),
  );
  const sent = JSON.parse(JSON.stringify(body)) as unknown;
  const fields = RecordAirCheck.safeParse(sent).error?.issues.map(
    ({ path }) => airCheckField(`#/body/${path.join('/')}`)?.id,
  );
  expect(fields).toEqual(['air-rested', 'air-elevation', 'air-gross']);
});

test('whether liquid is in it has to be said', () => {
  expect(airCheckGaps(form({ liquid: '' }))).toHaveLength(1);
  expect(airCheckGaps(form({ liquid: 'no' }))).toEqual([]);
});
