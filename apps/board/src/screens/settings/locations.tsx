'use client';
import type { LocationListView } from '@ullage/contracts';
import { useState } from 'react';
import { RefreshOnChange } from '../../office/refresh-on-change.tsx';
import { EmptyState } from '../../ui/blank.tsx';
import { Button } from '../../ui/button.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { LocationDialog } from './location-dialog.tsx';
import { SettingsPage } from './settings-page.tsx';
import { LOCATION_WORDS, type LocationItem } from './house-forms.ts';
import css from './settings.module.css';

export interface LocationsProps {
  readonly view: LocationListView;
  readonly mayChange: boolean;
  readonly height: 'ft' | 'm';
}
const FEET_PER_METRE = 1 / 0.3048;
const heightWords = (metres: number): string =>
  `${Math.round(metres).toLocaleString('en-US')} m (${Math.round(metres * FEET_PER_METRE).toLocaleString('en-US')} ft)`;

/** The places where cylinders stand. */
export function Locations({ view, mayChange, height }: LocationsProps) {
  const [open, setOpen] = useState<{ readonly item: LocationItem | undefined }>();
  const register = mayChange && (
    <Button kind="main" onClick={() => setOpen({ item: undefined })}>
      Register a location
    </Button>
  );
  const columns: Column<LocationItem>[] = [
    { id: 'name', head: 'Name', cell: ({ name }) => <b>{name}</b> },
    { id: 'kind', head: 'Kind', cell: ({ kind }) => LOCATION_WORDS[kind] },
    { id: 'elevation', head: 'Elevation', cell: ({ elevationM }) => heightWords(elevationM) },
    { id: 'keeper', head: 'Keeper', cell: ({ keeper }) => keeper?.name ?? <span className="quiet">nobody</span> },
  ];
  const acts: Column<LocationItem> = {
    id: 'acts',
    head: 'Acts',
    cell: (item) => (
      <div className={css['acts']}>
        <Button onClick={() => setOpen({ item })} aria-label={`Change ${item.name}`}>
          Change
        </Button>
      </div>
    ),
  };
  return (
    <SettingsPage
      title="Locations"
      lead="Where cylinders stand: warehouses, vans, customers’ sites, suppliers and reclaimers, with who keeps them."
      actions={view.items.length > 0 && register}
    >
      <RefreshOnChange />
      <section className={css['part']}>
        <Table
          caption="Locations"
          rows={view.items}
          keyOf={({ id }) => id}
          columns={mayChange ? [...columns, acts] : columns}
          empty={
            <EmptyState title="No location is registered yet." actions={register || undefined}>
              <p>A location has a height, because a gauge that is read there rests on it.</p>
            </EmptyState>
          }
        />
      </section>
      {open && <LocationDialog {...open} people={view.people} height={height} onClose={() => setOpen(undefined)} />}
    </SettingsPage>
  );
}
