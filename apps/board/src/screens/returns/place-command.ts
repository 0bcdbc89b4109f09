/** From what stands in the placing form to the command, and from a refusal back to the fields. */
import type { CommandBody, OverrideRule } from '@ullage/contracts';
import type { FieldProblem, Problem } from '../../lib/problem.ts';
import { RULE_NAMES } from '../../office/rule-names.ts';
import type { Reasons, RefusingRule } from '../../ui/refusal.tsx';

export interface PlaceForm {
  readonly day: string;
  readonly time: string;
  readonly personId: string;
  readonly withPersonId: string;
  readonly minutes: string;
  readonly which: '' | 'earlier' | 'later';
}

const CLOCK = /^(\d{1,2})(?::?(\d{2}))?\s*(am|pm|a|p)?\.?$/i;
/** `9`, `930`, `9:30`, `0930`, `9:30 pm` as `21:30`; undefined when it is no time. */
export function clockFrom(typed: string): string | undefined {
  const match = CLOCK.exec(typed.trim());
  if (!match) return undefined;
  const [, hours = '', minutes = '00', half] = match;
  let hour = Number(hours);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
  }
  if (hour > 23 || Number(minutes) > 59) return undefined;
  return `${String(hour).padStart(2, '0')}:${minutes}`;
}

const QUARTER = 15;
/** The next or last quarter of an hour, staying within the day; from nothing to `start`. */
export function stepQuarter(typed: string, steps: number, start: string): string {
  const clock = clockFrom(typed);
  if (clock === undefined) return start;
  const minutes = Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  const quarter = steps > 0 ? Math.floor(minutes / QUARTER) : Math.ceil(minutes / QUARTER);
  const next = Math.min(24 * 60 - QUARTER, Math.max(0, (quarter + steps) * QUARTER));
  return `${String(Math.floor(next / 60)).padStart(2, '0')}:${String(next % 60).padStart(2, '0')}`;
}

/** What a person can mend before anything is sent. */
export function gapsOf(form: PlaceForm): FieldProblem[] {
  const gaps: FieldProblem[] = [];
  const say = (field: string, detail: string): number => gaps.push({ pointer: `#/body/${field}`, detail });
  if (form.day === '') say('day', 'Day: choose one.');
  if (clockFrom(form.time) === undefined) say('time', 'Time: type one, as 10:30.');
  if (form.personId === '') say('personId', 'Technician: choose who goes.');
  const minutes = Number(form.minutes);
  if (!/^\d+$/.test(form.minutes.trim()) || minutes < 5 || minutes > 1440)
    say('minutes', 'Minutes: give 5 to 1,440 whole minutes.');
  if (form.withPersonId !== '' && form.withPersonId === form.personId)
    say('withPersonIds', 'With: choose somebody else than the technician.');
  return gaps;
}

export type Override = NonNullable<CommandBody<'place-visit'>['override']>;
export function placeBody(
  form: PlaceForm,
  visit: { readonly id: string; readonly version: number },
  override?: Override,
): CommandBody<'place-visit'> {
  return {
    visitId: visit.id,
    version: visit.version,
    personId: form.personId,
    ...(form.withPersonId === '' ? {} : { withPersonIds: [form.withPersonId] }),
    day: form.day,
    time: clockFrom(form.time) ?? form.time,
    ...(form.which === '' ? {} : { which: form.which }),
    minutes: Number(form.minutes),
    ...(override ? { override } : {}),
  };
}

/** The field a pointer belongs to: `#/body/withPersonIds/0` is `withPersonIds`. */
export const placeField = (pointer: string): string => pointer.replace(/^#?\/(body\/)?/, '').split('/')[0] ?? '';

/** What the reason for bending one is asked for with, beside others. */
const ASKS: Readonly<Record<OverrideRule, string>> = {
  'double-booked': 'Why two at once',
  'outside-working-day': 'Why at that hour',
};
const bendable = (code: string): OverrideRule | undefined => OVERRIDES.find((rule) => rule === code);
const OVERRIDES = Object.keys(ASKS) as OverrideRule[];

/** The rules of a refusal as the card says them, days in words. */
export const refusingRules = ({ rules }: Pick<Problem, 'rules'>): RefusingRule[] =>
  rules.map(({ code, whose, clause, text, instead, overridable }) => {
    const bends = bendable(code);
    return {
      code,
      whose,
      why: text,
      source: clause || (RULE_NAMES[code] ?? 'set by this contractor'),
      instead,
      ask: bends ? ASKS[bends] : '',
      bends: overridable && bends !== undefined,
    };
  });

/** The reasons that were given, for the rules that bend. */
export function overrideOf(reasons: Reasons): Override {
  return Object.fromEntries(Object.entries(reasons).filter(([code]) => bendable(code) !== undefined));
}

export type PlaceOutcome = 'lost' | 'refused' | 'mend';
/** What a refusal is about: somebody was faster, a rule stands against it, or a field needs mending. */
export function outcomeOf(problem: Problem): PlaceOutcome {
  if (problem.rules.length > 0) return 'refused';
  return problem.type.endsWith('/stale') || problem.type.endsWith('/taken') ? 'lost' : 'mend';
}
