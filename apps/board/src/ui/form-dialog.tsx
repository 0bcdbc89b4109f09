'use client';
import type { ReactNode } from 'react';
import { Button } from './button.tsx';
import { Dialog } from './dialog.tsx';
import css from './form-dialog.module.css';
import { ProblemSummary, type ProblemSummaryProps } from './problem-summary.tsx';

export interface FormDialogProps extends ProblemSummaryProps {
  readonly title: string;
  /** What the main button does. */
  readonly act: string;
  readonly kind?: 'main' | 'danger';
  /** What the other button says: away, unless it leads back to where one came from. */
  readonly leave?: string;
  readonly busy: boolean;
  readonly wide?: boolean;
  readonly onSubmit: () => void;
  readonly onClose: () => void;
  /** Where `leave` leads, when it does not close. */
  readonly onLeave?: () => void;
  readonly children: ReactNode;
}

/** A dialog with one form and one act. Enter in a field sends it. */
export function FormDialog(props: FormDialogProps) {
  const { title, act, kind = 'main', leave = 'Leave it', busy, wide = false, onSubmit, onClose, onLeave } = props;
  return (
    <Dialog
      open
      title={title}
      wide={wide}
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
        <ProblemSummary problem={props.problem} fieldOf={props.fieldOf} />
        {props.children}
        <button type="submit" hidden />
      </form>
    </Dialog>
  );
}

/** Two fields that belong together, beside each other where there is room. */
export const Pair = ({ children }: { children: ReactNode }) => <div className={css['pair']}>{children}</div>;
