'use client';
import { IMPORT_MAX_BYTES, type ImportKind, type ImportView } from '@ullage/contracts';
import type { Route } from 'next';
import { useRouter } from 'next/navigation';
import { useRef, useState, type SubmitEvent } from 'react';
import { newKey, send } from '../../lib/client.ts';
import { errorsByField, parseProblem, type Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { FieldFrame } from '../../ui/field.tsx';
import frame from '../../ui/field.module.css';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { RadioCards } from '../../ui/radio-cards.tsx';
import css from './import.module.css';

const KINDS = [
  {
    value: 'equipment',
    text: 'Customers, units and circuits',
    note: 'A row for each circuit, with its customer, site, refrigerant and full charge.',
  },
  {
    value: 'additions',
    text: 'Past additions',
    note: 'A row for each addition at a circuit that is entered: day, mass, and who did it.',
  },
  {
    value: 'cylinders',
    text: 'Cylinders',
    note: 'A row for each cylinder by its stamps, with what the scale shows and what is in it.',
  },
  {
    value: 'people',
    text: 'People with certificates',
    note: 'A row for each certificate, or for a person without. Nobody is invited by it.',
  },
] as const satisfies readonly { value: ImportKind; text: string; note: string }[];

const FIELDS = {
  '#/kind': { id: 'import-kind', label: 'What the file holds' },
  '#/file': { id: 'import-file', label: 'File' },
} as const;
const fieldOf = (pointer: string) => (pointer === '#/kind' || pointer === '#/file' ? FIELDS[pointer] : undefined);

/** What is missing or too large before anything is sent. */
function gapsIn(kind: ImportKind | undefined, file: File | undefined): Problem | undefined {
  const errors = [
    ...(kind === undefined ? [{ pointer: '#/kind', detail: 'What the file holds: choose one.' }] : []),
    ...(file === undefined ? [{ pointer: '#/file', detail: 'File: choose an XLSX or CSV file.' }] : []),
    ...(file !== undefined && file.size > IMPORT_MAX_BYTES
      ? [{ pointer: '#/file', detail: 'File: larger than 8 MB; split it and import the parts.' }]
      : []),
  ];
  return errors.length === 0 ? undefined : { ...parseProblem(422, { title: 'A choice is missing' }), errors };
}

/** Sends a file. Its id is made once for each file chosen: pressed twice, it is one import. */
function useTake(kind: ImportKind | undefined, file: File | undefined) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const made = useRef<{ id: string; kind: ImportKind; file: File } | undefined>(undefined);
  async function take(): Promise<void> {
    const gaps = gapsIn(kind, file);
    setProblem(gaps);
    if (busy || gaps || kind === undefined || file === undefined) return;
    setBusy(true);
    if (made.current?.file !== file || made.current.kind !== kind) made.current = { id: newKey(), kind, file };
    const asked = new URLSearchParams({ kind, name: file.name.slice(0, 200) }).toString();
    const answer = await send<ImportView>(`/v1/imports/${made.current.id}?${asked}`, { method: 'PUT', bytes: file });
    if (answer.ok) return router.push(`/import/${answer.data.id}` as Route);
    setBusy(false);
    setProblem(answer.problem);
  }
  return { busy, problem, take };
}

export function ChooseFile() {
  const [kind, setKind] = useState<ImportKind>();
  const [file, setFile] = useState<File>();
  const { busy, problem, take } = useTake(kind, file);
  const errors = errorsByField(problem);
  return (
    <form
      className={css['choose']}
      noValidate
      onSubmit={(event: SubmitEvent) => {
        event.preventDefault();
        void take();
      }}
    >
      <ProblemSummary problem={problem} fieldOf={fieldOf} />
      <RadioCards
        id="import-kind"
        name="kind"
        label="What the file holds"
        choices={KINDS}
        value={kind}
        error={errors['kind']}
        onChange={setKind}
      />
      <FieldFrame
        id="import-file"
        label="File"
        hint="XLSX (its first sheet), or CSV in UTF-8. Headings in the first line; at most 20,000 rows and 8 MB."
        error={errors['file']}
      >
        <input
          id="import-file"
          className={`${frame['control']} ${css['file']}`}
          type="file"
          accept=".csv,.tsv,.xlsx,text/csv,text/tab-separated-values,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
          aria-describedby="import-file-hint"
          aria-invalid={errors['file'] ? true : undefined}
          onChange={({ target }) => setFile(target.files?.[0])}
        />
      </FieldFrame>
      <Actions>
        <Button kind="main" type="submit" busy={busy}>
          Read the file
        </Button>
        <p className={css['quiet']}>Nothing is entered yet.</p>
      </Actions>
    </form>
  );
}
