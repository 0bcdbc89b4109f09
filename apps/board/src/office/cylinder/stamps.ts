import type { CommandBody } from '@ullage/contracts';
import { massFromText } from '../../lib/mass-text.ts';
import type { FieldProblem } from '../../lib/problem.ts';
import type { MassQuantity } from '../../ui/mass-field.tsx';

/** A cylinder's stamps as typed, before anything is made of them. */
export interface Stamps {
  readonly kind: '' | 'disposable' | 'refillable' | 'recovery';
  readonly specification: string;
  readonly serial: string;
  readonly label: string;
  readonly waterCapacity: MassQuantity;
  readonly tare: MassQuantity;
  readonly servicePressurePsig: string;
  readonly madeMonth: string;
  readonly testedMonth: string;
  /** A customer's id; empty for the contractor's own. */
  readonly ownerCustomerId: string;
  readonly dedicatedTo: string;
  readonly holds: '' | 'nothing' | 'gas';
  readonly gas: string;
  readonly gasState: '' | 'new' | 'recovered' | 'recycled' | 'reclaimed';
  readonly gross: MassQuantity;
}

/** Pointer of the command's body to the label of its field. */
export const STAMP_LABELS = {
  '/kind': 'Kind',
  '/specification': 'Specification',
  '/serial': 'Serial',
  '/label': 'Label',
  '/waterCapacity/value': 'Water capacity',
  '/tare/value': 'Tare',
  '/servicePressurePsig': 'Service pressure',
  '/madeMonth': 'Made',
  '/testedMonth': 'Last test',
  '/ownerCustomerId': 'Owner',
  '/dedicatedTo': 'Only for',
  '/holds': 'What is in it',
  '/gas/refrigerant': 'Gas',
  '/gas/state': 'State of the gas',
  '/gas/gross/value': 'Gross weight',
} as const;
export type StampPointer = keyof typeof STAMP_LABELS;

export type FromStamps =
  | { readonly ok: true; readonly body: CommandBody<'register-cylinder'> }
  | { readonly ok: false; readonly errors: readonly FieldProblem[] };

const asked = (pointer: StampPointer, text: string, detail: string): FieldProblem[] =>
  text.trim() === '' ? [{ pointer, detail: `${STAMP_LABELS[pointer]}: ${detail}` }] : [];

const given = <K extends string>(name: K, text: string): Partial<Record<K, string>> =>
  text.trim() === '' ? {} : ({ [name]: text.trim() } as Partial<Record<K, string>>);

const ORDER = Object.keys(STAMP_LABELS);
/** Faults are read in the order of the form. */
const inOrder = (a: FieldProblem, b: FieldProblem): number => ORDER.indexOf(a.pointer) - ORDER.indexOf(b.pointer);

function gaps(stamps: Stamps): FieldProblem[] {
  return [
    ...asked('/kind', stamps.kind, 'disposable, refillable or recovery.'),
    ...asked('/serial', stamps.serial, 'enter it as stamped.'),
    ...asked('/specification', stamps.specification, 'enter it as stamped, as DOT-4BA400.'),
    ...asked('/holds', stamps.holds, 'say whether gas is in it.'),
    ...(stamps.holds === 'gas'
      ? [
          ...asked('/gas/refrigerant', stamps.gas, 'choose one, as R-448A.'),
          ...asked('/gas/state', stamps.gasState, 'new, recovered, recycled or reclaimed.'),
        ]
      : []),
  ];
}

function massOf(pointer: StampPointer, { text, unit }: MassQuantity) {
  const read = massFromText(text, unit);
  return read.ok
    ? { mass: read.mass, errors: [] }
    : { mass: { value: text, unit }, errors: [{ pointer, detail: `${STAMP_LABELS[pointer]}: ${read.detail}` }] };
}

function pressureOf(text: string): { psig: number | undefined; errors: FieldProblem[] } {
  if (text.trim() === '') return { psig: undefined, errors: [] };
  const psig = Number(text.trim().replace(',', ''));
  return psig > 0
    ? { psig, errors: [] }
    : {
        psig: undefined,
        errors: [{ pointer: '/servicePressurePsig', detail: 'Service pressure: a figure in psig, as 400.' }],
      };
}

/** The command's body from what was typed, or what is missing. Absurd figures are the API's to refuse. */
export function fromStamps(stamps: Stamps, cylinderId: string): FromStamps {
  const [water, tare, gross] = [
    massOf('/waterCapacity/value', stamps.waterCapacity),
    massOf('/tare/value', stamps.tare),
    massOf('/gas/gross/value', stamps.gross),
  ];
  const holdsGas = stamps.holds === 'gas';
  const pressure = pressureOf(stamps.servicePressurePsig);
  const errors = [
    ...gaps(stamps),
    ...water.errors,
    ...tare.errors,
    ...pressure.errors,
    ...(holdsGas ? gross.errors : []),
  ];
  if (errors.length > 0 || stamps.kind === '') return { ok: false, errors: errors.toSorted(inOrder) };
  const body: CommandBody<'register-cylinder'> = {
    cylinderId,
    kind: stamps.kind,
    specification: stamps.specification.trim(),
    serial: stamps.serial.trim(),
    ...given('label', stamps.label),
    waterCapacity: water.mass,
    tare: tare.mass,
    ...(pressure.psig === undefined ? {} : { servicePressurePsig: pressure.psig }),
    ...given('madeMonth', stamps.madeMonth),
    ...given('testedMonth', stamps.testedMonth),
    ...given('ownerCustomerId', stamps.ownerCustomerId),
    ...given('dedicatedTo', stamps.dedicatedTo),
    ...(holdsGas && stamps.gasState !== ''
      ? { gas: { refrigerant: stamps.gas, state: stamps.gasState, gross: gross.mass } }
      : {}),
  };
  return { ok: true, body };
}
