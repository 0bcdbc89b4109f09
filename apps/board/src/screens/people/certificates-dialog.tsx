'use client';
import type { CommandAnswer } from '@ullage/contracts';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { localTime } from '../../lib/local-time.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { TextArea, TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { PaperFields } from './paper-fields.tsx';
import {
  certificateWords,
  correctBody,
  paperGaps,
  peopleErrors,
  peopleField,
  personBody,
  placedWords,
  whyGaps,
  type Member,
  type MemberCertificate,
  type PaperForm,
} from './people-form.ts';
import { useAct } from '../../lib/use-act.ts';
import css from './people.module.css';

export interface CertificatesDialogProps {
  readonly person: Member;
  /** The contractor's. */
  readonly timeZone: string;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}
interface StepProps extends CertificatesDialogProps {
  readonly onBack: () => void;
}
interface OneProps extends StepProps {
  readonly one: MemberCertificate;
}
type Step = { readonly is: 'list' | 'add' } | { readonly is: 'correct' | 'end'; readonly one: MemberCertificate };

/** What a command asks back goes before a person, who may have left the page it is about. */
function said(words: string, answer: CommandAnswer): void {
  tell(words);
  for (const { text } of answer.asks) tell(text, 'warn');
}

function Why({ hint, value, error, onChange }: WhyProps) {
  return (
    <TextArea
      id="people-why"
      label="Why"
      rows={2}
      maxLength={400}
      hint={hint}
      value={value}
      error={error}
      onChange={({ target }) => onChange(target.value)}
    />
  );
}
interface WhyProps {
  readonly hint: string;
  readonly value: string;
  readonly error: string | undefined;
  readonly onChange: (why: string) => void;
}

function Add({ person, onClose, onBack, onChanged }: StepProps) {
  const [id] = useState(newKey);
  const [form, setForm] = useState<PaperForm>({ type: 'universal', registeredOn: '', endsOn: '' });
  const { busy, problem, act, refuse } = useAct();
  async function save(): Promise<void> {
    const gaps = paperGaps(form);
    if (gaps.length > 0) return refuse(gaps);
    const body = personBody({ ...form, personId: person.id, certificateId: id, name: person.name, email: '' });
    const done = await act<CommandAnswer>('/v1/commands/register-person', { body: { body } });
    if (!done) return;
    tell(`${person.name}: certificate registered.`);
    onChanged();
    onBack();
  }
  const none = person.certificates.length === 0;
  return (
    <FormDialog
      title={`Certificate of ${person.name}`}
      act="Register"
      leave={none ? 'Leave it' : 'Back'}
      onSubmit={() => void save()}
      onLeave={none ? onClose : onBack}
      fieldOf={peopleField}
      {...{ busy, problem, onClose }}
    >
      <PaperFields
        form={form}
        mayBeNone={false}
        errors={peopleErrors(problem?.errors ?? [])}
        change={(part) => setForm((old) => ({ ...old, ...part }))}
      />
    </FormDialog>
  );
}

function Correct({ person, one, onClose, onBack, onChanged }: OneProps) {
  const [form, setForm] = useState({
    type: one.type as string,
    registeredOn: one.registeredOn ?? '',
    endsOn: one.endsOn ?? '',
    why: '',
  });
  const { busy, problem, act, refuse } = useAct();
  const errors = peopleErrors(problem?.errors ?? []);
  const change = (part: Partial<typeof form>): void => setForm((old) => ({ ...old, ...part }));
  async function save(): Promise<void> {
    const gaps = [...paperGaps(form), ...whyGaps(form.why)];
    if (gaps.length > 0) return refuse(gaps);
    const body = correctBody(one, form);
    const done = await act<CommandAnswer>('/v1/commands/correct-certificate', { body: { body } });
    if (!done) return;
    said(`${person.name}: certificate put right.`, done);
    onChanged();
    onBack();
  }
  return (
    <FormDialog
      title={`Correct ${one.text} of ${person.name}`}
      act="Put it right"
      leave="Back"
      onSubmit={() => void save()}
      onLeave={onBack}
      fieldOf={peopleField}
      {...{ busy, problem, onClose }}
    >
      <p>For a slip when it was entered. What stood before is kept.</p>
      <PaperFields {...{ form, errors, change }} mayBeNone={false} />
      <Why
        hint="What was wrong with it. It is kept under your name."
        value={form.why}
        error={errors['people-why']}
        onChange={(why) => change({ why })}
      />
    </FormDialog>
  );
}

