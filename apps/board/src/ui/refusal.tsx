'use client';
import { useState, type ReactNode } from 'react';
import { Actions, Button } from './button.tsx';
import { Shape } from './state.tsx';
import { TextArea } from './text-field.tsx';
import css from './notice.module.css';

export interface RefusalProps {
  /** Moment and person and "no": "Wed 6 May 10:30, Achterby: no". */
  readonly title: string;
  /** Why, in one sentence. */
  readonly why: ReactNode;
  /** `law` cannot be overridden and has the heavy edge; `ours` may bend, and the reason is kept. */
  readonly rule: 'law' | 'ours';
  /** The clause, or the firm's own rule by name. */
  readonly source: string;
  /** What would work instead. */
  readonly instead?: ReactNode;
  /** Given for a rule of our own that this person may bend. */
  readonly onOverride?: (reason: string) => void;
  readonly busy?: boolean;
}

function Override({ onOverride, busy }: { onOverride: (reason: string) => void; busy: boolean }) {
  const [reason, setReason] = useState<string>();
  const [asked, setAsked] = useState(false);
  if (reason === undefined)
    return (
      <Actions>
        <Button onClick={() => setReason('')}>Override, with a reason</Button>
      </Actions>
    );
  return (
    <form
      className={css['override']}
      onSubmit={(event) => {
        event.preventDefault();
        setAsked(true);
        if (reason.trim()) onOverride(reason.trim());
      }}
    >
      <TextArea
        label="Reason"
        rows={2}
        maxLength={500}
        autoFocus
        value={reason}
        onChange={(event) => setReason(event.target.value)}
        hint="It is kept with the visit, under your name."
        error={asked && !reason.trim() ? 'Say why; one sentence is enough.' : undefined}
      />
      <Actions>
        <Button kind="danger" type="submit" busy={busy}>
          Override
        </Button>
        <Button onClick={() => setReason(undefined)}>Leave it</Button>
      </Actions>
    </form>
  );
}

/** A refusal speaks in a fixed order: what is refused, why, whose rule it is, what would work instead. */
export function Refusal({ title, why, rule, source, instead, onOverride, busy = false }: RefusalProps) {
  return (
    <section className={css['refusal']} data-rule={rule} role="alert">
      <h3>
        <Shape mark="refused" size={13} />
        {title}
      </h3>
      <p>{why}</p>
      <p className={css['source']}>
        {rule === 'law'
          ? `Law, ${source}: cannot be overridden.`
          : `Our own rule, ${source}${onOverride ? ': it can be overridden, and the reason is kept' : ''}.`}{' '}
        {instead}
      </p>
      {rule === 'ours' && onOverride && <Override onOverride={onOverride} busy={busy} />}
    </section>
  );
}
