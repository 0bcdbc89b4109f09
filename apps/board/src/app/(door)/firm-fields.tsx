'use client';
import { useState, useSyncExternalStore } from 'react';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';

/** The zones of the United States by the names people use (IANA time zone database). */
const USUAL = [
  { value: 'America/New_York', text: 'Eastern, New York' },
  { value: 'America/Chicago', text: 'Central, Chicago' },
  { value: 'America/Denver', text: 'Mountain, Denver' },
  { value: 'America/Phoenix', text: 'Arizona, Phoenix' },
  { value: 'America/Los_Angeles', text: 'Pacific, Los Angeles' },
  { value: 'America/Anchorage', text: 'Alaska, Anchorage' },
  { value: 'Pacific/Honolulu', text: 'Hawaii, Honolulu' },
  { value: 'America/Puerto_Rico', text: 'Atlantic, Puerto Rico' },
] as const;

const never = (): (() => void) => () => undefined;
const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

function zones(own: string): { value: string; text: string }[] {
  // The server does not know this device's list: it shows the usual ones, the browser adds the rest.
  if (own === '') return [...USUAL];
  const usual = new Set<string>(USUAL.map((zone) => zone.value));
  const rest = [...new Set([own, ...Intl.supportedValuesOf('timeZone')])].filter((zone) => !usual.has(zone)).sort();
  return [...USUAL, ...rest.map((zone) => ({ value: zone, text: zone.replaceAll('_', ' ') }))];
}

/** The contractor's name and the zone its days are counted in; the zone of this device is proposed. */
export function FirmFields({ errors }: { errors: Readonly<Record<string, string>> }) {
  const own = useSyncExternalStore(never, ownZone, () => '');
  const [chosen, setChosen] = useState<string>();
  return (
    <>
      <TextField
        id="firm"
        name="firm"
        label="Contractor"
        hint="The name customers know; it stands on every sheet."
        autoComplete="organization"
        maxLength={120}
        error={errors['firm']}
      />
      <Select
        id="timeZone"
        name="timeZone"
        label="Time zone"
        hint="Of the shop. Each site has its own as well."
        ask="Choose"
        options={zones(own)}
        value={chosen ?? own}
        onChange={(event) => setChosen(event.target.value)}
        error={errors['timeZone']}
      />
    </>
  );
}