function End({ person, one, timeZone, onClose, onBack, onChanged }: OneProps) {
  const [fromDay, setFromDay] = useState(() => localTime(new Date().toISOString(), timeZone).day);
  const [why, setWhy] = useState('');
  const { busy, problem, act, refuse } = useAct();
  const errors = peopleErrors(problem?.errors ?? []);
  async function save(): Promise<void> {
    const day = fromDay === '' ? [{ pointer: '#/fromDay', detail: 'Not valid from: give the day.' }] : [];
    const gaps = [...day, ...whyGaps(why)];
    if (gaps.length > 0) return refuse(gaps);
    const body = { certificateId: one.id, version: one.version, fromDay, why: why.trim() };
    const done = await act<CommandAnswer>('/v1/commands/end-certificate', { body: { body } });
    if (!done) return;
    said(`${person.name}: ${one.text} ends.`, done);
    onChanged();
    onBack();
  }
  return (
    <FormDialog
      title={`End ${one.text} of ${person.name}`}
      act="End it"
      kind="danger"
      leave="Back"
      onSubmit={() => void save()}
      onLeave={onBack}
      fieldOf={peopleField}
      {...{ busy, problem, onClose }}
    >
      <p>
        From this day on the law no longer lets {person.name} go by it. What was done before stands.{' '}
        {placedWords(person)}
      </p>
      <TextField
        id="people-fromDay"
        type="date"
        label="Not valid from"
        value={fromDay}
        error={errors['people-fromDay']}
        onChange={({ target }) => setFromDay(target.value)}
      />
      <Why hint="It is kept under your name." value={why} error={errors['people-why']} onChange={setWhy} />
    </FormDialog>
  );
}

function List({ person, onClose, onStep }: CertificatesDialogProps & { onStep: (step: Step) => void }) {
  return (
    <Dialog
      open
      title={`Certificates of ${person.name}`}
      onClose={onClose}
      actions={
        <>
          <Button kind="main" onClick={() => onStep({ is: 'add' })}>
            Add a certificate
          </Button>
          <Button onClick={onClose}>Done</Button>
        </>
      }
    >
      <ul className={css['papers']}>
        {person.certificates.map((one) => (
          <li key={one.id} data-ended={one.standing === 'ended' || undefined}>
            <span>{certificateWords(one)}</span>
            <Actions>
              <Button onClick={() => onStep({ is: 'correct', one })} aria-label={`Correct ${certificateWords(one)}`}>
                Correct
              </Button>
              {one.standing !== 'ended' && (
                <Button onClick={() => onStep({ is: 'end', one })} aria-label={`End ${certificateWords(one)}`}>
                  End
                </Button>
              )}
            </Actions>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** The certificates of a person: one more, one put right, one that ends. Each is a dialog of its own on the way back to the list. */
export function CertificatesDialog(props: CertificatesDialogProps) {
  const [step, setStep] = useState<Step>({ is: props.person.certificates.length === 0 ? 'add' : 'list' });
  const onBack = (): void => setStep({ is: 'list' });
  switch (step.is) {
    case 'list':
      return <List {...props} onStep={setStep} />;
    case 'add':
      return <Add {...props} onBack={props.person.certificates.length === 0 ? props.onClose : onBack} />;
    case 'correct':
      return <Correct {...props} onBack={onBack} one={step.one} />;
    case 'end':
      return <End {...props} onBack={onBack} one={step.one} />;
  }
}
