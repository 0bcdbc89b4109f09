import { BooksView } from '@ullage/contracts';
import type { Metadata } from 'next';
import Link from 'next/link';
import { get } from '../../../../lib/api.ts';
import { gasBooks, type GasBook } from '../../../../office/books.ts';
import { gramsWords } from '../../../../office/masses.ts';
import css from '../../../../office/office.module.css';
import { RefreshOnChange } from '../../../../office/refresh-on-change.tsx';
import { Section } from '../../../../office/section.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';
import { State } from '../../../../ui/state.tsx';
import { Table } from '../../../../ui/table.tsx';

export const metadata: Metadata = { title: 'Books' };

const KINDS: Readonly<Record<string, string>> = { circuit: 'circuit', cylinder: 'cylinder' };

function Total({ book }: { book: GasBook }) {
  return (
    <p>
      All accounts together: <b>{gramsWords(book.totalGrams)}</b>{' '}
      {book.totalGrams === 0 ? (
        <State mark="done">every gram is somewhere</State>
      ) : (
        <State mark="late">the books do not close: tell whoever runs this server</State>
      )}
    </p>
  );
}

export default async function BooksPage() {
  const books = gasBooks(await get('/v1/books', BooksView));
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <header className={css['head']}>
        <h1>Books</h1>
        <p className={css['lead']}>
          Every gram that comes to one account leaves another, so each gas adds up to nothing. Below zero means: this
          much came from there.
        </p>
      </header>
      {books.length === 0 && (
        <EmptyState title="No gas is in the books yet.">
          <p>The first circuit or cylinder that is entered with gas opens them.</p>
        </EmptyState>
      )}
      {books.map((book, i) => (
        <div key={book.refrigerant} className={css['ledger']}>
          <Section id={`gas-${i}`} title={book.refrigerant}>
            <Table
              caption={`Accounts of ${book.refrigerant}`}
              rows={book.lines}
              keyOf={(line) => line.id}
              empty={<p>All accounts of this gas stand at zero.</p>}
              columns={[
                {
                  id: 'account',
                  head: 'Account',
                  cell: (line) =>
                    line.href ? (
                      <Link className="id" href={line.href}>
                        {line.title}
                      </Link>
                    ) : (
                      line.title
                    ),
                },
                { id: 'kind', head: 'Kind', cell: (line) => KINDS[line.kind] ?? 'outside' },
                { id: 'owner', head: 'Owner of the gas', cell: (line) => line.owner ?? 'this firm' },
                { id: 'state', head: 'State', cell: (line) => line.state.replaceAll('-', ' ') },
                { id: 'grams', head: 'Grams', right: true, cell: (line) => gramsWords(line.grams) },
              ]}
            />
            <Total book={book} />
          </Section>
        </div>
      ))}
    </main>
  );
}
