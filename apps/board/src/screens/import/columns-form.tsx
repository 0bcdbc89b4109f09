'use client';
import type { ImportSettings, ImportView } from '@ullage/contracts';
import { useState, type SubmitEvent } from 'react';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { SelectBox } from '../../ui/select.tsx';
import { useAct } from '../../lib/use-act.ts';
import { SettingsFields } from './settings-fields.tsx';
import css from './import.module.css';

const LEFT_OUT = '';
const settingId = (pointer: string): { id: string; label: string } | undefined => {
  const name = /^#\/settings\/(\w+)$/.exec(pointer)?.[1];
  return name === undefined ? undefined : { id: `import-${name}`, label: '' };
};

/** Says what each column holds; proposed by likeness, or as it was said the last time. */
export function ColumnsForm({ run, onMatched }: { run: ImportView; onMatched: () => void }) {
  const [matched, setMatched] = useState<readonly (string | null)[]>(() => run.columns.map(({ field }) => field));
  const [settings, setSettings] = useState<ImportSettings>(run.settings);
  const { busy, problem, act } = useAct();
  async function check(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    if (busy) return;
    if ((await act(`/v1/imports/${run.id}/match`, { body: { matched, settings } })) !== undefined) onMatched();
  }
  return (
    <form className={css['step']} noValidate onSubmit={(event) => void check(event)}>
      <ProblemSummary problem={problem} fieldOf={settingId} />
      <h2>What each column holds</h2>
      <p>
        {run.remembered
          ? 'As you said for the last file with these headings. Change what is different.'
          : 'Proposed by the headings. Change what is not right; what is left out is not read.'}
      </p>
      <table className={css['columns']}>
        <caption className="spoken">Columns of the file</caption>
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">First rows</th>
            <th scope="col">Holds</th>
          </tr>
        </thead>
        <tbody>
          {run.columns.map((column, at) => (
            // A file may have two columns of one heading: the place is what tells them apart.
            <ColumnRow
              key={`${at}|${column.heading}`}
              {...{ run, column, at }}
              field={matched[at] ?? null}
              onChange={(field) => setMatched(matched.map((old, place) => (place === at ? field : old)))}
            />
          ))}
        </tbody>
      </table>
      <SettingsFields
        run={run}
        matched={matched}
        settings={settings}
        onChange={(changed) => setSettings({ ...settings, ...changed })}
      />
      <Actions>
        <Button kind="main" type="submit" busy={busy}>
          Check the rows
        </Button>
        <p className={css['quiet']}>Nothing is entered yet.</p>
      </Actions>
    </form>
  );
}

interface ColumnRowProps {
  readonly run: ImportView;
  readonly column: ImportView['columns'][number];
  readonly at: number;
  readonly field: string | null;
  readonly onChange: (field: string | null) => void;
}
function ColumnRow({ run, column, at, field, onChange }: ColumnRowProps) {
  const heading = column.heading === '' ? `Column ${at + 1}` : column.heading;
  const hint = run.fields.find(({ id }) => id === field)?.hint;
  return (
    <tr>
      <th scope="row">{heading}</th>
      <td className={css['examples']}>{column.examples.join(' · ')}</td>
      <td>
        <SelectBox
          aria-label={`${heading} holds`}
          options={[
            { value: LEFT_OUT, text: 'Left out' },
            ...run.fields.map(({ id, label, required }) => ({
              value: id,
              text: required ? `${label} (needed)` : label,
            })),
          ]}
          value={field ?? LEFT_OUT}
          onChange={({ target }) => onChange(target.value === LEFT_OUT ? null : target.value)}
        />
        {hint !== undefined && <small>{hint}</small>}
      </td>
    </tr>
  );
}
