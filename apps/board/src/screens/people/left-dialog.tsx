'use client';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { tell } from '../../ui/toast.tsx';
import { peopleField, placedWords, type Member } from './people-form.ts';
import { useAct } from '../../lib/use-act.ts';

export interface LeftDialogProps {
  readonly person: Member;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

/** Somebody who does not sign in has left; asked once, because they vanish from every list of people to place. */
export function LeftDialog({ person, onClose, onChanged }: LeftDialogProps) {
  const { busy, problem, act } = useAct();
  async function leave(): Promise<void> {
    const body = { personId: person.id };
    if ((await act('/v1/commands/deactivate-person', { body: { body } })) === undefined) return;
    tell(`${person.name} has left.`);
    onChanged();
    onClose();
  }
  return (
    <Dialog
      open
      title={`${person.name} has left?`}
      onClose={onClose}
      actions={
        <>
          <Button kind="danger" busy={busy} onClick={() => void leave()}>
            Has left
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </>
      }
    >
      <ProblemSummary problem={problem} fieldOf={peopleField} />
      <p>
        Nobody can place a visit on {person.name} any more. The name and certificates stay in the records, and they can
        be taken back. {placedWords(person)}
      </p>
    </Dialog>
  );
}
