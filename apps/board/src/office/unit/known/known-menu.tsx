'use client';
import type { CircuitView, UnitView } from '@ullage/contracts';
import dynamic from 'next/dynamic';
import { useState } from 'react';
import { Menu } from '../../../ui/menu.tsx';

// A form that few open is loaded when it is opened.
const SiteDialog = dynamic(() => import('./site-dialog.tsx').then((part) => part.SiteDialog));
const CircuitDialog = dynamic(() => import('./circuit-dialog.tsx').then((part) => part.CircuitDialog));
const ChargeDialog = dynamic(() => import('./charge-dialog.tsx').then((part) => part.ChargeDialog));

export interface KnownMenuProps {
  readonly site: UnitView['site'];
  readonly circuit: CircuitView;
  readonly today: string;
}

/** What was put down at the call and is known better now. */
export function KnownMenu({ site, circuit, today }: KnownMenuProps) {
  const [open, setOpen] = useState('');
  const onClose = (): void => setOpen('');
  return (
    <>
      <Menu
        label="Put right"
        entries={[
          { id: 'site', text: 'The site', note: 'Height, place on the map, contact, access' },
          { id: 'circuit', text: 'The circuit', note: 'Use, equipment, subsector' },
          { id: 'charge', text: 'The full charge', note: 'A new figure from a day on' },
        ]}
        onChoose={setOpen}
      />
      {open === 'site' && <SiteDialog {...{ site, onClose }} />}
      {open === 'circuit' && <CircuitDialog {...{ circuit, onClose }} />}
      {open === 'charge' && <ChargeDialog {...{ circuit, today, onClose }} />}
    </>
  );
}
