'use client';
import type { RecallItemView } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { useAct } from '../../lib/use-act.ts';
import { ErrorState } from '../../ui/blank.tsx';
import { Actions, Button } from '../../ui/button.tsx';
import { TextArea } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { goOnFrom } from '../../ui/work-list.tsx';
import { EditDialog } from '../edit-dialog.tsx';
import { ACTION_WORDS } from './words.ts';

const WHY_ID = 'recall-why';
const whyField = (pointer: string) => (pointer.includes('why') ? { id: WHY_ID, label: 'Why' } : undefined);

export interface RecallActsProps {
  readonly recallId: string;
  readonly item: Pick<RecallItemView, 'kind' | 'id' | 'title' | 'action'>;
}
/** The one action of a thing, and "nothing to do" with a reason. What is settled hands the focus on. */
export function RecallActs({ recallId, item }: RecallActsProps) {
  const { kind, id, title, action } = item;
  const { busy, problem, act } = useAct();
  const router = useRouter();
  const box = useRef<HTMLDivElement>(null);
  const [isLeaving, setLeaving] = useState(false);
  const [key] = useState(newKey);
  async function settle(): Promise<void> {
    const body = { body: { recallId, item: { kind, id }, how: action } };
    const done = await act('/v1/commands/settle-recall-item', { body, key });
    router.refresh();
    if (done === undefined) return;
    tell(`${title}: ${ACTION_WORDS[action].done}`);
    goOnFrom(box.current);
  }
  return (
    <div ref={box}>
      {problem && (
        <ErrorState title={problem.title}>
          <p>{problem.detail}</p>
        </ErrorState>
      )}
      <Actions>
        {action !== 'nothing' && (
          <Button
            kind="main"
            busy={busy}
            aria-label={`${ACTION_WORDS[action].ask}: ${title}`}
            onClick={() => void settle()}
          >
            {ACTION_WORDS[action].ask}
          </Button>
        )}
        <Button aria-label={`${ACTION_WORDS.nothing.ask}: ${title}`} onClick={() => setLeaving(true)}>
          {ACTION_WORDS.nothing.ask}
        </Button>
      </Actions>
      {isLeaving && (
        <NothingDialog
          {...{ recallId, item }}
          onSaved={() => {
            setLeaving(false);
            // The dialog hands the focus back to its button first.
            setTimeout(() => goOnFrom(box.current));
          }}
          onClose={() => setLeaving(false)}
        />
      )}
    </div>
  );
}

interface NothingProps extends RecallActsProps {
  readonly onSaved: () => void;
  readonly onClose: () => void;
}
function NothingDialog({ recallId, item: { kind, id, title }, onSaved, onClose }: NothingProps) {
  const [why, setWhy] = useState('');
  return (
    <EditDialog
      title={`Nothing to do: ${title}`}
      command="settle-recall-item"
      body={() => ({ recallId, item: { kind, id }, how: 'nothing', why: why.trim() })}
      fieldOf={whyField}
      done={`${title}: ${ACTION_WORDS.nothing.done}`}
      onSaved={onSaved}
      onClose={onClose}
    >
      {(errors) => (
        <TextArea
          id={WHY_ID}
          label="Why"
          hint="Kept beside your name, for whoever asks."
          rows={2}
          maxLength={400}
          value={why}
          error={errors[WHY_ID]}
          onChange={({ target }) => setWhy(target.value)}
        />
      )}
    </EditDialog>
  );
}

/** For one that touched nothing, or whose things were settled elsewhere. */
export function CloseRecall({ recallId }: { recallId: string }) {
  const { busy, problem, act } = useAct();
  const router = useRouter();
  async function close(): Promise<void> {
    const done = await act('/v1/commands/close-recall', { body: { body: { recallId } } });
    router.refresh();
    if (done !== undefined) tell('The recall is closed.');
  }
  return (
    <>
      {problem && (
        <ErrorState title={problem.title}>
          <p>{problem.detail}</p>
        </ErrorState>
      )}
      <Button kind="main" busy={busy} onClick={() => void close()}>
        Close the recall
      </Button>
    </>
  );
}
