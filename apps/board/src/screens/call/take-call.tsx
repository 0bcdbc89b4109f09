'use client';
import type { CommandAnswer } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useRouter } from 'next/navigation';
import { useState, useSyncExternalStore, type FormEvent } from 'react';
import { missing } from '../../lib/auth.ts';
import { send } from '../../lib/client.ts';
import { localTime } from '../../lib/local-time.ts';
import type { Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Skeleton } from '../../ui/skeleton.tsx';
import { TextArea } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { callErrors, callField, type CallDraft } from './call-form.ts';
import { PastFields } from './past-fields.tsx';
import { PlaceFields, type CallPartProps } from './place-fields.tsx';
import { UnitFields } from './unit-fields.tsx';
import { useDraft } from './use-draft.ts';
import { usePlaces } from './use-places.ts';
import css from './call.module.css';

export interface TakeCallProps {
  /** Refrigerants that the rulebooks know. */
  readonly gases: readonly string[];
  readonly owner: string;
  readonly timeZone: string;
  readonly massUnit: MassUnit;
  readonly now: string;
}

/** What stands against the call. A field that is being mended is no longer told off; the summary goes with the last. */
function useCallProblem() {
  const [held, setHeld] = useState<{ problem: Problem | undefined; touched: readonly string[] }>({
    problem: undefined,
    touched: [],
  });
  const all = Object.entries(callErrors(held.problem?.errors ?? []));
  const left = all.filter(([id]) => !held.touched.includes(id.replace(/-.*/, '')));
  return {
    errors: Object.fromEntries(left),
    problem: all.length > 0 && left.length === 0 ? undefined : held.problem,
    setProblem: (problem: Problem | undefined) => setHeld({ problem, touched: [] }),
    touch: (names: readonly string[]) =>
      setHeld((old) => (old.problem ? { ...old, touched: [...new Set([...old.touched, ...names])] } : old)),
  };
}

const never = (): (() => void) => () => undefined;

/** A call as it comes over the telephone: fourteen fields, six of them required, nothing typed is lost. */
export function TakeCall(props: TakeCallProps) {
  const inBrowser = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  return inBrowser ? <CallForm {...props} /> : <Skeleton label="Opening the call" />;
}

function Ending({ busy, onClear }: { busy: boolean; onClear: () => void }) {
  return (
    <Actions>
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Taking the call' : 'Take the call'}
      </Button>
      <Button onClick={onClear}>Clear the form</Button>
      <span className="quiet">Kept on this computer as you type.</span>
    </Actions>
  );
}

function Symptom({ draft, change, errors }: CallPartProps) {
  return (
    <TextArea
      id="symptom"
      label="What is wrong"
      optional
      rows={2}
      value={draft.symptom}
      error={errors['symptom']}
      onChange={({ target }) => change({ symptom: target.value })}
    />
  );
}

function CallForm({ owner, timeZone, massUnit, now, gases }: TakeCallProps) {
  const { draft, change: keepDraft, clear, forget } = useDraft({ owner, timeZone, massUnit });
  const places = usePlaces(draft.customer);
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const { problem, errors, setProblem, touch } = useCallProblem();
  const [round, setRound] = useState(0);
  const today = localTime(now, draft.timeZone).day;
  async function submit(event: FormEvent): Promise<void> {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    const { callBody } = await import('./call-body.ts');
    const made = callBody(draft, today);
    if (!made.ok) {
      setBusy(false);
      return setProblem(missing(made.errors));
    }
    const answer = await send<CommandAnswer>('/v1/commands/take-call', { body: { body: made.body }, key: draft.key });
    if (!answer.ok) {
      setBusy(false);
      return setProblem(answer.problem);
    }
    forget();
    tell('The call is taken. Give it a day and a technician.', 'done');
    router.push(`/returns?visit=${draft.ids.visit}`);
  }
  function change(part: Partial<CallDraft>): void {
    touch(Object.keys(part));
    keepDraft(part);
  }
  const part = { draft, change, errors, places, gases };
  return (
    <form
      key={round}
      className={css['form']}
      noValidate
      onSubmit={(event) => void submit(event)}
      aria-label="Take a call"
    >
      <ProblemSummary problem={problem} fieldOf={callField} />
      <PlaceFields {...part} />
      <UnitFields {...part} />
      <Symptom {...part} />
      <PastFields {...{ draft, change, errors, today }} />
      <Ending
        busy={busy}
        onClear={() => {
          clear();
          setProblem(undefined);
          setRound(round + 1);
        }}
      />
    </form>
  );
}
