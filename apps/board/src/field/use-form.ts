'use client';
import type { CommandAnswer, CommandBody, CommandName, Problem } from '@ullage/contracts';
import { useEffect, useId, useRef, useState } from 'react';
import { announce } from './announce.tsx';
import { Check } from './check.ts';
import { type Draft, type DraftPlace, dropDraft, readDraft, valuesOver, writeDraft } from './drafts.ts';
import { faultOf, focusAfter, localProblem } from './faults.ts';
import { useVisit, type VisitScreen } from './visit-context.tsx';

export interface Built<K extends CommandName> {
  readonly body: CommandBody<K>;
  /** One line for the list of what was recorded, while the server has not said its own. */
  readonly said: string;
  /** Ids of records the command makes. */
  readonly makes?: readonly string[];
}
export interface FormOptions<V extends object, K extends CommandName> {
  /** Names the draft; a step with two forms gives each a name of its own. */
  readonly name: string;
  readonly kind: K;
  readonly initial: V;
  /** For the visit as a whole and not for one circuit. */
  readonly wholeVisit?: boolean;
  /** Makes the body; ids of new records come from `idOf`, which gives the same one for the same draft. */
  readonly build: (values: V, check: Check, idOf: (name: string) => string) => Built<K>;
  /** After the server has taken it. */
  readonly onSaved?: (answer: CommandAnswer | undefined, values: V, makes: readonly string[]) => void;
}
export interface Form<V extends object> {
  readonly values: V;
  /** Keeps the change on this phone before it returns. */
  readonly set: (change: Partial<V>) => void;
  readonly problem: Problem | undefined;
  readonly error: (path: string) => string | undefined;
  /** The id of a field's control. */
  readonly id: (path: string) => string;
  readonly busy: boolean;
  /** This phone would not keep what was typed. */
  readonly notKept: boolean;
  readonly touched: boolean;
  readonly save: () => Promise<void>;
  readonly clear: () => void;
}

interface Held<V> {
  readonly values: V;
  readonly ids: Readonly<Record<string, string>>;
  readonly problem: Problem | undefined;
  readonly touched: boolean;
}

function holdOf<V extends object>(screen: VisitScreen, place: DraftPlace, initial: V): Held<V> {
  const found = readDraft(screen.keep, place);
  // One that is on its way already shows in the list of what was recorded.
  const sealed = screen.port.sync().queued.some((one) => one.envelope.id === found?.ids['command']);
  const draft = sealed ? undefined : found;
  return {
    values: valuesOver(initial, draft?.values),
    ids: { command: screen.newId(), ...draft?.ids },
    problem: draft?.problem,
    touched: draft !== undefined,
  };
}

const placeOf = (screen: VisitScreen, name: string, wholeVisit: boolean): DraftPlace => ({
  visitId: screen.view.visit.id,
  step: name,
  circuitId: wholeVisit ? undefined : screen.glance.circuitId,
});

/** Whether something typed is kept under a form's name: such a form opens by itself. */
export const hasDraft = (screen: VisitScreen, name: string, wholeVisit = false): boolean =>
  readDraft(screen.keep, placeOf(screen, name, wholeVisit)) !== undefined;

/** Puts the focus where a refusal is to be read or mended, once the fields can take it again. */
function useFocusOnFault(problem: Problem | undefined, busy: boolean, idOf: (path: string) => string): void {
  useEffect(() => {
    if (!problem || busy) return;
    const found = focusAfter(problem).map((path) => document.getElementById(idOf(path)));
    found.find((element) => element !== null)?.focus();
    // eslint-disable-next-line react/exhaustive-deps -- a new refusal moves the focus, nothing else does
  }, [problem, busy]);
}

