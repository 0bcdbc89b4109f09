'use client';
import type { CommandAnswer, CommandName } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import type { ReactNode } from 'react';
import { newKey } from '../lib/client.ts';
import type { FieldProblem } from '../lib/problem.ts';
import { useAct } from '../lib/use-act.ts';
import { FormDialog } from '../ui/form-dialog.tsx';
import { tell } from '../ui/toast.tsx';
import { messages } from './unit/known/edits.ts';

type FieldOf = (pointer: string) => { id: string; label: string } | undefined;
export interface EditDialogProps {
  readonly title: string;
  readonly command: CommandName;
  /** The command's body, made when it is sent. */
  readonly body: () => unknown;
  /** When it happened; now, unless it says. */
  readonly happenedAt?: () => string | undefined;
  readonly fieldOf: FieldOf;
  /** What has to be said first, told without asking the API. */
  readonly gaps?: () => readonly FieldProblem[];
  readonly done: string;
  /** What the main button says; "Save" unless said. */
  readonly saveText?: string;
  readonly wide?: boolean;
  /** Instead of closing: what was saved is shown. @param factId the command's id, which is the fact's too */
  readonly onSaved?: (factId: string, answer: CommandAnswer) => Promise<void> | void;
  readonly onClose: () => void;
  readonly children: (errors: Readonly<Record<string, string>>) => ReactNode;
}

/** One command behind one form: what stands is filled in, what is refused is told at its field. */
export function EditDialog(props: EditDialogProps) {
  const { title, command, body, happenedAt, fieldOf, gaps, done, onSaved, onClose, children } = props;
  const { busy, problem, act, refuse } = useAct();
  const router = useRouter();
  async function save(): Promise<void> {
    const open = gaps?.() ?? [];
    if (open.length > 0) return refuse(open);
    const key = newKey();
    const sent = { happenedAt: happenedAt?.(), body: body() };
    const saved = await act<CommandAnswer>(`/v1/commands/${command}`, { body: sent, key });
    if (saved === undefined) return;
    tell(done, 'done');
    router.refresh();
    if (onSaved) await onSaved(key, saved);
    else onClose();
  }
  return (
    <FormDialog
      act={props.saveText ?? 'Save'}
      wide={props.wide ?? false}
      onSubmit={() => void save()}
      {...{ title, busy, problem, fieldOf, onClose }}
    >
      {children(messages(problem?.errors ?? [], fieldOf))}
    </FormDialog>
  );
}
