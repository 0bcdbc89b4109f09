'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { newKey } from '../../../lib/client.ts';
import { RadioCards } from '../../../ui/radio-cards.tsx';
import { TextArea, TextField } from '../../../ui/text-field.tsx';
import { recallIn } from '../../recall/use-recall.ts';
import { EditDialog } from '../../edit-dialog.tsx';
import { momentWords } from '../../when.ts';
import { nameOf, type ActionProps } from './action-props.ts';
import { countField } from './counter-fields.ts';

interface Since {
  readonly of: 'good' | 'said';
  /** As the field gives it: a wall clock without a zone. */
  readonly moment: string;
}
/** The moment in the zone of whoever typed it; as it was typed where it is none, so that the contract says what would be right. */
function sinceBody({ of, moment }: Since): { since?: string } {
  if (of === 'good') return {};
  const at = Date.parse(moment);
  return { since: Number.isNaN(at) ? moment : new Date(at).toISOString() };
}

interface SinceFieldsProps {
  readonly since: Since;
  readonly good: string;
  readonly error: string | undefined;
  readonly onChange: (since: Since) => void;
}
function SinceFields({ since, good, error, onChange }: SinceFieldsProps) {
  return (
    <>
      <RadioCards
        id="count-since"
        label="Bad since"
        name="since"
        value={since.of}
        error={since.of === 'good' ? error : undefined}
        onChange={(of) => onChange({ ...since, of })}
        choices={[
          { value: 'good', text: 'Its last good air check', note: good },
          { value: 'said', text: 'A moment that is known', note: 'what left before it is not touched' },
        ]}
      />
      {since.of === 'said' && (
        <TextField
          id="count-moment"
          label="Day and time"
          hint="By the clock of this device."
          type="datetime-local"
          value={since.moment}
          error={error}
          onChange={({ target }) => onChange({ ...since, moment: target.value })}
        />
      )}
    </>
  );
}

const lastGood = ({ airChecks }: ActionProps['view'], zone: string): string => {
  const good = airChecks.find(({ verdict }) => verdict === 'within-shop-limit');
  return good ? momentWords(good.at, zone) : 'there is none: from the beginning';
};

/** Where has this gas gone? From the moment on since when it is taken to be bad. */
export function RecallDialog({ view, zone, onClose }: ActionProps) {
  const router = useRouter();
  const [recallId] = useState(newKey);
  const [since, setSince] = useState<Since>({ of: 'good', moment: '' });
  const [why, setWhy] = useState('');
  return (
    <EditDialog
      title={`Recall the gas of ${nameOf(view)}`}
      command="recall-gas"
      body={() => ({ recallId, cylinderId: view.cylinder.id, ...sinceBody(since), why: why.trim() })}
      fieldOf={countField}
      done="The recall is open."
      saveText="See what it touched"
      onSaved={(_factId, answer) => {
        const path = recallIn(answer);
        if (path) router.push(path);
      }}
      onClose={onClose}
    >
      {(errors) => (
        <>
          <SinceFields since={since} good={lastGood(view, zone)} error={errors['count-since']} onChange={setSince} />
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
