'use client';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { TextArea } from '../../ui/text-field.tsx';
import { EditDialog } from '../edit-dialog.tsx';
import { countField } from './actions/counter-fields.ts';

/** A report that was a slip: what followed from it is reversed, and both stay to be read. */
export function TakeBack({ factId, what }: { factId: string; what: string }) {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  return (
    <>
      <Button aria-label={`Take back: ${what}`} onClick={() => setOpen(true)}>
        Take back
      </Button>
      {open && (
        <EditDialog
          title={`Take back: ${what}`}
          command="take-back"
          body={() => ({ factId, why: why.trim() })}
          fieldOf={countField}
          done="It is taken back; the books are as if it had not been reported."
          saveText="Take it back"
          onClose={() => setOpen(false)}
        >
          {(errors) => (
            <>
              <p>It did not happen as reported. What followed from it in the books is reversed.</p>
              <TextArea
                id="count-why"
                label="Why"
                hint="Kept beside your name, for whoever asks."
                rows={2}
                value={why}
                error={errors['count-why']}
                onChange={({ target }) => setWhy(target.value)}
              />
            </>
          )}
        </EditDialog>
      )}
    </>
  );
}
