'use client';
import type { InstrumentListView } from '@ullage/contracts';
import { useState } from 'react';
import { dayWords, localTime } from '../../lib/local-time.ts';
import { useOpenRecall } from '../../office/recall/use-recall.ts';
import { RefreshOnChange } from '../../office/refresh-on-change.tsx';
import { EmptyState, ErrorState } from '../../ui/blank.tsx';
import { Button } from '../../ui/button.tsx';
import { Menu, type MenuEntry } from '../../ui/menu.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { CalibrationDialog, InstrumentDialog, RetireDialog } from './instrument-dialogs.tsx';
import { Part, SettingsPage } from './settings-page.tsx';
import { INSTRUMENT_WORDS, nextCalibration, type InstrumentItem } from './house-forms.ts';
import css from './settings.module.css';

export interface InstrumentsProps {
  readonly view: InstrumentListView;
  readonly mayChange: boolean;
  readonly mayRecall: boolean;
  readonly timeZone: string;
}
type Open =
  | { readonly is: 'change'; readonly item: InstrumentItem | undefined }
  | { readonly is: 'calibrate' | 'retire'; readonly item: InstrumentItem };

const RESULT_WORDS = { pass: 'passed', adjusted: 'adjusted', fail: 'failed' } as const;
const SOON_DAYS = 30;
const DAY_MS = 86_400_000;
const daysTo = (today: string, day: string): number => (Date.parse(day) - Date.parse(today)) / DAY_MS;

/** When the next calibration is due, with its state. */
function Next({ item, today }: { item: InstrumentItem; today: string }) {
  const on = nextCalibration(item);
  if (on === null) return <span className="quiet">not said</span>;
  const days = daysTo(today, on);
  if (days < 0) return <State mark="late">{dayWords(on)}, overdue</State>;
  return days <= SOON_DAYS ? <State mark="soon">{dayWords(on)}</State> : <>{dayWords(on)}</>;
}

/** The latest check or calibration, the earlier ones behind it. */
function Checks({ checks }: { checks: InstrumentItem['checks'] }) {
  const [latest, ...earlier] = checks;
  if (!latest) return <span className="quiet">none</span>;
  const line = ({ what, on, result, by, note }: (typeof checks)[number]) => (
    <>
      {what === 'check' ? 'Check' : 'Calibration'} {dayWords(on)}: {RESULT_WORDS[result]}
      <small>
        {by}
        {note !== null && `, ${note}`}
      </small>
    </>
  );
  return (
    <>
      {latest.result === 'fail' ? <State mark="refused">{line(latest)}</State> : line(latest)}
      {earlier.length > 0 && (
        <details className={css['checks']}>
          <summary>{earlier.length === 1 ? 'The one before' : `The ${earlier.length} before`}</summary>
          <ul>
            {earlier.map((one) => (
              <li key={one.id}>{line(one)}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

const NAME: Column<InstrumentItem> = {
  id: 'tag',
  head: 'Instrument',
  cell: ({ tag, kind, senseGramsPerYear }) => (
    <>
      <b>{tag}</b>
      <small>
        {INSTRUMENT_WORDS[kind]}
        {senseGramsPerYear !== null && `, from ${senseGramsPerYear} g/yr`}
      </small>
    </>
  ),
};
const CHECKED: Column<InstrumentItem> = {
  id: 'checks',
  head: 'Checks and calibrations',
  cell: ({ checks }) => <Checks checks={checks} />,
};

/** The latest check that it failed, if it did. */
const failedOf = ({ checks }: InstrumentItem): string | undefined => checks.find(({ result }) => result === 'fail')?.id;

interface Acts {
  readonly open: (what: Open) => void;
  readonly recall: (factId: string) => void;
}
function columnsOf({ view, mayChange, mayRecall }: InstrumentsProps, { open, recall }: Acts): Column<InstrumentItem>[] {
  const columns: Column<InstrumentItem>[] = [
    NAME,
    {
      id: 'carrier',
      head: 'Carried by',
      cell: ({ carrier }) => carrier?.name ?? <span className="quiet">nobody</span>,
    },
    CHECKED,
    { id: 'next', head: 'Next calibration', cell: (item) => <Next item={item} today={view.today} /> },
  ];
  if (!mayChange) return columns;
  return [
    ...columns,
    {
      id: 'acts',
      head: 'Acts',
      cell: (item) => (
        <Menu
          label={`Change ${item.tag}`}
          entries={[
            { id: 'change', text: 'Change', note: 'Tag, carrier, what it senses' },
            { id: 'calibrate', text: 'Enter a calibration' },
            { id: 'retire', text: 'Retire' },
            ...(mayRecall ? [recallEntry(item)] : []),
          ]}
          onChoose={(id) =>
            id === 'recall' ? recall(failedOf(item) ?? '') : open({ is: id as 'change' | 'calibrate' | 'retire', item })
          }
        >
          Change
        </Menu>
      ),
    },
  ];
}

const recallEntry = (item: InstrumentItem): MenuEntry => ({
  id: 'recall',
  text: 'Recall',
  ...(failedOf(item) === undefined
    ? { disabledBecause: 'It has failed no check.' }
    : { note: 'What it was used for since it was last good' }),
});

function OpenDialog({ open, view, onClose }: { open: Open; view: InstrumentListView; onClose: () => void }) {
  if (open.is === 'change') return <InstrumentDialog item={open.item} people={view.people} onClose={onClose} />;
  if (open.is === 'retire') return <RetireDialog item={open.item} onClose={onClose} />;
  return <CalibrationDialog item={open.item} today={view.today} onClose={onClose} />;
}

/** Detectors, gauges, scales and machines: who carries them, and whether they can be believed. */
export function Instruments(props: InstrumentsProps) {
  const { view, mayChange, timeZone } = props;
  const [open, setOpen] = useState<Open>();
  const { problem, open: openRecall } = useOpenRecall();
  const inUse = view.items.filter(({ retiredAt }) => retiredAt === null);
  const retired = view.items.filter(({ retiredAt }) => retiredAt !== null);
  const register = mayChange && (
    <Button kind="main" onClick={() => setOpen({ is: 'change', item: undefined })}>
      Register an instrument
    </Button>
  );
  return (
    <SettingsPage
      title="Instruments"
      lead="What is read is worth what the instrument is worth: its checks before work and its calibrations."
      actions={view.items.length > 0 && register}
    >
      <RefreshOnChange />
      {problem && (
        <ErrorState title={problem.title}>
          <p>{problem.detail}</p>
        </ErrorState>
      )}
      <section className={css['part']}>
        <Table
          caption="Instruments in use"
          rows={inUse}
          keyOf={({ id }) => id}
          columns={columnsOf(props, { open: setOpen, recall: (factId) => void openRecall(factId) })}
          empty={
            <EmptyState title="No instrument is in use." actions={register || undefined}>
              <p>One is registered here, or on the spot in the field.</p>
            </EmptyState>
          }
        />
      </section>
      {retired.length > 0 && (
        <Part id="retired" title="Retired">
          <Table
            caption="Retired instruments"
            rows={retired}
            keyOf={({ id }) => id}
            empty={null}
            columns={[
              NAME,
              CHECKED,
              {
                id: 'retired',
                head: 'Retired on',
                cell: ({ retiredAt }) => (retiredAt === null ? '' : dayWords(localTime(retiredAt, timeZone).day)),
              },
            ]}
          />
        </Part>
      )}
      {open && <OpenDialog open={open} view={view} onClose={() => setOpen(undefined)} />}
    </SettingsPage>
  );
}
