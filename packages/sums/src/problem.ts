import { faultsOf, pointerOf } from '@ullage/contracts';
import type { FieldFault, Problem } from '@ullage/contracts';
import type { ThermoFault } from '@ullage/thermo';

/** RFC 9457. The api answers with the same codes; a status is given here for readers without one. */
const problem = (of: Pick<Problem, 'title' | 'status' | 'errors'> & { code: string }): Problem => ({
  type: `/problems/${of.code}`,
  title: of.title,
  status: of.status,
  errors: of.errors,
});

export const unknownSum = (name: string): Problem =>
  problem({
    code: 'not-found',
    title: `There is no sum called "${name.slice(0, 40)}".`,
    status: 404,
    errors: [],
  });

/** What a contract says of a value that does not fit it. */
export type Misfit = Parameters<typeof faultsOf>[0];

/** A field nobody knows is pointed at itself, not at the object that holds it. */
function pointed(error: Misfit): FieldFault[] {
  return error.issues.flatMap((issue, i) => {
    const fault = faultsOf(error)[i];
    if (!fault) return [];
    if (issue.code !== 'unrecognized_keys') return [fault];
    return issue.keys.map((key) => ({ pointer: pointerOf([...issue.path, key]), detail: fault.detail }));
  });
}

export const notValid = (error: Misfit): Problem =>
  problem({ code: 'not-valid', title: 'Some fields are not right.', status: 400, errors: pointed(error) });

/** Inwards, so that the figure shown is itself allowed. */
const atLeast = (value: number): string => (Math.ceil(value * 10) / 10).toString();
const atMost = (value: number): string => (Math.floor(value * 10) / 10).toString();

/** What a sum asked of the room: a refrigerant by name, amounts by name in a field, or both. */
export interface Asked {
  readonly refrigerant?: string;
  readonly amounts?: string;
  /** Its temperatures and pressures by field, where there are several: the one outside is pointed at. */
  readonly temperatures?: Readonly<Record<string, number>>;
  readonly pressures?: Readonly<Record<string, number>>;
}

interface Range {
  readonly low: number;
  readonly high: number;
}

/** The field whose value is out of the range; the first when none is, as when their sum was. */
function fieldOutside(values: Readonly<Record<string, number>>, { low, high }: Range): string {
  const fields = Object.entries(values);
  return (fields.find(([, value]) => !(value >= low && value <= high)) ?? fields[0])?.[0] ?? '';
}

function faultOf(fault: ThermoFault, asked: Asked): FieldFault {
  const { refrigerant, amounts = '', temperatures = { temperatureK: 0 }, pressures = { pressureKpa: 0 } } = asked;
  const of = refrigerant ?? 'mixtures';
  switch (fault.fault) {
    case 'unknown-refrigerant':
      return {
        pointer: fault.refrigerant === refrigerant ? '#/refrigerant' : pointerOf([amounts, fault.refrigerant]),
        detail: `Refrigerant: "${fault.refrigerant.slice(0, 20)}" is not known here; give its standard number, as R-410A.`,
      };
    case 'temperature-out-of-range':
      return {
        pointer: `#/${fieldOutside(temperatures, { low: fault.lowK, high: fault.highK })}`,
        detail: `Temperature: give ${atLeast(fault.lowK)} to ${atMost(fault.highK)} K for ${of}.`,
      };
    case 'pressure-out-of-range':
      return {
        pointer: `#/${fieldOutside(pressures, { low: fault.lowKpa, high: fault.highKpa })}`,
        detail: `Pressure: give ${atLeast(fault.lowKpa)} to ${atMost(fault.highKpa)} kPa absolute for ${of}.`,
      };
    case 'no-answer':
      return {
        pointer: '#/temperatureK',
        detail: 'Temperature: no state settles here (near critical, or two liquids). Change temperature or contents.',
      };
  }
}

/** Well-formed, but beyond what is known of the refrigerant. */
export const notPossible = (fault: ThermoFault, asked: Asked): Problem =>
  problem({
    code: 'not-possible',
    title: 'No answer can be given for these figures.',
    status: 422,
    errors: [faultOf(fault, asked)],
  });
