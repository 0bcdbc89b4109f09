import type { PeriodAccountsView, PeriodBookView, PeriodView } from '@ullage/contracts';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { EmptyState } from '../../ui/blank.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { statementPath, thingPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';
import css from '../office.module.css';
import { Section } from '../section.tsx';
import { Balance } from './balance.tsx';
import { PeriodForm } from './period-form.tsx';
import { periodChoices, periodFile, periodPath } from './periods.ts';

function Choose({ view, today }: { view: PeriodView; today: string }) {
  const { from, to } = view;
  return (
    <>
      <nav className={css['switch']} aria-label="Periods">
        {periodChoices(view, today).map((choice) => (
          <Link
            key={choice.words}
            href={periodPath(choice)}
            aria-current={choice.from === from && choice.to === to ? 'page' : undefined}
            scroll={false}
          >
            {choice.words}
          </Link>
        ))}
      </nav>
      <div className={css['bar']}>
        <PeriodForm key={`${from} ${to}`} from={from} to={to} />
        <p>
          <a href={periodFile(view, 'csv')} download>
            CSV file
          </a>
          {', '}
          <a href={periodFile(view, 'pdf')} download>
            PDF to print
          </a>
        </p>
      </div>
    </>
  );
}

/** A figure that leads to the movements behind it. */
function Figure({ grams, href, of }: { grams: number; href: Parameters<typeof Link>[0]['href']; of: string }) {
  return (
    <Link href={href} scroll={typeof href === 'string' && !href.includes('#')}>
      {gramsWords(grams)}
      <span className="spoken">, {of}</span>
    </Link>
  );
}

function Summary({ view }: { view: PeriodView }) {
  const outside =
    (kind: keyof PeriodView['accounts'], gramsOf: (book: PeriodBookView) => number) =>
    (book: PeriodBookView): ReactNode => (
      <Figure
        grams={gramsOf(book)}
        href={statementPath(view.accounts[kind], { gas: book.refrigerant })}
        of={`the statement of ${kind.replaceAll('-', ' ')}`}
      />
    );
  const ours =
    (gramsOf: (book: PeriodBookView) => number) =>
    (book: PeriodBookView): ReactNode => (
      <Figure
        grams={gramsOf(book)}
        href={periodPath(view, book.refrigerant)}
        of={`the cylinders and circuits of ${book.refrigerant}`}
      />
    );
  const columns: Column<PeriodBookView>[] = [
    { id: 'gas', head: 'Gas', cell: ({ refrigerant }) => refrigerant },
    { id: 'opening', head: 'Opening', right: true, cell: ours(({ opening }) => opening.cylinders + opening.circuits) },
    { id: 'purchased', head: 'Purchased', right: true, cell: outside('supplier', ({ purchased }) => purchased) },
    { id: 'charged', head: 'Charged', right: true, cell: ours(({ charged }) => charged) },
    { id: 'recovered', head: 'Recovered', right: true, cell: ours(({ recovered }) => recovered) },
    { id: 'sent', head: 'Sent', right: true, cell: outside('reclaimer', ({ sent }) => sent) },
    {
      id: 'emissions',
      head: 'Emissions',
      right: true,
      cell: outside('atmosphere', ({ emissions }) => emissions.total),
    },
    { id: 'closing', head: 'Closing', right: true, cell: ours(({ closing }) => closing.cylinders + closing.circuits) },
  ];
  return (
    <Table
      caption={`Books from ${view.from} to ${view.to}, by gas`}
      rows={view.books}
      keyOf={({ refrigerant }) => refrigerant}
      empty={
        <EmptyState title="No gas was in the books by then.">
          <p>Choose a later period, or enter the first circuit or cylinder.</p>
        </EmptyState>
      }
      columns={columns}
    />
  );
}

function Accounts({ of, view }: { of: PeriodAccountsView; view: PeriodView }) {
  return (
    <div className={css['ledger']}>
      <Section id="accounts" title={`Cylinders and circuits of ${of.refrigerant}`} note={`${view.from} to ${view.to}`}>
        <Table
          caption={`What cylinders and circuits held and moved of ${of.refrigerant}`}
          rows={of.accounts}
          keyOf={({ account }) => account.id}
          empty={<p>None held or moved any of it.</p>}
          columns={[
            {
              id: 'account',
              head: 'Account',
              cell: ({ account }) => (
                <Link className="id" href={thingPath(account) ?? statementPath(account.id)}>
                  {account.title}
                </Link>
              ),
            },
            { id: 'kind', head: 'Kind', cell: ({ account }) => account.kind },
            { id: 'opening', head: 'Opening', right: true, cell: ({ openingGrams }) => gramsWords(openingGrams) },
            { id: 'in', head: 'Came', right: true, cell: ({ inGrams }) => gramsWords(inGrams) },
            { id: 'out', head: 'Left', right: true, cell: ({ outGrams }) => gramsWords(outGrams) },
            {
              id: 'closing',
              head: 'Closing',
              right: true,
              cell: ({ account, closingGrams }) => (
                <Figure
                  grams={closingGrams}
                  href={statementPath(account.id, { gas: of.refrigerant })}
                  of={`the statement of ${account.title}`}
                />
              ),
            },
          ]}
        />
        {of.more && <p>Those that moved most are shown; the books have every account.</p>}
      </Section>
    </div>
  );
}

/** The books of a period: a line a gas, each figure leading to its movements; then emissions against the mass balance. */
export function PeriodPage({
  view,
  accounts,
  today,
}: {
  view: PeriodView;
  accounts: PeriodAccountsView | undefined;
  today: string;
}) {
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>Books of a period</h1>
        <p className={css['lead']}>
          By the clock of {view.timeZone.replaceAll('_', ' ')}, both days included. A figure leads to the movements
          behind it. <Link href="/books">The books as they stand</Link>
        </p>
        <Choose view={view} today={today} />
      </header>
      <div className={css['list']}>
        <Summary view={view} />
      </div>
      {accounts && <Accounts of={accounts} view={view} />}
      {view.books.map((book, i) => (
        <div key={book.refrigerant} className={css['ledger']}>
          <Section id={`emissions-${i}`} title={`${book.refrigerant}: emissions`} note="ledger against mass balance">
            <Balance book={book} accounts={view.accounts} />
          </Section>
        </div>
      ))}
      {view.books.length > 0 && (
        <div className={css['section']}>
          <p className={css['rules']}>
            A stocktaking takes every circuit for full and every scale for right: what lies in discrepancy or is missing
            from a full charge it cannot tell from a leak. The ledger can. Mass balance after 40 CFR 98.303(a), equation
            DD-1; what must be reported, and how, local rules decide.
          </p>
        </div>
      )}
    </main>
  );
}
