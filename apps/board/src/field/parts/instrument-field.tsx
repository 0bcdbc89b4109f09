'use client';
import type { CommandBody } from '@ullage/contracts';
import { useState } from 'react';
import { hasDraft, useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import type { Choice } from '../words.ts';
import { bind, type Bound } from './bind.ts';
import { Figure, GRAMS_A_YEAR, Line, Pick } from './fields.tsx';
import { Nested } from './nested.tsx';
import css from './step.module.css';

type Kind = CommandBody<'register-instrument'>['kind'];
const KIND_WORDS: Readonly<Record<Kind, string>> = {
  detector: 'Detector',
  gauge: 'Gauge',
  scale: 'Scale',
  thermometer: 'Thermometer',
  'vacuum-gauge': 'Vacuum gauge',
  'recovery-machine': 'Recovery machine',
};
const isKind = (text: string): text is Kind => Object.hasOwn(KIND_WORDS, text);

export interface InstrumentFieldProps extends Bound<string> {
  readonly label: string;
  /** Which kinds can be chosen. */
  readonly kinds: readonly Kind[];
  readonly newKind: Kind;
  readonly optional?: boolean;
}

/** A tool of the firm's by its tag; one that is not known yet is registered on the spot. */
export function InstrumentField(props: InstrumentFieldProps) {
  const { kinds, newKind, onChange, ...field } = props;
  const screen = useVisit();
  const { view, sync } = screen;
  const [registering, setRegistering] = useState(() => hasDraft(screen, `new-${newKind}`, true));
  const known = view.instruments.filter((one) => isKind(one.kind) && kinds.includes(one.kind));
  const choices: Choice[] = known.map((one) => ({
    value: one.id,
    text: `${one.tag}, ${isKind(one.kind) ? KIND_WORDS[one.kind].toLowerCase() : one.kind}${one.senseGramsPerYear === null ? '' : `, ${one.senseGramsPerYear} g/yr`}`,
  }));
  // One that was registered without a signal is not in the server's list yet.
  const kept = sync.queued.filter((one) => one.envelope.schema === 'register-instrument');
  for (const one of kept)
    for (const id of one.makes)
      if (!choices.some((choice) => choice.value === id)) choices.push({ value: id, text: one.said });
  if (registering)
    return (
      <NewInstrument
        kind={newKind}
        onDone={(id) => {
          setRegistering(false);
          if (id !== undefined) onChange(id);
        }}
      />
    );
  return (
    <div className={css['pair']}>
      <Pick
        {...field}
        onChange={onChange}
        choices={choices}
        ask={choices.length === 0 ? 'None registered yet' : 'Choose one'}
      />
      <button type="button" className={css['small']} onClick={() => setRegistering(true)}>
        New {KIND_WORDS[newKind].toLowerCase()}
      </button>
    </div>
  );
}

const INITIAL = { tag: '', sense: { text: '', unit: 'g/yr' } };

function NewInstrument({ kind, onDone }: { kind: Kind; onDone: (id: string | undefined) => void }) {
  const { me } = useVisit();
  const form = useForm<typeof INITIAL, 'register-instrument'>({
    name: `new-${kind}`,
    kind: 'register-instrument',
    wholeVisit: true,
    initial: INITIAL,
    build: (values, check, idOf) => {
      const tag = check.text('tag', 'Tag', values.tag);
      const sense = check.optionalNumber('senseGramsPerYear', 'Senses', values.sense.text);
      const instrumentId = idOf('instrument');
      return {
        body: {
          instrumentId,
          kind,
          tag,
          carrierId: me.person.id,
          ...(sense !== undefined && { senseGramsPerYear: sense }),
        },
        said: `${tag}, ${KIND_WORDS[kind].toLowerCase()}`,
        makes: [instrumentId],
      };
    },
    onSaved: (_answer, _values, makes) => onDone(makes[0]),
  });
  return (
    <Nested
      title={`New ${KIND_WORDS[kind].toLowerCase()}`}
      form={form}
      saveText="Register it"
      onLeave={() => onDone(undefined)}
    >
      <Line {...bind(form, 'tag')} label="Tag" hint="As it is marked, as D-14." figure maxLength={40} />
      {kind === 'detector' && (
        <Figure
          {...bind(form, 'sense', 'senseGramsPerYear')}
          label="Senses"
          units={GRAMS_A_YEAR}
          hint="The least leak it answers to, by its maker."
          optional
        />
      )}
    </Nested>
  );
}
