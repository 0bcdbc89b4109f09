'use client';
import type { CommandAnswer } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { send } from '../../lib/client.ts';
import type { Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ErrorState } from '../../ui/blank.tsx';
import { TextArea } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { goOnFrom } from '../../ui/work-list.tsx';
import { useOpenRecall } from '../recall/use-recall.ts';

type How = 'try-again' | 'leave-out' | 'looked-at';
const DONE: Readonly<Record<How, string>> = {
  'try-again': 'Applied.',
  'leave-out': 'Left out; it is kept below.',
  'looked-at': 'Looked at; it is kept below.',
};
export interface SettleProps {
  readonly attentionId: string;
  readonly title: string;
  /** What it says: tells two items of the same name apart for a screen reader. */
  readonly about: string;
  /** The fact that a recall can begin at; null where there is none. */
  readonly recallFrom: string | null;
  /** `record` was booked and asks to be looked at; the others wait to be tried again or left out. */
  readonly kind: string;
}

function useSettle(attentionId: string) {
  const router = useRouter();
  const [busy, setBusy] = useState<How>();
  const [problem, setProblem] = useState<Pick<Problem, 'title' | 'detail'>>();
  async function settle(how: How, note: string): Promise<boolean> {
    setBusy(how);
    const body = { body: { attentionId, how, ...(note.trim() === '' ? {} : { note: note.trim() }) } };
    const answer = await send<CommandAnswer>('/v1/commands/settle-attention', { body });
    setBusy(undefined);
    if (!answer.ok) setProblem(answer.problem);
    else if (answer.data.outcome === 'needs-attention' || answer.data.outcome === 'waiting')
      setProblem({
        title: 'It still cannot be applied',
        detail: answer.data.problem?.detail ?? 'Something it depends on has not arrived yet.',
      });
    else {
      setProblem(undefined);
      tell(DONE[how]);
      router.refresh();
      return true;
    }
    router.refresh();
    return false;
  }
  return { busy, problem, settle };
}

function LeaveOut({ open, onClose, onLeave, busy }: LeaveOutProps) {
  const [note, setNote] = useState('');
  return (
    <Dialog
      open={open}
      title="Leave it out?"
      onClose={onClose}
      actions={
        <>
          <Button kind="danger" busy={busy} onClick={() => onLeave(note)}>
            Leave out
          </Button>
          <Button onClick={onClose}>Keep waiting</Button>
        </>
      }
    >
      <p>Nothing of it is booked. The command stays here, whole, under your name.</p>
      <TextArea
        label="Note"
        optional
        autoFocus
        maxLength={4000}
        value={note}
        onChange={(event) => setNote(event.target.value)}
        hint="Why it may be left out, for whoever reads the books later."
      />
    </Dialog>
  );
}
interface LeaveOutProps {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly onLeave: (note: string) => void;
  readonly busy: boolean;
}

/** What a person may do about an item. */
export function Settle({ attentionId, title, about, kind, recallFrom }: SettleProps) {
  const { busy, problem, settle: send } = useSettle(attentionId);
  const box = useRef<HTMLDivElement>(null);
  const name = about === '' ? title : about;
  async function settle(how: How, note: string): Promise<boolean> {
    const done = await send(how, note);
    // A dialog hands the focus back to its button first.
    if (done) setTimeout(() => goOnFrom(box.current));
    return done;
  }
  return (
    <div ref={box}>
      {problem && (
        <ErrorState title={problem.title}>
          <p>{problem.detail}</p>
        </ErrorState>
      )}
      {kind === 'record' ? (
        <Actions>
          {recallFrom !== null && <OpenRecall factId={recallFrom} name={name} />}
          <Button
            kind={recallFrom === null ? 'main' : 'plain'}
            busy={busy === 'looked-at'}
            aria-label={`I have looked: ${name}`}
            onClick={() => void settle('looked-at', '')}
          >
            I have looked
          </Button>
        </Actions>
      ) : (
        <TryOrLeave title={name} busy={busy} settle={settle} />
      )}
    </div>
  );
}

/** To the list of what it touched, which takes the item's place. */
function OpenRecall({ factId, name }: { factId: string; name: string }) {
  const { busy, problem, open } = useOpenRecall();
  return (
    <>
      {problem && (
        <ErrorState title={problem.title}>
          <p>{problem.detail}</p>
        </ErrorState>
      )}
      <Button kind="main" busy={busy} aria-label={`See what it touched: ${name}`} onClick={() => void open(factId)}>
        See what it touched
      </Button>
    </>
  );
}

interface TryOrLeaveProps {
  readonly title: string;
  readonly busy: How | undefined;
  readonly settle: (how: How, note: string) => Promise<boolean>;
}
/** Have it tried again, or leave it out with a note. */
function TryOrLeave({ title, busy, settle }: TryOrLeaveProps) {
  const [leaving, setLeaving] = useState(false);
  return (
    <>
      <Actions>
        <Button
          kind="main"
          busy={busy === 'try-again'}
          aria-label={`Try again: ${title}`}
          onClick={() => void settle('try-again', '')}
        >
          Try again
        </Button>
        <Button aria-label={`Leave out: ${title}`} onClick={() => setLeaving(true)}>
          Leave out
        </Button>
      </Actions>
      <LeaveOut
        open={leaving}
        busy={busy === 'leave-out'}
        onClose={() => setLeaving(false)}
        onLeave={(note) => void settle('leave-out', note).then((done) => done && setLeaving(false))}
      />
    </>
  );
}
