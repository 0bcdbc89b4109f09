/** What stands in the form of a delivery. */
import type { MassUnit } from '@ullage/units';
import type { MassQuantity } from '../../ui/mass-field.tsx';

export interface DeliveredRow {
  readonly cylinderId: string;
  readonly serial: string;
}
export interface DeliveryDraft {
  readonly supplier: string;
  readonly note: string;
  readonly locationId: string;
  readonly refrigerant: string;
  readonly state: 'new' | 'reclaimed';
  readonly kind: 'disposable' | 'refillable';
  readonly specification: string;
  readonly waterCapacity: MassQuantity;
  readonly tare: MassQuantity;
  readonly net: MassQuantity;
  readonly rows: readonly DeliveredRow[];
}
export const emptyDelivery = (unit: MassUnit): DeliveryDraft => ({
  supplier: '',
  note: '',
  locationId: '',
  refrigerant: '',
  state: 'new',
  kind: 'disposable',
  specification: 'DOT-39',
  waterCapacity: { text: '', unit },
  tare: { text: '', unit },
  net: { text: '', unit },
  rows: [],
});

/** Serials of a line: a scanner sends one at a time, a person may paste a column. */
export const serialsIn = (text: string): string[] =>
  text
    .split(/[\s,;]+/)
    .map((one) => one.trim())
    .filter((one) => one !== '');

/** The rows with what was scanned; one that stands there already is not taken twice, and is named. */
export function withSerials(
  rows: readonly DeliveredRow[],
  given: { text: string; newId: () => string },
): { rows: readonly DeliveredRow[]; twice: readonly string[] } {
  const twice: string[] = [];
  const all = [...rows];
  for (const serial of serialsIn(given.text)) {
    const isThere = all.some((row) => row.serial.toLowerCase() === serial.toLowerCase());
    if (isThere) twice.push(serial);
    else all.push({ cylinderId: given.newId(), serial });
  }
  return { rows: all, twice };
}

const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^supplier/, 'delivery-supplier', 'Supplier'],
  [/^note/, 'delivery-note', 'Note'],
  [/^locationId/, 'delivery-place', 'Where they go'],
  [/^refrigerant/, 'delivery-gas', 'Refrigerant'],
  [/^state/, 'delivery-state', 'State of the gas'],
  [/^kind/, 'delivery-kind', 'Kind'],
  [/^specification/, 'delivery-specification', 'Specification'],
  [/^waterCapacity/, 'delivery-water', 'Water capacity'],
  [/^tare/, 'delivery-tare', 'Tare'],
  [/^net/, 'delivery-net', 'Net weight'],
  [/^cylinders/, 'delivery-serial', 'Serials'],
];
export function deliveryField(pointer: string): { id: string; label: string } | undefined {
  const path = pointer.replace(/^#?\/(body\/)?/, '');
  const found = FIELDS.find(([test]) => test.test(path));
  return found && { id: found[1], label: found[2] };
}
