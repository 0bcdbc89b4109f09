import type { ReactNode } from 'react';
import css from './field.module.css';

/** What every field of a form has around its control. */
export interface FieldTexts {
  readonly label: string;
  readonly hint?: ReactNode;
  /** What is wrong and what would be right. */
  readonly error?: string | undefined;
  /** Fields are required unless they say so. */
  readonly optional?: boolean;
}

/** Ids of the texts, for `aria-describedby` of the control. */
export const describedBy = (id: string, { hint, error }: Pick<FieldTexts, 'hint' | 'error'>): string | undefined =>
  [hint !== undefined && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ') || undefined;

/** A fault names its field, for the summary; under the field itself the name is not said again. */
export function withoutLabel(label: string, error: string | undefined): string | undefined {
  if (!error?.startsWith(`${label}: `)) return error;
  const rest = error.slice(label.length + 2);
  return rest.charAt(0).toUpperCase() + rest.slice(1);
}

/** Label above, hint and error below, tied to the control with this id. */
export function FieldFrame({
  id,
  label,
  hint,
  error,
  optional,
  children,
}: FieldTexts & { id: string; children: ReactNode }) {
  return (
    <div className={css['field']} data-wrong={error ? true : undefined}>
      <label className={css['label']} htmlFor={id}>
        {label}
        {optional && <span> (optional)</span>}
      </label>
      {children}
      <FieldNotes id={id} hint={hint} error={withoutLabel(label, error)} />
    </div>
  );
}

export function FieldNotes({ id, hint, error }: { id: string } & Pick<FieldTexts, 'hint' | 'error'>) {
  return (
    <>
      {hint !== undefined && (
        <p className={css['hint']} id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {error && (
        <p className={css['error']} id={`${id}-error`}>
          {error}
        </p>
      )}
    </>
  );
}

/** A group of choices under one question; for radios and ticks, where a label cannot point at one control. */
export function FieldGroup({
  id,
  label,
  hint,
  error,
  optional,
  children,
}: FieldTexts & { id: string; children: ReactNode }) {
  return (
    <fieldset
      id={id}
      tabIndex={-1}
      className={css['group']}
      data-wrong={error ? true : undefined}
      aria-describedby={describedBy(id, { hint, error })}
    >
      <legend className={css['label']}>
        {label}
        {optional && <span> (optional)</span>}
      </legend>
      {children}
      <FieldNotes id={id} hint={hint} error={withoutLabel(label, error)} />
    </fieldset>
  );
}
