'use client';
import type { UnitView } from '@ullage/contracts';
import { useState } from 'react';
import { NumberField } from '../../../ui/number-field.tsx';
import { TextArea, TextField } from '../../../ui/text-field.tsx';
import { EditDialog } from '../../edit-dialog.tsx';
import { siteBody, siteField, siteForm } from './edits.ts';
import { textsOf } from './texts-of.ts';
import { Pair } from '../../../ui/form-dialog.tsx';

const HEIGHTS = [
  { id: 'ft', text: 'ft' },
  { id: 'm', text: 'm' },
] as const;
const heightHint = (assumed: boolean): string =>
  assumed
    ? 'Not known: gauges are read as at sea level until it is.'
    : 'Above sea level. A change counts for readings to come.';

/** What is known of a site: gauges rest on its height, drives on its place. */
export function SiteDialog({ site, onClose }: { site: UnitView['site']; onClose: () => void }) {
  const [form, setForm] = useState(() => siteForm(site));
  const texts = textsOf(form, setForm);
  return (
    <EditDialog
      title={`Site ${site.name}`}
      command="describe-site"
      body={() => siteBody(site, form)}
      fieldOf={siteField}
      done="The site is saved."
      onClose={onClose}
    >
      {(errors) => (
        <>
          <TextField label="Site name" {...texts('name', errors)} />
          <NumberField
            id="known-elevation"
            label="Elevation"
            hint={heightHint(site.elevationAssumed)}
            units={HEIGHTS}
            value={{ text: form.elevation, unit: form.elevationUnit }}
            error={errors['known-elevation']}
            onChange={({ text, unit }) => setForm((old) => ({ ...old, elevation: text, elevationUnit: unit }))}
          />
          <Pair>
            <TextField label="Latitude" optional hint="As 39.7392." {...texts('latitude', errors)} />
            <TextField label="Longitude" optional hint="As -104.9903." {...texts('longitude', errors)} />
          </Pair>
          <TextField label="Contact" optional hint="Name and number." {...texts('contact', errors)} />
          <TextArea label="Access" optional rows={2} {...texts('access', errors)} />
        </>
      )}
    </EditDialog>
  );
}
