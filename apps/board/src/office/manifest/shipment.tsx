'use client';
import type { CommandAnswer, CylinderListView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { call, newKey, send } from '../../lib/client.ts';
import type { Problem } from '../../lib/problem.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { Caution } from '../../ui/caution.tsx';
import { MassField } from '../../ui/mass-field.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { RadioCards } from '../../ui/radio-cards.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { countOf } from '../count-words.ts';
import { manifestPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';
import css from '../office.module.css';
import { messages } from '../unit/known/edits.ts';
import {
  emptyShipment,
  isFitFor,
  offered,
  shipmentBody,
  shipmentField,
  withRow,
  type Sendable,
  type ShipmentDraft,
} from './shipment-form.ts';
import rows from './manifest.module.css';

export interface ShipmentProps {
  readonly receivers: readonly { readonly id: string; readonly name: string }[];
  readonly cylinders: readonly Sendable[];
  readonly unit: MassUnit;
}
interface Part {
  readonly draft: ShipmentDraft;
  readonly errors: Readonly<Record<string, string>>;
  /** What changes; of the draft as it stands then, where the answer to a scan comes later than what was typed after it. */
  readonly change: (part: Partial<ShipmentDraft> | ((old: ShipmentDraft) => Partial<ShipmentDraft>)) => void;
}

function sendWords(count: number, busy: boolean): string {
  if (busy) return 'Sending';
  return count === 0 ? 'Send' : `Send ${countOf(count, 'cylinder')}`;
}

const nameOf = ({ label, serial }: Sendable): string => label ?? serial;

/** One shipment is one command: the same press twice sends it once. */
function useShipment(receivers: ShipmentProps['receivers']) {
  const [draft, setDraft] = useState(() => emptyShipment(receivers));
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const sent = useRef<{ key: string; content: string } | undefined>(undefined);
  const router = useRouter();
  async function save(): Promise<void> {
    const body = shipmentBody(draft);
    const content = JSON.stringify(body);
    // Other content is another command: the same key with it would be refused.
    const key = sent.current?.content === content ? sent.current.key : newKey();
    sent.current = { key, content };
    setBusy(true);
    const answer = await send<CommandAnswer>('/v1/commands/record-shipment', { body: { body }, key });
    setBusy(false);
    setProblem(answer.ok ? undefined : answer.problem);
    if (!answer.ok) return;
    tell(`Sent: ${countOf(draft.rows.length, 'cylinder')}.`, 'done');
    for (const { text } of answer.data.asks) tell(text);
    router.push(manifestPath(key));
  }
  return { draft, setDraft, busy, problem, save };
}

function WhoFields({ draft, errors, change, receivers }: Part & Pick<ShipmentProps, 'receivers'>) {
  const text = (name: 'certificate' | 'carrier' | 'reference' | 'note') => ({
    id: `ship-${name}`,
    autoComplete: 'off',
    value: draft[name],
    error: errors[`ship-${name}`],
    onChange: ({ target }: { target: { value: string } }) => change({ [name]: target.value }),
  });
  return (
    <fieldset className={css['stamps']}>
      <legend>Where it goes</legend>
      <Select
        id="ship-receiver"
        label="Receiver"
        ask="Choose"
        hint={receivers.length === 0 ? 'Register the reclaimer as a location under Settings first.' : undefined}
        options={receivers.map(({ id, name }) => ({ value: id, text: name }))}
        value={draft.receiverId}
        error={errors['ship-receiver']}
        onChange={({ target }) => change({ receiverId: target.value })}
      />
      <RadioCards
        id="ship-purpose"
        label="Purpose"
        name="purpose"
        value={draft.purpose}
        error={errors['ship-purpose']}
        onChange={(purpose) => change({ purpose, rows: [] })}
        choices={[
          { value: 'reclaim', text: 'Reclaim', note: 'known gas; ask what air and mixture are accepted' },
          { value: 'destroy', text: 'Destruction', note: 'mixed, acid or of unknown kind' },
        ]}
      />
      <TextField label="Certificate number" optional hint="Of the reclaimer, 40 CFR 82.164." {...text('certificate')} />
      <TextField label="Carrier" hint="Who drives it: your own van, or a carrier." {...text('carrier')} />
      <TextField
        label="Reference"
        optional
        hint="Number of the receiver’s or carrier’s own paper."
        {...text('reference')}
      />
      <TextField label="Note" optional {...text('note')} />
    </fieldset>
  );
}

/** A scanner types a serial and presses Enter; or one is chosen of those that are fit. */
function Picker({ draft, errors, change, cylinders, unit }: Part & Pick<ShipmentProps, 'cylinders' | 'unit'>) {
  const [text, setText] = useState('');
  const [said, setSaid] = useState('');
  const take = (cylinder: Sendable): void => change((old) => ({ rows: withRow(old.rows, cylinder, unit) }));
  async function scan(): Promise<void> {
    const query = text.trim();
    if (query === '') return;
    // The next scan begins on an empty field, whatever becomes of this one.
    setText('');
    const answer = await call<CylinderListView>(`/v1/cylinders?query=${encodeURIComponent(query)}`);
    const same = (one: string | null): boolean => one?.toLowerCase() === query.toLowerCase();
    const found = answer.ok ? answer.data.items.find((one) => same(one.serial) || same(one.label)) : undefined;
    if (!found) return setSaid(`${query}: no cylinder has that serial or label.`);
    if (!isFitFor(found, draft.purpose)) return setSaid(`${query}: is not fit for that; its page says why.`);
    setSaid('');
    take(found);
  }
  const open = offered(cylinders, draft);
  return (
    <fieldset className={rows['part']}>
      <legend>Cylinders</legend>
      <div className={rows['scan']}>
        <TextField
          id="ship-serial"
          label="Serial"
          hint="Scan or type a serial or label and press Enter."
          autoComplete="off"
          value={text}
          error={said === '' ? errors['ship-serial'] : said}
          onChange={({ target }) => setText(target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || text.trim() === '') return;
            event.preventDefault();
            void scan();
          }}
        />
        <Button onClick={() => void scan()}>Add</Button>
      </div>
      {open.length > 0 && (
        <ul className={rows['offered']} aria-label="Fit to go">
          {open.map((one) => (
            <li key={one.id}>
              <span>
                <span className="id">{nameOf(one)}</span> {one.refrigerant}, {gramsWords(one.netGrams)}
                <small>{[one.place?.name, one.doubtText].filter(Boolean).join(', ')}</small>
              </span>
              <Button aria-label={`Add ${nameOf(one)}`} onClick={() => take(one)}>
                Add
              </Button>
            </li>
          ))}
        </ul>
      )}
      {open.length === 0 && draft.rows.length === 0 && (
        <p className="quiet">No further cylinder of the first hundred is fit for that by the books.</p>
      )}
    </fieldset>
  );
}

function Rows({ draft, errors, change }: Part) {
  return (
    <fieldset className={rows['part']}>
      <legend>On the manifest</legend>
      <p role="status">{draft.rows.length === 0 ? 'None yet.' : `${countOf(draft.rows.length, 'cylinder')}.`}</p>
      <ol className={rows['sent']} aria-label="On the manifest">
        {draft.rows.map(({ cylinder, gross }, index) => (
          <li key={cylinder.id}>
            <MassField
              id={`ship-gross-${index}`}
              label={`Gross weight of ${nameOf(cylinder)}`}
              hint={`By the books ${gramsWords(cylinder.netGrams)} net of ${cylinder.refrigerant}.`}
              value={gross}
              error={errors[`ship-gross-${index}`]}
              onChange={(value) => change({ rows: draft.rows.with(index, { cylinder, gross: value }) })}
            />
            <Button
              aria-label={`Take off ${nameOf(cylinder)}`}
              onClick={() => change({ rows: draft.rows.filter((_, at) => at !== index) })}
            >
              Take off
            </Button>
          </li>
        ))}
      </ol>
    </fieldset>
  );
}

/** Cylinders leave for a reclaimer, each weighed. */
export function Shipment({ receivers, cylinders, unit }: ShipmentProps) {
  const { draft, setDraft, busy, problem, save } = useShipment(receivers);
  const part: Part = {
    draft,
    errors: messages(problem?.errors ?? [], shipmentField),
    change: (more) => setDraft((old) => ({ ...old, ...(typeof more === 'function' ? more(old) : more) })),
  };
  return (
    <form
      className={css['form']}
      noValidate
      aria-label="Send cylinders"
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy) void save();
      }}
    >
      <ProblemSummary problem={problem} fieldOf={shipmentField} />
      <WhoFields {...part} receivers={receivers} />
      <Picker {...part} cylinders={cylinders} unit={unit} />
      <Rows {...part} />
      <Caution title="On the road">
        valve caps on, upright and secured, ventilated, never over their legal fill. Marks, labels, papers and who may
        drive follow 49 CFR and the carrier; this page does not replace the shipping paper. Licensed practice rules.
      </Caution>
      <Actions>
        <Button kind="main" type="submit" busy={busy}>
          {sendWords(draft.rows.length, busy)}
        </Button>
      </Actions>
    </form>
  );
}
