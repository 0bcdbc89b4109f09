'use client';
import { useState, type FormEvent } from 'react';
import type { Answer } from '../../lib/client.ts';
import { missing } from '../../lib/auth.ts';
import { errorsByField, fieldName, type FieldProblem, type Problem } from '../../lib/problem.ts';

export interface Door {
  /** What a person can mend before anything is sent. */
  readonly check: (form: FormData) => readonly FieldProblem[];
  readonly act: (form: FormData) => Promise<Answer<unknown>>;
  /** Where it leads. */
  readonly to: string;
  /** True when the answer asks for one thing more: then nobody goes on yet. */
  readonly asksMore?: (data: unknown) => boolean;
}

/** What the forms at the door share: one act at a time, its refusal, and going on with a page loaded anew. */
export function useDoor({ check, act, to, asksMore }: Door) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function run(form: FormData): Promise<void> {
    const gaps = check(form);
    if (gaps.length > 0) return setProblem(missing(gaps));
    setBusy(true);
    const answer = await act(form);
    if (!answer.ok) {
      setProblem(answer.problem);
      return setBusy(false);
    }
    if (asksMore?.(answer.data)) return setBusy(false);
    // A full load, because everything the server showed before was for a stranger. It stays busy until the page is gone.
    location.assign(to);
  }
  const onSubmit = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    if (!busy) void run(new FormData(event.currentTarget));
  };
  return { busy, problem, errors: errorsByField(problem), onSubmit };
}

export const textOf = (form: FormData, name: string): string => {
  const value = form.get(name);
  return typeof value === 'string' ? value : '';
};

const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;
const GAPS: Readonly<Record<string, string>> = {
  name: 'Enter your name, as colleagues know it.',
  email: 'Enter a full e-mail address, like kim@firm.example.',
  password: 'Enter the password.',
  code: 'Enter the code.',
  firm: 'Enter the name customers know.',
  timeZone: 'Choose the zone the shop works in.',
};

/** The gaps a person can close before anything is sent. */
export function gapsOf(form: FormData, names: readonly string[]): FieldProblem[] {
  return names
    .filter((name) => {
      const text = textOf(form, name).trim();
      return name === 'email' ? !EMAIL.test(text) : text === '';
    })
    .map((name) => ({ pointer: `#/${name}`, detail: GAPS[name] ?? 'Enter this.' }));
}

/** The same length the API asks for. */
export const PASSWORD_MIN = 10;

export function newPasswordGaps(form: FormData): FieldProblem[] {
  const { length } = textOf(form, 'password');
  if (length === 0 || length >= PASSWORD_MIN) return [];
  return [{ pointer: '#/password', detail: `Use at least ${PASSWORD_MIN} characters; this has ${length}.` }];
}

const LABELS: Readonly<Record<string, string>> = {
  name: 'Your name',
  email: 'E-mail',
  password: 'Password',
  code: 'Code',
  firm: 'Contractor',
  timeZone: 'Time zone',
};

/** Where a problem's pointer leads in these forms. */
export function doorField(pointer: string): { id: string; label: string } | undefined {
  const name = fieldName(pointer);
  const label = LABELS[name];
  return label === undefined ? undefined : { id: name, label };
}
