/** What stands in the form of an acceptance. */
import type { ManifestLine } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { massOf } from '../../lib/full-charge-text.ts';
import type { MassQuantity } from '../../ui/mass-field.tsx';
import { AFTER_WORDS, FOUND_WORDS } from './manifest-words.ts';

export interface AcceptanceDraft {
  readonly accepted: MassQuantity;
  readonly found: keyof typeof FOUND_WORDS;
  readonly told: string;
  readonly why: string;
  readonly after: keyof typeof AFTER_WORDS;
  /** As a field for date and time has it, in this computer's zone; now where empty. */
  readonly at: string;
}
/** What stands already is filled in: said again, it replaces that. */
export const acceptanceDraft = ({ acceptance }: ManifestLine, unit: MassUnit): AcceptanceDraft =>
  acceptance
    ? {
        ...{ accepted: { text: acceptance.accepted.value, unit: acceptance.accepted.unit }, found: acceptance.found },
        ...{ told: acceptance.told ?? '', why: acceptance.why ?? '', after: acceptance.after, at: '' },
      }
    : { accepted: { text: '', unit }, found: 'as-sent', told: '', why: '', after: 'evacuated', at: '' };

const given = (text: string, name: string): object => (text.trim() === '' ? {} : { [name]: text.trim() });
export const acceptanceBody = (shipmentId: string, cylinderId: string, draft: AcceptanceDraft): object => ({
  shipmentId,
  cylinders: [
    {
      ...{ cylinderId, accepted: massOf(draft.accepted.text, draft.accepted.unit), found: draft.found },
      ...given(draft.told, 'told'),
      ...given(draft.why, 'why'),
      after: draft.after,
    },
  ],
});
/** When it was accepted: as said; of one said again when it was first, so that the later report stands in its place. */
export function acceptedAt({ at }: AcceptanceDraft, { acceptance }: ManifestLine): string | undefined {
  if (at === '') return acceptance?.at;
  const read = new Date(at);
  return Number.isNaN(read.getTime()) ? at : read.toISOString();
}

const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/\/accepted/, 'accept-mass', 'Accepted'],
  [/\/found/, 'accept-found', 'Found'],
  [/\/told/, 'accept-told', 'What the laboratory said'],
  [/\/why/, 'accept-why', 'Why the weights differ'],
  [/\/after/, 'accept-after', 'The cylinder'],
  [/happenedAt|\/cylinderId/, 'accept-at', 'Accepted at'],
];
export function acceptanceField(pointer: string): { id: string; label: string } | undefined {
  const found = FIELDS.find(([test]) => test.test(pointer));
  return found && { id: found[1], label: found[2] };
}
