'use client';
import type { PlacesView } from '@ullage/contracts';
import { ComboBox, type Choice } from '../../ui/combo-box.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextArea, TextField } from '../../ui/text-field.tsx';
import type { CallDraft } from './call-form.ts';
import type { Change } from './use-draft.ts';
import css from './call.module.css';

export interface CallPartProps {
  readonly draft: CallDraft;
  readonly change: Change;
  readonly errors: Readonly<Record<string, string>>;
  readonly places: PlacesView;
  readonly gases: readonly string[];
}

/** The id of the choice that reads exactly so; what is chosen stays chosen while two read the same. */
export function chosenId(choices: readonly Choice[], text: string, now: string): string {
  const same = choices.filter((choice) => choice.text.toLowerCase() === text.trim().toLowerCase());
  return same.find(({ id }) => id === now)?.id ?? same[0]?.id ?? '';
}

function CustomerField({ draft, change, errors, places }: CallPartProps) {
  const choices = places.customers.map(({ id, name }) => ({ id, text: name }));
  return (
    <ComboBox
      id="customer"
      label="Customer"
      hint={draft.customerId !== '' ? 'Known.' : draft.customer.trim() === '' ? undefined : 'A new customer.'}
      choices={choices}
      text={draft.customer}
      error={errors['customer']}
      empty="A new customer."
      onText={(text) => {
        if (text === draft.customer) return;
        const customerId = chosenId(choices, text, draft.customerId);
        const other = customerId === draft.customerId ? {} : { siteId: '', unitId: '', circuitId: '' };
        change({ customer: text, customerId, ...other });
      }}
    />
  );
}

function SiteField({ draft, change, errors, places }: CallPartProps) {
  const own = places.sites.filter(({ customerId }) => customerId === draft.customerId);
  const choices = own.map(({ id, address, name }) => ({
    id,
    text: address,
    ...(name === address ? {} : { note: name }),
  }));
  return (
    <ComboBox
      key={draft.customerId}
      id="address"
      label="Site address"
      hint={draft.siteId !== '' ? 'Known.' : draft.address.trim() === '' ? undefined : 'A new site.'}
      choices={choices}
      text={draft.address}
      error={errors['address']}
      empty={draft.customerId === '' ? 'A new site.' : 'A new site of this customer.'}
      onText={(text) => {
        if (text === draft.address) return;
        const siteId = chosenId(choices, text, draft.siteId);
        const site = own.find(({ id }) => id === siteId);
        const other = siteId === draft.siteId ? {} : { unitId: '', circuitId: '' };
        change({ address: text, siteId, ...other, ...(site ? { timeZone: site.timeZone } : {}) });
      }}
    />
  );
}

const zoneOptions = (own: string): { value: string; text: string }[] =>
  [...new Set([own, ...Intl.supportedValuesOf('timeZone')])].map((zone) => ({
    value: zone,
    text: zone.replaceAll('_', ' '),
  }));

const HEIGHTS = [
  { id: 'ft', text: 'ft' },
  { id: 'm', text: 'm' },
] as const;

function NewSite({ draft, change, errors }: CallPartProps) {
  return (
    <>
      <Select
        id="timeZone"
        label="Time zone"
        hint="Legal days are counted in it."
        options={zoneOptions(draft.timeZone)}
        value={draft.timeZone}
        error={errors['timeZone']}
        onChange={({ target }) => change({ timeZone: target.value })}
      />
      <NumberField
        id="elevation"
        label="Elevation"
        optional
        hint={
          draft.elevation.trim() === ''
            ? 'Gauges are read against it; left empty, sea level is taken and said to be.'
            : 'Above sea level; gauges are read against it.'
        }
        units={HEIGHTS}
        value={{ text: draft.elevation, unit: draft.elevationUnit }}
        error={errors['elevation']}
        onChange={({ text, unit }) => change({ elevation: text, elevationUnit: unit })}
      />
      <TextField
        id="contact"
        label="Contact"
        optional
        hint="Name and number."
        autoComplete="off"
        value={draft.contact}
        error={errors['contact']}
        onChange={({ target }) => change({ contact: target.value })}
      />
      <TextArea
        id="access"
        label="Access"
        optional
        rows={1}
        value={draft.access}
        error={errors['access']}
        onChange={({ target }) => change({ access: target.value })}
      />
    </>
  );
}

/** Who rings and where: what is known is named once and asked no more. */
export function PlaceFields(props: CallPartProps) {
  const { draft } = props;
  return (
    <fieldset className={css['part']}>
      <legend>Who and where</legend>
      <div className={css['fields']}>
        <CustomerField {...props} />
        <SiteField {...props} />
        {draft.siteId === '' ? (
          <NewSite {...props} />
        ) : (
          <p className={css['known']}>
            <b>Known site:</b> {draft.timeZone.replaceAll('_', ' ')}; elevation, access and contact as recorded.
          </p>
        )}
      </div>
    </fieldset>
  );
}
