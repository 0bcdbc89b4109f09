'use client';
import type { CommandAnswer, VisitHead } from '@ullage/contracts';
import { useState } from 'react';
import type { z } from 'zod';
import { missing } from '../../lib/auth.ts';
import { send } from '../../lib/client.ts';
import type { Problem } from '../../lib/problem.ts';
import { tell } from '../../ui/toast.tsx';
import type { Reasons } from '../../ui/refusal.tsx';
import { gapsOf, outcomeOf, overrideOf, placeBody, type Override, type PlaceForm } from './place-command.ts';

/** What stands against the placing now. `mend` is for fields; the others are cards of their own. */
export type Against =
  | { readonly is: 'mend' | 'lost'; readonly problem: Problem }
  | { readonly is: 'refused'; readonly problem: Problem; readonly form: PlaceForm };

interface Placing {
  readonly visit: z.infer<typeof VisitHead>;
  readonly onChanged: () => void;
  /** "Priya Lannock, Wed 6 May, 10:30" of a form. */
  readonly words: (form: PlaceForm) => string;
}

/** Sends placings and takes the answers apart: a race that was lost, a rule that refuses, a field to mend. */
export function usePlacing({ visit, onChanged, words }: Placing) {
  const [busy, setBusy] = useState(false);
  const [against, setAgainst] = useState<Against>();
  const [asks, setAsks] = useState<readonly string[]>([]);

  function refuse(problem: Problem, form: PlaceForm): void {
    const is = outcomeOf(problem);
    setAgainst(is === 'refused' ? { is, problem, form } : { is, problem });
    if (is === 'lost') onChanged();
  }
  async function post(form: PlaceForm, override?: Override): Promise<void> {
    setBusy(true);
    const body = placeBody(form, visit, override);
    const answer = await send<CommandAnswer>('/v1/commands/place-visit', { body: { body } });
    setBusy(false);
    if (!answer.ok) return refuse(answer.problem, form);
    setAgainst(undefined);
    setAsks(answer.data.asks.map(({ text }) => text));
    tell(`Placed: ${words(form)}.`, 'planned');
    onChanged();
  }
  async function place(form: PlaceForm): Promise<void> {
    const gaps = gapsOf(form);
    if (gaps.length > 0) return setAgainst({ is: 'mend', problem: missing(gaps) });
    await post(form);
  }
  async function override(reasons: Reasons): Promise<void> {
    if (against?.is === 'refused') await post(against.form, overrideOf(reasons));
  }
  async function unplace(): Promise<void> {
    setBusy(true);
    const body = { visitId: visit.id, version: visit.version };
    const answer = await send<CommandAnswer>('/v1/commands/unplace-visit', { body: { body } });
    setBusy(false);
    setAsks([]);
    if (!answer.ok) {
      setAgainst({ is: outcomeOf(answer.problem) === 'lost' ? 'lost' : 'mend', problem: answer.problem });
    } else {
      setAgainst(undefined);
      tell(`${visit.circuitTags.join(', ')} is off the plan.`, 'done');
    }
    onChanged();
  }
  return { busy, against, asks, place, override, unplace, forget: () => setAgainst(undefined) };
}
