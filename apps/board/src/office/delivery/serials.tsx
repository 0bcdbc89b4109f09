'use client';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { Button } from '../../ui/button.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { countOf } from '../count-words.ts';
import css from './serials.module.css';
import { withSerials } from './delivery-form.ts';
import type { DeliveryFieldsProps } from './delivery-fields.tsx';

/** A scanner types a serial and presses Enter; the next one follows into the same field. */
export function Serials({ draft, change, errors }: DeliveryFieldsProps) {
  const [text, setText] = useState('');
  const [twice, setTwice] = useState<readonly string[]>([]);
  function take(): void {
    const taken = withSerials(draft.rows, { text, newId: newKey });
    setTwice(taken.twice);
    setText('');
    if (taken.rows.length > draft.rows.length) change({ rows: taken.rows });
  }
  const again = twice.length === 0 ? undefined : `${twice.join(', ')}: stands in the list already.`;
  return (
    <fieldset className={css['part']}>
      <legend>Serials</legend>
      <div className={css['scan']}>
        <TextField
          id="delivery-serial"
          label="Serial"
          hint="Scan or type one and press Enter; a column can be pasted."
          autoComplete="off"
          value={text}
          error={again ?? errors['delivery-serial']}
          onChange={({ target }) => setText(target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || text.trim() === '') return;
            event.preventDefault();
            take();
          }}
        />
        <Button onClick={take}>Add</Button>
      </div>
      <p role="status">{draft.rows.length === 0 ? 'None yet.' : `${countOf(draft.rows.length, 'cylinder')}.`}</p>
      {draft.rows.length > 0 && (
        <ol className={css['rows']} aria-label="Serials taken">
          {draft.rows.map(({ cylinderId, serial }) => (
            <li key={cylinderId}>
              <span className="id">{serial}</span>
              <button
                type="button"
                aria-label={`Take out ${serial}`}
                onClick={() => change({ rows: draft.rows.filter((row) => row.cylinderId !== cylinderId) })}
              >
                Take out
              </button>
            </li>
          ))}
        </ol>
      )}
    </fieldset>
  );
}
