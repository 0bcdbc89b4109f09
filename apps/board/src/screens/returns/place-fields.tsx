'use client';
import type { ReturnItem, ReturnsView } from '@ullage/contracts';
import { useState } from 'react';
import { addDays, dayName } from '../../lib/local-time.ts';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { clockFrom, stepQuarter, type PlaceForm } from './place-command.ts';
import type { Axis } from './rows.ts';
import css from './returns.module.css';

const DAYS_LISTED = 14;
const OTHER_DAY = 'other';

/** The days to choose from, the lawful edge said where it lies among them. */
export function dayChoices(
  item: Pick<ReturnItem, 'dueOn'> | undefined,
  today: string,
): { value: string; text: string }[] {
  return Array.from({ length: DAYS_LISTED }, (_, i) => {
    const day = addDays(today, i);
    const last = item?.dueOn.slice(0, 10);
    const note = last === undefined || day < last ? '' : day === last ? ', last legal day' : ', after the legal edge';
    const said = i === 0 ? `Today, ${dayName(day)}` : dayName(day);
    return { value: day, text: `${said}${note}` };
  });
}

function DayField({ form, errors, item, axis, onChange }: FieldsProps) {
  const choices = dayChoices(item, axis.today);
  const [other, setOther] = useState(form.day !== '' && !choices.some(({ value }) => value === form.day));
  return (
    <>
      <Select
        id={other ? 'place-day-list' : 'place-day'}
        label="Day"
        ask="Choose"
        options={[...choices, { value: OTHER_DAY, text: 'A later day' }]}
        value={other ? OTHER_DAY : form.day}
        error={other ? undefined : errors['day']}
        onChange={({ target }) => {
          setOther(target.value === OTHER_DAY);
          onChange({ day: target.value === OTHER_DAY ? '' : target.value, which: '' });
        }}
      />
      {other && (
        <TextField
          id="place-day"
          type="date"
          label="Date"
          min={axis.today}
          value={form.day}
          error={errors['day']}
          onChange={({ target }) => onChange({ day: target.value, which: '' })}
        />
      )}
    </>
  );
}

function TimeField({ form, errors, data, zone, axis, onChange }: FieldsProps) {
  return (
    <TextField
      id="place-time"
      label="Time"
      hint={zone === axis.zone ? 'Arrow keys: a quarter.' : `By the clock at the site, ${zone}.`}
      placeholder="10:30"
      autoComplete="off"
      value={form.time}
      error={errors['time']}
      onChange={({ target }) => onChange({ time: target.value, which: '' })}
      onBlur={() => {
        const clock = clockFrom(form.time);
        if (clock !== undefined && clock !== form.time) onChange({ time: clock });
      }}
      onKeyDown={(event) => {
        const steps = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
        if (steps === 0) return;
        event.preventDefault();
        onChange({ time: stepQuarter(form.time, steps, data.workingDay.from), which: '' });
      }}
    />
  );
}

function PeopleFields({ form, errors, data, onChange }: FieldsProps) {
  const people = data.people.map(({ id, name, certificates }) => ({ value: id, text: `${name}, ${certificates}` }));
  return (
    <>
      <Select
        id="place-personId"
        label="Technician"
        ask="Choose"
        options={people}
        value={form.personId}
        error={errors['personId']}
        onChange={({ target }) => onChange({ personId: target.value })}
      />
      <Select
        id="place-withPersonIds"
        label="With"
        optional
        hint="An apprentice works beside a certified technician."
        options={[{ value: '', text: 'Nobody else' }, ...people.filter(({ value }) => value !== form.personId)]}
        value={form.withPersonId}
        error={errors['withPersonIds']}
        onChange={({ target }) => onChange({ withPersonId: target.value })}
      />
    </>
  );
}

/** Day, time, length and people. Times are by the clock on the site's wall. */
export function PlaceFields(props: FieldsProps) {
  const { form, errors, onChange } = props;
  return (
    <>
      <div className={css['pair']}>
        <DayField {...props} />
        <TimeField {...props} />
        <TextField
          id="place-minutes"
          label="Minutes"
          inputMode="numeric"
          autoComplete="off"
          value={form.minutes}
          error={errors['minutes']}
          onChange={({ target }) => onChange({ minutes: target.value })}
        />
      </div>
      {(errors['which'] !== undefined || form.which !== '') && (
        <Select
          id="place-which"
          label="Which of the two"
          hint={errors['which'] === undefined ? 'Clocks are put back that day, so this time comes twice.' : undefined}
          ask="Choose"
          options={[
            { value: 'earlier', text: 'The earlier, before clocks go back' },
            { value: 'later', text: 'The later, after clocks went back' },
          ]}
          value={form.which}
          error={errors['which']}
          onChange={({ target }) => onChange({ which: target.value === 'later' ? 'later' : 'earlier' })}
        />
      )}
      <PeopleFields {...props} />
    </>
  );
}
interface FieldsProps {
  readonly form: PlaceForm;
  readonly errors: Readonly<Record<string, string>>;
  readonly item: ReturnItem | undefined;
  readonly data: ReturnsView;
  readonly axis: Axis;
  readonly zone: string;
  readonly onChange: (change: Partial<PlaceForm>) => void;
}
