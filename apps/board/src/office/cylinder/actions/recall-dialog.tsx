'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { newKey } from '../../../lib/client.ts';
import { RadioCards } from '../../../ui/radio-cards.tsx';
import { TextArea, TextField } from '../../../ui/text-field.tsx';
import { recallIn } from '../../recall/use-recall.ts';
import { EditDialog } from '../../unit/known/edit-dialog.tsx';
import { momentWords } from '../../when.ts';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

const lastGood = (view: ActionProps['view']): string | undefined =>
  view.airChecks.find(({ verdict }) => verdict === 'within-shop-limit')?.at;

/** Where has this gas gone? From the moment on since when it is taken to be bad. */
export function RecallDialog({ view, zone, onClose }: ActionProps) {
  const router = useRouter();
  const [recallId] = useState(newKey);
  const [since, setSince] = useState<'good' | 'said'>('good');
  const [moment, setMoment] = useState('');
  const [why, setWhy] = useState('');
  const good = lastGood(view);
  // The moment is told in the zone of whoever types it, as their clock shows it.
  const said = moment === '' ? Number.NaN : Date.parse(moment);
  return (
    <EditDialog
      title={`Recall the gas of ${nameOf(view)}`}
      command="recall-gas"
      body={() => ({
        recallId,
        cylinderId: view.cylinder.id,
        ...(since === 'said' ? { since: Number.isNaN(said) ? moment : new Date(said).toISOString() } : {}),
        why: why.trim(),
      })}
      fieldOf={countField}
      done="The recall is open."
      saveText="See what it touched"
      onSaved={(_factId, answer) => {
        const path = recallIn(answer);
        if (path) router.push(path);
        else onClose();
      }}
      onClose={onClose}
    >
      {(errors) => (
        <>
          <RadioCards
            id="count-since"
            label="Bad since"
            name="since"
            value={since}
            error={since === 'good' ? errors['count-since'] : undefined}
            onChange={setSince}
            choices={[
              {
                value: 'good',
                text: 'Its last good air check',
                note: good === undefined ? 'there is none: from the beginning' : momentWords(good, zone),
              },
              { value: 'said', text: 'A moment that is known', note: 'what left before it is not touched' },
            ]}
          />
          {since === 'said' && (
            <TextField
              id="count-moment"
              label="Day and time"
              hint="By the clock of this device."
              type="datetime-local"
              value={moment}
              error={errors['count-since']}
              onChange={({ target }) => setMoment(target.value)}
            />
          )}
          <TextArea
            id="count-why"
            label="Why"
            hint="What is wrong with it: smells of acid, as an example."
            rows={2}
            maxLength={400}
            value={why}
            error={errors['count-why']}
            onChange={({ target }) => setWhy(target.value)}
          />
        </>
      )}
    </EditDialog>
  );
}
