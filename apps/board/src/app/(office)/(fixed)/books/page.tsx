import { BooksView } from '@ullage/contracts';
import type { Metadata, Route } from 'next';
import Link from 'next/link';
import { get } from '../../../../lib/api.ts';
import { accountKindWords, type BookLine, foldedBook, gasBooks, type GasBook } from '../../../../office/books.ts';
import { countOf } from '../../../../office/count-words.ts';
import { gramsWords } from '../../../../office/masses.ts';
import css from '../../../../office/office.module.css';
import { RefreshOnChange } from '../../../../office/refresh-on-change.tsx';
import { Section } from '../../../../office/section.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';
import { State } from '../../../../ui/state.tsx';
import { Table } from '../../../../ui/table.tsx';

export const metadata: Metadata = { title: 'Books' };

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

const NOUNS = { circuit: 'circuit', cylinder: 'cylinder', outside: 'outside account' } as const;

function Lines({ caption, lines }: { caption: string; lines: readonly BookLine[] }) {
  return (
    <Table
      caption={caption}
      rows={lines}
      keyOf={(line) => line.id}
      empty={<p>All accounts of this gas stand at zero.</p>}
      columns={[
        {
          id: 'account',
          head: 'Account',
          cell: (line) => (
            <Link className={line.thing ? 'id' : undefined} href={line.thing ?? line.statement}>
              {line.title}
            </Link>
          ),
        },
        { id: 'kind', head: 'Kind', cell: (line) => accountKindWords(line.kind) },
        { id: 'owner', head: 'Owner of the gas', cell: (line) => line.owner ?? 'this firm' },
        { id: 'state', head: 'State', cell: (line) => line.state.replaceAll('-', ' ') },
        {
          id: 'grams',
          head: 'Grams',
          right: true,
          cell: (line) => (
            <Link href={line.statement}>
              {gramsWords(line.grams)}
              <span className="spoken">, the statement of {line.title}</span>
            </Link>
          ),
        },
      ]}
    />
  );
}

/** Where a firm has many circuits their lines stand folded, so that the next gas can be reached. */
function Accounts({ book }: { book: GasBook }) {
  const { shown, folded } = foldedBook(book);
  const caption = `Accounts of ${book.refrigerant}`;
  return (
    <>
      {(shown.length > 0 || folded.length === 0) && <Lines caption={caption} lines={shown} />}
      {folded.map(({ kind, lines, grams }) => (
        <details key={kind} className={css['folded']}>
          <summary>
            {countOf(lines.length, NOUNS[kind])}: {gramsWords(grams)}
          </summary>
          <Lines caption={`${caption}, ${kind}`} lines={lines} />
        </details>
      ))}
    </>
  );
}

function Head() {
  return (
    <header className={css['head']}>
      <h1>Books</h1>
      <p className={css['lead']}>
        Every gram that comes to one account leaves another, so each gas adds up to nothing. Below zero means: this much
        came from there. A name leads to the circuit or cylinder, a balance to all that moved.
      </p>
      <div className={css['bar']}>
        <ButtonLink href={'/books/period' as Route}>Books of a period</ButtonLink>
      </div>
    </header>
  );
}

export default async function BooksPage() {
  const books = gasBooks(await get('/v1/books', BooksView));
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Head />
      {books.length === 0 && (
        <EmptyState title="No gas is in the books yet.">
          <p>The first circuit or cylinder that is entered with gas opens them.</p>
        </EmptyState>
      )}
      {books.map((book, i) => (
        <div key={book.refrigerant} className={css['ledger']}>
          <Section id={`gas-${i}`} title={book.refrigerant}>
            <Accounts book={book} />
            <Total book={book} />
          </Section>
        </div>
      ))}
    </main>
  );
}
