'use client';
import type { CommandAnswer } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useRouter } from 'next/navigation';
import { useRef, useState, type SubmitEvent } from 'react';
import { newKey, send } from '../../lib/client.ts';
import { parseProblem, type Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Caution } from '../../ui/caution.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { cylinderPath } from '../link-to.ts';
import css from '../office.module.css';
import { ContentFields, OwnerFields, StampFields, type FieldsProps } from './register-fields.tsx';
import { fromStamps, STAMP_LABELS, type StampPointer, type Stamps } from './stamps.ts';

const isPointer = (pointer: string): pointer is StampPointer => Object.hasOwn(STAMP_LABELS, pointer);
/** The API names a place in what was sent; the form knows places in the body. */
const inBody = (pointer: string): string => pointer.replace(/^#?\/body(?=\/)/, '');
export const stampId = (pointer: string): string => `cylinder${pointer.replaceAll('/', '-')}`;

const emptyStamps = (unit: MassUnit): Stamps => ({
  kind: '',
  specification: '',
  serial: '',
  label: '',
  waterCapacity: { text: '', unit },
  tare: { text: '', unit },
  servicePressurePsig: '',
  madeMonth: '',
  testedMonth: '',
  ownerCustomerId: '',
  dedicatedTo: '',
  holds: '',
  gas: '',
  gasState: '',
  gross: { text: '', unit },
});

const refusedBy = (errors: Problem['errors']): Problem => ({
  ...parseProblem(422, { title: 'A few stamps are missing' }),
  errors,
});

/** What the answer to a command leaves to say; undefined when it was applied. */
function problemIn(answer: CommandAnswer): Problem | undefined {
  if (answer.outcome === 'applied' || answer.outcome === 'already-applied') return undefined;
  return parseProblem(answer.problem?.status ?? 422, answer.problem ?? { title: 'It could not be registered' });
}

export interface RegisterFormProps {
  readonly refrigerants: readonly string[];
  readonly customers: readonly { readonly id: string; readonly name: string }[];
  readonly massUnit: MassUnit;
}

/** Registers a cylinder by its stamps. The id and the key are made once, so that a second press makes no second one. */
function useRegister(stamps: Stamps) {
  const router = useRouter();
  const made = useRef<{ id: string; key: string; sent: string } | undefined>(undefined);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function register(): Promise<void> {
    const id = made.current?.id ?? newKey();
    const read = fromStamps(stamps, id);
    if (!read.ok) return setProblem(refusedBy(read.errors));
    const sent = JSON.stringify(read.body);
    // Other content is another command: the same key with it would be refused.
    const key = made.current?.sent === sent ? made.current.key : newKey();
    made.current = { id, key, sent };
    setBusy(true);
    const answer = await send<CommandAnswer>('/v1/commands/register-cylinder', { body: { body: read.body }, key });
    setBusy(false);
    const wrong = answer.ok ? problemIn(answer.data) : answer.problem;
    setProblem(wrong);
    if (!wrong) router.push(cylinderPath(id));
  }
  return { busy, problem, register };
}

export function RegisterForm({ refrigerants, customers, massUnit }: RegisterFormProps) {
  const [stamps, setStamps] = useState(() => emptyStamps(massUnit));
  const { busy, problem, register } = useRegister(stamps);
  const errors = new Map(problem?.errors.map(({ pointer, detail }) => [inBody(pointer), detail]));
  const fields: FieldsProps = {
    stamps,
    set: (change) => setStamps((before) => ({ ...before, ...change })),
    at: (pointer) => ({ id: stampId(pointer), label: STAMP_LABELS[pointer], error: errors.get(pointer) }),
    refrigerants,
    customers,
  };
  return (
    <form
      className={css['form']}
      noValidate
      onSubmit={(event: SubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        if (!busy) void register();
      }}
    >
      <ProblemSummary
        problem={problem}
        fieldOf={(pointer) => {
          const at = inBody(pointer);
          return isPointer(at) ? { id: stampId(at), label: STAMP_LABELS[at] } : undefined;
        }}
      />
      <StampFields {...fields} />
      <OwnerFields {...fields} />
      <ContentFields {...fields} />
      <Caution title="Overfilled or unmarked cylinder">
        read the stamps off the shoulder, never from memory: tare and water capacity set how much may go in. A
        liquid-full cylinder can burst in the heat. Local codes and licensed practice rule.
      </Caution>
      <Actions>
        <Button kind="main" type="submit" busy={busy}>
          {busy ? 'Registering' : 'Register cylinder'}
        </Button>
      </Actions>
    </form>
  );
}
