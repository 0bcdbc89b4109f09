'use client';
import type { ReturnItem, ReturnsView, VisitHead } from '@ullage/contracts';
import { useEffect, useState, type FormEvent } from 'react';
import type { z } from 'zod';
import { dayName, localTime } from '../../lib/local-time.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Refusal, type Reasons } from '../../ui/refusal.tsx';
import { Shape } from '../../ui/state.tsx';
import type { Offer } from './offer.ts';
import { clockFrom, placeField, refusingRules, type PlaceForm } from './place-command.ts';
import { PlaceFields } from './place-fields.tsx';
import { Suggest } from './suggest.tsx';
import { usePlacing, type Against } from './use-placing.ts';
import type { Axis } from './rows.ts';
import { useTakesDrops, type PlacerRef } from './takes-drops.ts';
import css from './returns.module.css';

type Head = z.infer<typeof VisitHead>;
export interface PlacingProps {
  readonly visit: Head;
  readonly item: ReturnItem | undefined;
  readonly data: ReturnsView;
  readonly axis: Axis;
  readonly late: boolean;
  readonly placerRef: PlacerRef;
  readonly onOffer: (offer: Offer | undefined) => void;
  readonly onChanged: () => void;
}

function formOf(visit: Head): PlaceForm {
  const at = visit.startsAt === null ? undefined : localTime(visit.startsAt, visit.timeZone);
  const [first, second] = visit.people;
  return {
    day: at?.day ?? '',
    time: at?.time ?? '',
    personId: first?.personId ?? '',
    withPersonId: second?.personId ?? '',
    minutes: String(visit.minutes),
    which: '',
  };
}

const sameForm = (a: PlaceForm, b: PlaceForm): boolean =>
  JSON.stringify({ ...a, which: '', time: clockFrom(a.time) ?? a.time }) === JSON.stringify({ ...b, which: '' });

/** The form as the person has it; while nothing was changed in it, it follows what others do with the visit. */
function useFormOf(visit: Head): [PlaceForm, (next: (old: PlaceForm) => PlaceForm) => void] {
  const [held, setHeld] = useState(() => ({ visit, form: formOf(visit) }));
  if (held.visit.version !== visit.version) {
    const untouched = sameForm(held.form, formOf(held.visit));
    setHeld({ visit, form: untouched ? formOf(visit) : held.form });
  }
  return [held.form, (next) => setHeld((old) => ({ ...old, form: next(old.form) }))];
}

const FIELD_LABELS: Readonly<Record<string, string>> = {
  day: 'Day',
  time: 'Time',
  which: 'Time',
  minutes: 'Minutes',
  personId: 'Technician',
  withPersonIds: 'With',
};
const fieldOf = (pointer: string): { id: string; label: string } | undefined => {
  const name = placeField(pointer);
  const label = FIELD_LABELS[name];
  return label === undefined ? undefined : { id: `place-${name}`, label };
};

function Standing({ against, words, busy, onOverride }: StandingProps) {
  if (against?.is === 'lost')
    return (
      <section className={css['lost']} role="alert">
        <h3>
          <Shape mark="refused" size={13} /> Somebody was faster
        </h3>
        <p>{against.problem.detail}</p>
        <p className="quiet">Below stands what holds now. Nothing of yours was changed.</p>
      </section>
    );
  if (against?.is !== 'refused') return null;
  return (
    <Refusal
      title={`${words(against.form)}: no`}
      rules={refusingRules(against.problem)}
      busy={busy}
      onOverride={onOverride}
    />
  );
}
interface StandingProps {
  readonly against: Against | undefined;
  readonly words: (form: PlaceForm) => string;
  readonly busy: boolean;
  readonly onOverride: (reasons: Reasons) => void;
}

function offerOf({ visit, form, name, refused }: OfferParts): Offer | undefined {
  const time = clockFrom(form.time);
  if (form.day === '' || time === undefined) return undefined;
  const minutes = Number(form.minutes) || visit.minutes;
  return { visitId: visit.id, personId: form.personId, day: form.day, time, minutes, name, refused };
}
interface OfferParts {
  readonly visit: Head;
  readonly form: PlaceForm;
  readonly name: string;
  readonly refused: boolean;
}

/** Chooses day, time and people by keyboard; the server judges, and its refusal says whose rule it is. */
export function Placing({ visit, item, data, axis, late, placerRef, onOffer, onChanged }: PlacingProps) {
  const [form, setForm] = useFormOf(visit);
  const nameOf = (personId: string): string => data.people.find(({ id }) => id === personId)?.name ?? '';
  const words = (of: PlaceForm): string =>
    [of.day === '' ? '' : dayName(of.day), clockFrom(of.time) ?? '', nameOf(of.personId)].filter(Boolean).join(', ');
  const { busy, against, asks, place, override, unplace, forget } = usePlacing({ visit, onChanged, words });
  const placed = visit.state === 'placed';
  const errors: Record<string, string> = {};
  if (against?.is === 'mend')
    for (const { pointer, detail } of against.problem.errors) errors[placeField(pointer)] ??= detail;
  const name = nameOf(form.personId);
  const refused = against?.is === 'refused';
  useEffect(() => {
    onOffer(sameForm(form, formOf(visit)) ? undefined : offerOf({ visit, form, name, refused }));
  }, [form, name, onOffer, refused, visit]);
  function change(fields: Partial<PlaceForm>): void {
    if (against?.is === 'refused') forget();
    setForm((old) => ({ ...old, ...fields }));
  }
  useTakesDrops(placerRef, visit.id, (fields) => {
    const withPersonId = fields.personId === form.withPersonId ? '' : form.withPersonId;
    const dropped = { ...form, withPersonId, ...fields };
    setForm(() => dropped);
    if (!busy) void place(dropped);
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    if (!busy) void place(form);
  }
  return (
    <>
      {asks.map((ask) => (
        <p key={ask} className={css['kept']} role="status">
          <b>Placed; have a look:</b> {ask}
        </p>
      ))}
      <Standing {...{ against, words, busy }} onOverride={(reasons) => void override(reasons)} />
      <form className={css['place']} noValidate onSubmit={submit} aria-label="Place the visit">
        <h3>{placed ? 'Move it' : late ? 'Place it: the sooner the better' : 'Place it'}</h3>
        <Suggest {...{ visit, form }} people={data.people} onChoose={change} />
        <ProblemSummary problem={against?.is === 'mend' ? against.problem : undefined} fieldOf={fieldOf} />
        <PlaceFields {...{ form, errors, item, data, axis }} zone={visit.timeZone} onChange={change} />
        <Actions>
          <Button kind="main" type="submit" busy={busy}>
            {placed ? 'Move it' : 'Place it'}
          </Button>
          {placed && (
            <Button busy={busy} onClick={() => void unplace()}>
              Take it off the plan
            </Button>
          )}
        </Actions>
      </form>
    </>
  );
}