/** The fields as they are on this phone, and the ways to change them. */
function useHeld<V extends object>(screen: VisitScreen, place: DraftPlace, initial: V) {
  const [held, setHeld] = useState(() => holdOf(screen, place, initial));
  const [notKept, setNotKept] = useState(false);
  // A look-up may answer after more was typed: changes go onto the latest, not onto what was last drawn.
  const latest = useRef(held);
  const put = (next: Held<V>): void => {
    latest.current = next;
    setHeld(next);
  };
  return {
    // Until something is typed the first values follow what is known: a repair saved a moment ago is ticked for its test.
    held: held.touched ? held : { ...held, values: initial },
    notKept,
    setNotKept,
    set: (change: Partial<V>): void => {
      const now = latest.current;
      const values = { ...(now.touched ? now.values : initial), ...change };
      const next: Held<V> = { ...now, values, problem: undefined, touched: true };
      setNotKept(!writeDraft(screen.keep, place, { ids: next.ids, values: next.values as Draft['values'] }));
      put(next);
    },
    clear: (): void => {
      dropDraft(screen.keep, place);
      put({ values: initial, ids: { command: screen.newId() }, problem: undefined, touched: false });
    },
    refuse: (problem: Problem): void => {
      put({ ...latest.current, problem });
    },
    /** What is kept on the phone now, after a refusal put it back. */
    takeBack: (): void => put(holdOf(screen, place, initial)),
  };
}

/** One step's fields: kept on the phone as they are typed, sent as one command, given back when it is refused. */
export function useForm<V extends object, K extends CommandName>(options: FormOptions<V, K>): Form<V> {
  const screen = useVisit();
  const { name, initial, wholeVisit = false } = options;
  const place = placeOf(screen, name, wholeVisit);
  const { held, notKept, setNotKept, set, clear, refuse, takeBack } = useHeld(screen, place, initial);
  const [busy, setBusy] = useState(false);
  const prefix = useId();
  const id = (path: string): string => `${prefix}${path.replaceAll('.', '-')}`;
  const { queued } = screen.sync;
  useFocusOnFault(held.problem, busy, id);

  // A refusal that arrives later puts the fields back into an empty step.
  useEffect(() => {
    if (!held.touched && !busy && readDraft(screen.keep, place) !== undefined) takeBack();
    // eslint-disable-next-line react/exhaustive-deps -- only a change of what waits can bring a draft back
  }, [queued]);

  const save = async (): Promise<void> => {
    if (busy) return;
    const ready = prepare(options, held, screen);
    if (ready.ok) return submit(ready);
    refuse(ready.problem);
  };
  const submit = async (ready: Extract<Ready<K>, { ok: true }>): Promise<void> => {
    setBusy(true);
    const draft: Draft = { v: 1, ids: ready.ids, values: held.values as Draft['values'] };
    const happenedAt = screen.now().toISOString();
    const sent = await screen.port.send({ ...ready.built, kind: options.kind, happenedAt, place, draft });
    const answer = sent.is === 'answered' ? sent.answer : undefined;
    const isRefused = answer?.outcome === 'needs-attention';
    if (isRefused) takeBack();
    if (answer && !isRefused) await screen.refresh();
    setBusy(false);
    if (sent.is === 'full') return setNotKept(true);
    if (isRefused) return;
    clear();
    announce(answer ? `Saved: ${ready.built.said}` : 'Kept on this phone; it goes out when there is a signal.');
    options.onSaved?.(answer, held.values, ready.built.makes ?? []);
  };
  const error = (path: string): string | undefined => faultOf(held.problem?.errors ?? [], path);
  const { values, problem, touched } = held;
  return { values, set, problem, error, id, busy, notKept, touched, save, clear };
}

type Ready<K extends CommandName> =
  | { readonly ok: true; readonly built: Built<K>; readonly ids: Readonly<Record<string, string>> }
  | { readonly ok: false; readonly problem: Problem };

function prepare<V extends object, K extends CommandName>(
  options: FormOptions<V, K>,
  held: Held<V>,
  screen: VisitScreen,
): Ready<K> {
  const ids: Record<string, string> = { ...held.ids };
  const check = new Check();
  const built = options.build(held.values, check, (name) => (ids[name] ??= screen.newId()));
  if (check.faults.length > 0) return { ok: false, problem: localProblem(check.faults) };
  return { ok: true, built, ids };
}
