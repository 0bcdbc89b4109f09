'use client';
import { PRICE_UNITS, type PriceUnit, type PriceView } from '@ullage/contracts';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { dayWords } from '../../office/when.ts';
import { Button } from '../../ui/button.tsx';
import { FormDialog, Pair } from '../../ui/form-dialog.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { errorsOf, fieldIn, useDecide } from './use-decide.ts';

const LABELS = {
  refrigerant: 'Refrigerant',
  fromOn: 'Valid from',
  unit: 'By',
  purchase: 'We pay',
  sale: 'The customer pays',
} as const;
const fieldOf = fieldIn('price', LABELS);

interface Form {
  readonly refrigerant: string;
  readonly fromOn: string;
  readonly unit: PriceUnit;
  readonly purchase: string;
  readonly sale: string;
}
export interface SetPriceProps {
  readonly label: string;
  readonly kind?: 'main' | 'plain';
  /** Refrigerants to choose from; the first is chosen. */
  readonly refrigerants: readonly string[];
  readonly today: string;
  readonly unit: PriceUnit;
  readonly currency: string;
}

/** What was typed as the API takes it: a comma between thousands goes, a currency sign is not guessed at. */
const amountOf = (typed: string): string | undefined => {
  const text = typed.trim().replaceAll(/,(?=\d{3})/g, '');
  return text === '' ? undefined : text;
};
function bodyOf({ refrigerant, fromOn, unit, purchase, sale }: Form) {
  const [paid, asked] = [amountOf(purchase), amountOf(sale)];
  return {
    ...{ priceId: newKey(), refrigerant, fromOn, unit },
    ...(paid === undefined ? {} : { purchase: paid }),
    ...(asked === undefined ? {} : { sale: asked }),
  };
}

function Fields({ form, refrigerants, currency, errors, change }: FieldsProps) {
  return (
    <>
      <Pair>
        <Select
          id="price-refrigerant"
          label={LABELS.refrigerant}
          options={refrigerants.map((value) => ({ value, text: value }))}
          value={form.refrigerant}
          error={errors['refrigerant']}
          onChange={({ target }) => change({ refrigerant: target.value })}
        />
        <TextField
          id="price-fromOn"
          type="date"
          label={LABELS.fromOn}
          value={form.fromOn}
          error={errors['fromOn']}
          onChange={({ target }) => change({ fromOn: target.value })}
        />
      </Pair>
      <Select
        id="price-unit"
        label={LABELS.unit}
        options={PRICE_UNITS.map((value) => ({ value, text: `${currency} a ${value}` }))}
        value={form.unit}
        onChange={({ target }) => change({ unit: target.value === 'kg' ? 'kg' : 'lb' })}
      />
      <Pair>
        <TextField
          id="price-purchase"
          label={LABELS.purchase}
          optional
          inputMode="decimal"
          autoComplete="off"
          hint="Costs are reckoned by it."
          value={form.purchase}
          error={errors['purchase']}
          onChange={({ target }) => change({ purchase: target.value })}
        />
        <TextField
          id="price-sale"
          label={LABELS.sale}
          optional
          inputMode="decimal"
          autoComplete="off"
          hint="Gas to bill is reckoned by it."
          value={form.sale}
          error={errors['sale']}
          onChange={({ target }) => change({ sale: target.value })}
        />
      </Pair>
    </>
  );
}
interface FieldsProps {
  readonly form: Form;
  readonly refrigerants: readonly string[];
  readonly currency: string;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<Form>) => void;
}

function PriceDialog({ refrigerants, today, unit, currency, onClose }: SetPriceProps & { onClose: () => void }) {
  const [form, setForm] = useState<Form>({
    ...{ refrigerant: refrigerants[0] ?? '', fromOn: today, unit, purchase: '', sale: '' },
  });
  const { busy, problem, decide, refuse } = useDecide();
  async function save(): Promise<void> {
    if (form.purchase.trim() === '' && form.sale.trim() === '')
      return refuse([
        { pointer: '#/body/purchase', detail: 'Price: give what we pay, what the customer pays, or both.' },
      ]);
    const done = `${form.refrigerant} has a price from ${dayWords(form.fromOn)}.`;
    if (await decide('set-price', bodyOf(form), done)) onClose();
  }
  return (
    <FormDialog
      title="Set a price"
      act="Set the price"
      onSubmit={() => void save()}
      {...{ busy, problem, fieldOf, onClose }}
    >
      <Fields
        {...{ form, refrigerants, currency }}
        errors={errorsOf(problem)}
        change={(part) => setForm((old) => ({ ...old, ...part }))}
      />
      <p className="quiet">
        What was added before that day keeps the price it had; what is added from then on has this one.
      </p>
    </FormDialog>
  );
}

export function SetPrice(props: SetPriceProps) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button kind={props.kind ?? 'plain'} onClick={() => setOpen(true)}>
        {props.label}
      </Button>
      {open && <PriceDialog {...props} onClose={() => setOpen(false)} />}
    </>
  );
}

/** A price that was wrong: it stays in the history, struck. */
export function WithdrawPrice({ price }: { price: Pick<PriceView, 'id' | 'refrigerant' | 'fromOn'> }) {
  const { busy, decide } = useDecide();
  const what = `${price.refrigerant} from ${dayWords(price.fromOn)}`;
  async function withdraw(): Promise<void> {
    const done = await decide('withdraw-price', { priceId: price.id }, `The price of ${what} is withdrawn.`);
    if (!done) tell('It could not be withdrawn; load the page again.', 'refused');
  }
  return (
    <Button busy={busy} aria-label={`Withdraw the price of ${what}`} onClick={() => void withdraw()}>
      Withdraw
    </Button>
  );
}
