'use client';
import type { ReactNode } from 'react';
import type { Problem } from '../../lib/problem.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { peopleField } from './people-form.ts';
import css from './people.module.css';

export interface FormDialogProps {
  readonly title: string;
  /** What the main button does. */
  readonly act: string;
  readonly kind?: 'main' | 'danger';
  /** What the other button says: away, or back to where one came from. */
  readonly leave: string;
  readonly busy: boolean;
  readonly problem: Problem | undefined;
  readonly onSubmit: () => void;
  readonly onClose: () => void;
  /** Where `leave` leads, when it does not close. */
  readonly onLeave?: () => void;
  readonly children: ReactNode;
}

/** A dialog with one form and one act. Enter in a field sends it. */
export function FormDialog(props: FormDialogProps) {
  const { title, act, kind = 'main', leave, busy, problem, onSubmit, onClose, onLeave, children } = props;
  return (
    <Dialog
      open
      title={title}
      onClose={onClose}
      actions={
        <>
          <Button kind={kind} busy={busy} onClick={onSubmit}>
            {act}
          </Button>
          <Button onClick={onLeave ?? onClose}>{leave}</Button>
        </>
      }
    >
      <form
        className={css['fields']}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          if (!busy) onSubmit();
        }}
      >
        <ProblemSummary problem={problem} fieldOf={peopleField} />
        {children}
        <button type="submit" hidden />
      </form>
    </Dialog>
  );
}
