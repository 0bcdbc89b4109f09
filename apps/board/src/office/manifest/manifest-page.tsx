'use client';
import type { ManifestLine, ManifestView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import Link from 'next/link';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { ButtonLink } from '../../ui/button-link.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { TakeBack } from '../cylinder/take-back.tsx';
import { cylinderPath, manifestPath } from '../link-to.ts';
import { gramsWords, massWords, signedGrams } from '../masses.ts';
import css from '../office.module.css';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { momentWords } from '../when.ts';
import { AcceptanceDialog } from './acceptance-dialog.tsx';
import { AFTER_WORDS, bookedWords, FOUND_WORDS, PURPOSE_WORDS } from './manifest-words.ts';

function Acceptance({ line: { acceptance, netGrams }, zone }: { line: ManifestLine; zone: string }) {
  if (acceptance === null) return <span className="quiet">not yet</span>;
  const { acceptedGrams, accepted, at, by, told, why, found } = acceptance;
  const difference = acceptedGrams - netGrams;
  return (
    <>
      {massWords(accepted)}
      <small>
        {difference === 0 ? 'as sent' : `${signedGrams(difference)} to what was sent`}
        {why !== null && `: ${why}`}
      </small>
      <small>
        {FOUND_WORDS[found]}
        {told !== null && `: ${told}`}
      </small>
      <small>
        {momentWords(at, zone)}
        {by !== null && `, ${by}`}
      </small>
    </>
  );
}

const columnsOf = (zone: string): Column<ManifestLine>[] => [
  {
    id: 'cylinder',
    head: 'Cylinder',
    cell: (line) => (
      <>
        <Link className="id" href={cylinderPath(line.cylinderId)}>
          {line.label ?? line.serial}
        </Link>
        {line.label !== null && <small className="id">{line.serial}</small>}
      </>
    ),
  },
  {
    id: 'booked',
    head: 'In it, by the books',
    cell: ({ booked, owners }) => (
      <>
        {bookedWords(booked)}
        <small>of {owners.join(', ') || 'nobody'}</small>
      </>
    ),
  },
  { id: 'gross', head: 'Gross on leaving', right: true, cell: ({ gross }) => massWords(gross) },
  { id: 'net', head: 'Net sent', right: true, cell: ({ netGrams }) => gramsWords(netGrams) },
  { id: 'accepted', head: 'Accepted', cell: (line) => <Acceptance line={line} zone={zone} /> },
  {
    id: 'after',
    head: 'Cylinder after',
    cell: ({ acceptance }) =>
      acceptance === null ? <span className="quiet">not known</span> : AFTER_WORDS[acceptance.after],
  },
];

function Head({ view, mayHandle }: { view: ManifestView; mayHandle: boolean }) {
  const zone = view.timeZone;
  const isOpen = view.takenBack === null && view.lines.every(({ acceptance }) => acceptance === null);
  return (
    <header className={css['head']}>
      <div className={css['title']}>
        <h1>Manifest to {view.receiver.name}</h1>
        <div className={css['standing']}>
          {view.takenBack !== null && <State mark="refused">Taken back</State>}
          <ButtonLink href={manifestPath(view.id, '/paper')}>Paper to print</ButtonLink>
          {mayHandle && isOpen && <TakeBack factId={view.id} what={`manifest to ${view.receiver.name}`} />}
        </div>
      </div>
      <ul className={css['facts']}>
        <li>
          sent <b>{momentWords(view.at, zone)}</b>
          {view.by !== null && ` by ${view.by}`}
        </li>
        <li>for {PURPOSE_WORDS[view.purpose].toLowerCase()}</li>
        <li>carrier {view.carrier}</li>
        {view.certificate !== null && <li>certificate {view.certificate}</li>}
        {view.reference !== null && <li>reference {view.reference}</li>}
      </ul>
      {view.note !== null && <p>{view.note}</p>}
      {view.takenBack !== null && (
        <p>
          Taken back {momentWords(view.takenBack.at, zone)}
          {view.takenBack.by !== null && ` by ${view.takenBack.by}`}: {view.takenBack.why}
        </p>
      )}
    </header>
  );
}

export interface ManifestPageProps {
  readonly view: ManifestView;
  readonly unit: MassUnit;
  readonly mayHandle: boolean;
}
/** One manifest: what was sent, what of it was accepted, and what stands in discrepancy. */
export function ManifestPage({ view, unit, mayHandle }: ManifestPageProps) {
  const [open, setOpen] = useState<ManifestLine>();
  const acts: Column<ManifestLine> = {
    id: 'acts',
    head: 'Acts',
    cell: (line) => (
      <Button onClick={() => setOpen(line)}>
        {line.acceptance === null ? 'Accepted' : 'Put right'}
        <span className="spoken"> of {line.label ?? line.serial}</span>
      </Button>
    ),
  };
  const columns = columnsOf(view.timeZone);
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Head view={view} mayHandle={mayHandle} />
      <div className={css['list']}>
        <Table
          caption="Cylinders on the manifest"
          rows={view.lines}
          keyOf={({ cylinderId }) => cylinderId}
          columns={mayHandle && view.takenBack === null ? [...columns, acts] : columns}
          empty={null}
        />
      </div>
      {open && <AcceptanceDialog shipmentId={view.id} line={open} unit={unit} onClose={() => setOpen(undefined)} />}
    </main>
  );
}
