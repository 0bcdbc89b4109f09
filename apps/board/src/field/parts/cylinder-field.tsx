'use client';
import type { CylinderListView } from '@ullage/contracts';
import { useState } from 'react';
import { hasDraft } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import type { Bound } from './bind.ts';
import { type CylinderUse, CylinderCard, type KnownCylinder } from './cylinder-card.tsx';
import { Line } from './fields.tsx';
import { NewCylinder } from './new-cylinder.tsx';
import css from './step.module.css';

/** What was typed or scanned, and the cylinder it turned out to be; no id while nobody knows. */
export interface ChosenCylinder {
  readonly text: string;
  readonly id: string;
}
export const NO_CYLINDER: ChosenCylinder = { text: '', id: '' };

type Head = CylinderListView['items'][number];
type Found =
  | { readonly is: 'idle' | 'looking' }
  | { readonly is: 'several'; readonly items: readonly Head[] }
  | { readonly is: 'none' }
  | { readonly is: 'failed'; readonly why: string };

const norm = (text: string): string => text.trim().toUpperCase().replace(/\s+/g, '');
/** Stamps are often read with other spaces and case than they were registered. */
const isNamed = (head: Head, text: string): boolean =>
  [head.serial, head.label ?? ''].some((name) => norm(name) === norm(text));

function verdictOn(items: readonly Head[], text: string): Found | { readonly is: 'one'; readonly head: Head } {
  const exact = items.filter((head) => isNamed(head, text));
  const [only] = exact;
  if (only && exact.length === 1) return { is: 'one', head: only };
  if (items.length > 0) return { is: 'several', items: exact.length > 1 ? exact : items.slice(0, 6) };
  return { is: 'none' };
}

export interface CylinderFieldProps extends Bound<ChosenCylinder> {
  readonly label: string;
  readonly use: CylinderUse;
  readonly onKnown: (known: KnownCylinder | undefined) => void;
}

/** Looks a typed or scanned serial up. */
function useFinder({ value, onChange }: Pick<Bound<ChosenCylinder>, 'value' | 'onChange'>) {
  const { port } = useVisit();
  const [found, setFound] = useState<Found>({ is: 'idle' });
  const choose = (head: Pick<Head, 'id' | 'serial'>): void => {
    setFound({ is: 'idle' });
    onChange({ text: head.serial, id: head.id });
  };
  const find = async (): Promise<void> => {
    if (value.text.trim() === '' || found.is === 'looking') return;
    setFound({ is: 'looking' });
    const answer = await port.cylinders(value.text.trim());
    if (!answer.ok) return setFound({ is: 'failed', why: answer.problem.title });
    const verdict = verdictOn(answer.data.items, value.text);
    if (verdict.is === 'one') choose(verdict.head);
    else setFound(verdict);
  };
  const type = (text: string): void => {
    setFound({ is: 'idle' });
    onChange({ text, id: '' });
  };
  return { found, choose, find, type };
}

function foundText(found: Found, text: string): string {
  switch (found.is) {
    case 'idle':
      return '';
    case 'looking':
      return 'Looking it up';
    case 'several':
      return 'More than one fits. Which is it?';
    case 'none':
      return `No cylinder with the serial ${text} is known.`;
    case 'failed':
      return `${found.why}: the cylinder cannot be looked up now. You can register it here.`;
  }
}

/** A cylinder by its stamped serial: typed, or by a scanner that types and ends with Enter. */
export function CylinderField({ id, error, value, onChange, label, use, onKnown }: CylinderFieldProps) {
  const { found, choose, find, type } = useFinder({ value, onChange });
  const screen = useVisit();
  const [registering, setRegistering] = useState(() => hasDraft(screen, `new-cylinder-${use}`));
  const onDone = (made: Pick<Head, 'id' | 'serial'> | undefined): void => {
    setRegistering(false);
    if (made) choose(made);
  };
  if (registering) return <NewCylinder serial={value.text} use={use} onDone={onDone} />;
  return (
    <div className={css['stack']}>
      <div className={css['pair']}>
        <Line
          {...{ id, error, label }}
          hint="Serial as stamped, typed or scanned."
          figure
          maxLength={60}
          value={value.text}
          onChange={type}
          onEnter={() => void find()}
        />
        <button type="button" className={css['small']} onClick={() => void find()}>
          Find
        </button>
      </div>
      <p role="status" className={css['source']}>
        {foundText(found, value.text.trim())}
      </p>
      {found.is === 'several' && <Several items={found.items} onChoose={choose} />}
      {(found.is === 'none' || found.is === 'several' || found.is === 'failed') && (
        <button type="button" className={css['small']} onClick={() => setRegistering(true)}>
          Register {value.text.trim()} here
        </button>
      )}
      {value.id !== '' && <CylinderCard key={value.id} id={value.id} use={use} onKnown={onKnown} />}
    </div>
  );
}

function Several({ items, onChoose }: { items: readonly Head[]; onChoose: (head: Head) => void }) {
  return (
    <ul className={css['several']}>
      {items.map((head) => (
        <li key={head.id}>
          <button type="button" onClick={() => onChoose(head)}>
            <span className="id">{head.serial}</span>
            <small>
              {head.kind}, {head.specification}
              {head.refrigerant !== null && `, ${head.refrigerant}`}
            </small>
          </button>
        </li>
      ))}
    </ul>
  );
}
