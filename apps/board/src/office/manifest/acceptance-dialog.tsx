'use client';
import type { ManifestLine } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useState } from 'react';
import { MassField } from '../../ui/mass-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { gramsWords } from '../masses.ts';
import { EditDialog } from '../edit-dialog.tsx';
import {
  acceptanceBody,
  acceptanceDraft,
  acceptanceField,
  acceptedAt,
  type AcceptanceDraft,
} from './acceptance-form.ts';
import { AFTER_WORDS, FOUND_WORDS } from './manifest-words.ts';

const optionsOf = (words: Readonly<Record<string, string>>) =>
  Object.entries(words).map(([value, text]) => ({ value, text }));

interface Fields {
  readonly draft: AcceptanceDraft;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<AcceptanceDraft>) => void;
}
const textAt = ({ draft, errors, change }: Fields, name: 'told' | 'why' | 'at') => ({
  ...{ id: `accept-${name}`, value: draft[name], error: errors[`accept-${name}`], autoComplete: 'off' },
  onChange: ({ target }: { target: { value: string } }) => change({ [name]: target.value }),
});
/** What the laboratory found, and what became of the cylinder. */
function FoundFields(fields: Fields) {
  const { draft, errors, change } = fields;
  return (
    <>
      <Select
        id="accept-found"
        label="Found"
        options={optionsOf(FOUND_WORDS)}
        value={draft.found}
        error={errors['accept-found']}
        onChange={({ target }) => change({ found: target.value as AcceptanceDraft['found'] })}
      />
      <TextField
        label="What the laboratory said"
        optional
        hint="Shares of each gas, air, water, acid."
        {...textAt(fields, 'told')}
      />
      <Select
        id="accept-after"
        label="The cylinder"
        options={optionsOf(AFTER_WORDS)}
        value={draft.after}
        error={errors['accept-after']}
        onChange={({ target }) => change({ after: target.value as AcceptanceDraft['after'] })}
      />
    </>
  );
}

export interface AcceptanceDialogProps {
  readonly shipmentId: string;
  readonly line: ManifestLine;
  readonly unit: MassUnit;
  readonly onClose: () => void;
}
/** What the receiver's ticket says of one cylinder. */
export function AcceptanceDialog({ shipmentId, line, unit, onClose }: AcceptanceDialogProps) {
  const [draft, setDraft] = useState(() => acceptanceDraft(line, unit));
  const change = (part: Partial<AcceptanceDraft>): void => setDraft((old) => ({ ...old, ...part }));
  return (
    <EditDialog
      title={`Accepted of ${line.label ?? line.serial}`}
      command="record-acceptance"
      body={() => acceptanceBody(shipmentId, line.cylinderId, draft)}
      happenedAt={() => acceptedAt(draft, line)}
      fieldOf={acceptanceField}
      done="What was accepted is booked; a difference stands in Discrepancy."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <MassField
            id="accept-mass"
            label="Accepted"
            hint={`Net, as the receiver weighed it; ${gramsWords(line.netGrams)} were sent.`}
            value={draft.accepted}
            error={errors['accept-mass']}
            onChange={(accepted) => change({ accepted })}
          />
          <TextField
            label="Why the weights differ"
            optional
            hint="Wanted where they do: as the receiver says it."
            {...textAt({ draft, errors, change }, 'why')}
          />
          <FoundFields {...{ draft, errors, change }} />
          <TextField
            label="Accepted at"
            type="datetime-local"
            optional
            hint="Now, unless said; before the cylinder came back."
            {...textAt({ draft, errors, change }, 'at')}
          />
        </>
      )}
    </EditDialog>
  );
}
