/** What stands in the form of a shipment. */
import type { CylinderListView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { massOf } from '../../lib/full-charge-text.ts';
import type { MassQuantity } from '../../ui/mass-field.tsx';

export type Sendable = CylinderListView['items'][number];
export type Purpose = 'reclaim' | 'destroy';
export interface SentRow {
  readonly cylinder: Sendable;
  readonly gross: MassQuantity;
}
export interface ShipmentDraft {
  readonly receiverId: string;
  readonly purpose: Purpose;
  readonly certificate: string;
  readonly carrier: string;
  readonly reference: string;
  readonly note: string;
  readonly rows: readonly SentRow[];
}
export const emptyShipment = (receivers: readonly { readonly id: string }[]): ShipmentDraft => ({
  receiverId: receivers.length === 1 ? (receivers[0]?.id ?? '') : '',
  purpose: 'reclaim',
  certificate: '',
  carrier: '',
  reference: '',
  note: '',
  rows: [],
});

/** Whether a cylinder is fit to go for a purpose, by its own rules. */
export const isFitFor = ({ fit, netGrams, away }: Sendable, purpose: Purpose): boolean =>
  away === null && netGrams > 0 && fit.includes(purpose === 'reclaim' ? 'return' : 'destroy');

/** Fit ones of the list that are not on the manifest yet and not with the receiver already. */
export const offered = (all: readonly Sendable[], { rows, purpose, receiverId }: ShipmentDraft): Sendable[] =>
  all.filter(
    (one) =>
      isFitFor(one, purpose) && one.place?.id !== receiverId && !rows.some(({ cylinder }) => cylinder.id === one.id),
  );

export const withRow = (rows: readonly SentRow[], cylinder: Sendable, unit: MassUnit): readonly SentRow[] =>
  rows.some((row) => row.cylinder.id === cylinder.id) ? rows : [...rows, { cylinder, gross: { text: '', unit } }];

const given = (text: string, name: string): object => (text.trim() === '' ? {} : { [name]: text.trim() });
/** The command's body. */
export const shipmentBody = (draft: ShipmentDraft): object => ({
  ...{ receiverId: draft.receiverId, purpose: draft.purpose, carrier: draft.carrier.trim() },
  ...given(draft.certificate, 'certificate'),
  ...given(draft.reference, 'reference'),
  ...given(draft.note, 'note'),
  cylinders: draft.rows.map(({ cylinder, gross }) => ({
    cylinderId: cylinder.id,
    fromId: cylinder.place?.id ?? null,
    gross: massOf(gross.text, gross.unit),
  })),
});

const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^receiverId/, 'ship-receiver', 'Receiver'],
  [/^purpose/, 'ship-purpose', 'Purpose'],
  [/^certificate/, 'ship-certificate', 'Certificate number'],
  [/^carrier/, 'ship-carrier', 'Carrier'],
  [/^reference/, 'ship-reference', 'Reference'],
  [/^note/, 'ship-note', 'Note'],
];
/** A row's own field is its weight, whatever of it was refused. */
export function shipmentField(pointer: string): { id: string; label: string } | undefined {
  const path = pointer.replace(/^#?\/(body\/)?/, '');
  const [, row] = /^cylinders\/(\d+)/.exec(path) ?? [];
  if (row !== undefined) return { id: `ship-gross-${row}`, label: `Cylinder ${Number(row) + 1}` };
  if (path.startsWith('cylinders')) return { id: 'ship-serial', label: 'Serial' };
  const found = FIELDS.find(([test]) => test.test(path));
  return found && { id: found[1], label: found[2] };
}
