'use client';
import { massOf } from '../../../lib/full-charge-text.ts';
import { MassField, type MassQuantity } from '../../../ui/mass-field.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import type { ActionProps } from './action-props.ts';

/** What is said of every cylinder that is weighed as it comes or goes. */
export interface WeighedDraft {
  readonly gross: MassQuantity;
  readonly note: string;
  /** Supplier or receiver; nobody for one that is found. */
  readonly who: string;
}
export const weighedDraft = (unit: ActionProps['unit']): WeighedDraft => ({
  gross: { text: '', unit },
  note: '',
  who: '',
});
export const weighedBody = ({ gross, note }: WeighedDraft): object => ({
  gross: massOf(gross.text, gross.unit),
  ...(note.trim() === '' ? {} : { note: note.trim() }),
});

export interface GoneFieldsProps {
  readonly view: ActionProps['view'];
  readonly draft: WeighedDraft;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<WeighedDraft>) => void;
  /** How the other party is called; nobody is asked for without it. */
  readonly who?: string;
  readonly weighHint?: string;
}
export function GoneFields({ view, draft, errors, change, who, weighHint }: GoneFieldsProps) {
  return (
    <>
      {who !== undefined && (
        <TextField
          id="count-who"
          label={who}
          autoComplete="off"
          value={draft.who}
          error={errors['count-who']}
          onChange={({ target }) => change({ who: target.value })}
        />
      )}
      <MassField
        id="count-gross"
        label="Gross weight"
        hint={weighHint ?? `As the scale shows it, tare of ${view.tare.value} ${view.tare.unit} included.`}
        value={draft.gross}
        error={errors['count-gross']}
        onChange={(gross) => change({ gross })}
      />
      <TextField
        id="count-note"
        label="Note"
        optional
        autoComplete="off"
        value={draft.note}
        error={errors['count-note']}
        onChange={({ target }) => change({ note: target.value })}
      />
    </>
  );
}
