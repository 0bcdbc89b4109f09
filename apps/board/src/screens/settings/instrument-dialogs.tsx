'use client';
import type { InstrumentListView } from '@ullage/contracts';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { EditDialog } from '../../office/edit-dialog.tsx';
import { textsOf } from '../../office/unit/known/texts-of.ts';
import { Pair } from '../../ui/form-dialog.tsx';
import { Select } from '../../ui/select.tsx';
import { TextArea, TextField } from '../../ui/text-field.tsx';
import {
  INSTRUMENT_WORDS,
  instrumentBody,
  instrumentForm,
  optionsOf,
  peopleOptions,
  houseField,
  type InstrumentItem,
} from './house-forms.ts';

interface DialogProps<Item> {
  readonly item: Item;
  readonly onClose: () => void;
}

/** A new instrument, or what is known better of one. */
export function InstrumentDialog({
  item,
  people,
  onClose,
}: DialogProps<InstrumentItem | undefined> & { people: InstrumentListView['people'] }) {
  const [form, setForm] = useState(() => instrumentForm(item));
  const [id] = useState(newKey);
  const texts = textsOf(form, setForm);
  return (
    <EditDialog
      title={item ? `${INSTRUMENT_WORDS[item.kind]} ${item.tag}` : 'Register an instrument'}
      command={item ? 'change-instrument' : 'register-instrument'}
      body={() => instrumentBody(item, form, id)}
      fieldOf={houseField}
      done="The instrument is saved."
      onClose={onClose}
    >
      {(errors) => (
        <>
          {!item && <Select label="Kind" options={optionsOf(INSTRUMENT_WORDS)} {...texts('kind', errors)} />}
          <TextField label="Tag" hint="As it stands on the instrument." maxLength={40} {...texts('tag', errors)} />
          {form.kind === 'detector' && (
            <TextField
              label="Smallest leak it senses"
              optional
              hint="In grams a year, from its maker: a clear look says no more than this."
              inputMode="decimal"
              {...texts('senses', errors)}
            />
          )}
          <Select label="Carried by" options={peopleOptions(people)} {...texts('carrier', errors)} />
          <TextField label="Made on" optional type="date" {...texts('madeOn', errors)} />
        </>
      )}
    </EditDialog>
  );
}

const RESULTS = [
  { value: 'pass', text: 'Pass' },
  { value: 'adjusted', text: 'Adjusted, then pass' },
  { value: 'fail', text: 'Fail' },
] as const;

export function CalibrationDialog({ item, today, onClose }: DialogProps<InstrumentItem> & { today: string }) {
  const [form, setForm] = useState({ calibratedOn: today, by: '', result: 'pass', nextOn: '', note: '' });
  const texts = textsOf(form, setForm);
  const body = () => ({
    instrumentId: item.id,
    calibratedOn: form.calibratedOn,
    by: form.by.trim(),
    result: form.result,
    ...(form.nextOn === '' ? {} : { nextOn: form.nextOn }),
    ...(form.note.trim() === '' ? {} : { note: form.note.trim() }),
  });
  return (
    <EditDialog
      title={`Calibration of ${item.tag}`}
      command="record-calibration"
      body={body}
      fieldOf={houseField}
      done="The calibration is kept."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <Pair>
            <TextField label="Calibrated on" type="date" max={today} {...texts('calibratedOn', errors)} />
            <TextField label="Next one" optional type="date" {...texts('nextOn', errors)} />
          </Pair>
          <TextField label="Calibrated by" maxLength={120} {...texts('by', errors)} />
          <Select label="Result" options={RESULTS} {...texts('result', errors)} />
          <TextArea
            label="Note"
            optional
            rows={2}
            hint="The certificate’s number, as an example."
            {...texts('note', errors)}
          />
        </>
      )}
    </EditDialog>
  );
}

export function RetireDialog({ item, onClose }: DialogProps<InstrumentItem>) {
  const [form, setForm] = useState({ why: '' });
  const texts = textsOf(form, setForm);
  return (
    <EditDialog
      title={`Retire ${item.tag}`}
      command="retire-instrument"
      body={() => ({ instrumentId: item.id, why: form.why.trim() })}
      fieldOf={houseField}
      done={`${item.tag} is retired.`}
      onClose={onClose}
    >
      {(errors) => (
        <>
          <p>It is offered to nobody any more. What was read with it keeps its name. This cannot be taken back.</p>
          <TextField label="Why" hint="As: pump is worn." {...texts('why', errors)} />
        </>
      )}
    </EditDialog>
  );
}
