'use client';
import { useState, type ReactNode } from 'react';
import { Actions, Button } from './button.tsx';
import { Shape } from './state.tsx';
import { TextArea } from './text-field.tsx';
import css from './notice.module.css';

/** One rule that stands against it. */
export interface RefusingRule {
  readonly code: string;
  /** `law` cannot be overridden and has the heavy edge; `ours` may bend, and the reason is kept. */
  readonly whose: 'law' | 'ours';
  /** Why, in one sentence. */
  readonly why: ReactNode;
  /** The clause, or the firm's own rule by name. */
  readonly source: string;
  /** What would work instead. */
  readonly instead?: ReactNode;
  /** What its reason is asked for with, where several are asked for at once. */
  readonly ask: string;
  /** Whether this person may bend it. */
  readonly bends: boolean;
}
/** A reason by the code of its rule. */
export type Reasons = Readonly<Record<string, string>>;
export interface RefusalProps {
  /** Moment and person and "no": "Wed 6 May 10:30, Achterby: no". */
  readonly title: string;
  readonly rules: readonly RefusingRule[];
  /** Called with a reason for each rule; it can be only when all of them bend. */
  readonly onOverride: (reasons: Reasons) => void;
  readonly busy?: boolean;
}
/** As the server counts: below this nothing is said. */
const LEAST = 3;
const MOST = 400;

/** Everything that is to be bent is asked for at once, each rule with a reason of its own. */
function Override({ rules, onOverride, busy = false }: Omit<RefusalProps, 'title'>) {
  const [reasons, setReasons] = useState<Reasons>();
  const [asked, setAsked] = useState(false);
  const several = rules.length > 1;
  if (reasons === undefined)
    return (
      <Actions>
        <Button onClick={() => setReasons({})}>
          {several ? 'Override, with a reason for each' : 'Override, with a reason'}
        </Button>
      </Actions>
    );
  const said = (code: string): string => reasons[code]?.trim() ?? '';
  const isOpen = (code: string): boolean => said(code).length < LEAST;
  return (
    <form
      className={css['override']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        setAsked(true);
        const open = rules.find(({ code }) => isOpen(code));
        if (open) document.getElementById(`reason-${open.code}`)?.focus();
        else if (!busy) onOverride(Object.fromEntries(rules.map(({ code }) => [code, said(code)])));
      }}
    >
      {rules.map(({ code, ask }, at) => (
        <TextArea
          key={code}
          id={`reason-${code}`}
          label={several ? ask : 'Reason'}
          rows={2}
          maxLength={MOST}
          autoFocus={at === 0}
          value={reasons[code] ?? ''}
          onChange={({ target }) => setReasons((old) => ({ ...old, [code]: target.value }))}
          hint={at === rules.length - 1 ? 'It is kept with the visit, under your name.' : undefined}
          error={asked && isOpen(code) ? 'Say why; one sentence is enough.' : undefined}
        />
      ))}
      <Actions>
        <Button kind="danger" type="submit" busy={busy}>
          {several ? 'Override all' : 'Override'}
        </Button>
        <Button onClick={() => setReasons(undefined)}>Leave it</Button>
      </Actions>
    </form>
  );
}

function Rule({ whose, why, source, instead, bends }: RefusingRule) {
  return (
    <>
      <p>{why}</p>
      <p className={css['source']}>
        {whose === 'law'
          ? `Law, ${source}: cannot be overridden.`
          : `Our own rule, ${source}${bends ? ': it can be overridden, and the reason is kept' : ''}.`}{' '}
        {instead}
      </p>
    </>
  );
}

/** A refusal speaks in a fixed order: what is refused, why, whose rule it is, what would work instead. */
export function Refusal({ title, rules, ...act }: RefusalProps) {
  const all = rules.every(({ bends }) => bends);
  return (
    <section
      className={css['refusal']}
      data-rule={rules.some(({ whose }) => whose === 'law') ? 'law' : 'ours'}
      role="alert"
    >
      <h3>
        <Shape mark="refused" size={13} />
        {title}
      </h3>
      {rules.length === 1 ? (
        rules.map((rule) => <Rule key={rule.code} {...rule} />)
      ) : (
        <ul>
          {rules.map((rule) => (
            <li key={rule.code}>
              <Rule {...rule} />
            </li>
          ))}
        </ul>
      )}
      {all && <Override key={rules.map(({ code }) => code).join()} rules={rules} {...act} />}
    </section>
  );
}
