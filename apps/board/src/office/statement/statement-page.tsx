import type { StatementView } from '@ullage/contracts';
import Link from 'next/link';
import { ButtonLink } from '../../ui/button-link.tsx';
import { Landing } from '../landing.tsx';
import { statementPath, thingPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';
import { RefreshOnChange } from '../refresh-on-change.tsx';
import { accountKindWords } from '../books.ts';
import css from '../office.module.css';
import { MovementTable } from './movement-table.tsx';

/** The gases of the account, each with a statement of its own; all together say what is in it. */
function Gases({ statement }: { statement: StatementView }) {
  const { account, refrigerant, refrigerants } = statement;
  if (refrigerants.length < 2) return null;
  return (
    <nav className={css['switch']} aria-label="Gases">
      {[null, ...refrigerants].map((gas) => (
        <Link
          key={gas}
          href={statementPath(account.id, { gas })}
          aria-current={gas === refrigerant ? 'page' : undefined}
          scroll={false}
        >
          {gas ?? 'All gases'}
        </Link>
      ))}
    </nav>
  );
}

function Head({ statement }: { statement: StatementView }) {
  const { account, refrigerant, refrigerants, closingGrams, latest } = statement;
  const thing = thingPath(account);
  const gas = refrigerant ?? (refrigerants.length === 1 ? refrigerants[0] : undefined);
  const kind = accountKindWords(account.kind);
  return (
    <header className={css['head']}>
      <div className={css['title']}>
        <h1>
          <span className={thing ? 'id' : undefined}>{account.title}</span> {gas}
        </h1>
        <Gases statement={statement} />
      </div>
      <p className={css['lead']}>
        Statement of {kind === 'outside' ? 'an account outside circuits and cylinders' : `a ${kind}`}
        {latest && (
          <>
            {': '}
            <b>{gramsWords(closingGrams)}</b> now
          </>
        )}
        . In the order things happened.
        {kind === 'outside' && ' Below zero means: this much came from there.'}
      </p>
      {thing && (
        <p>
          <Link href={thing}>The {kind}</Link>
          <span className="quiet">
            {' '}
            and <Link href="/books">the books</Link>
          </span>
        </p>
      )}
      {!thing && (
        <p>
          <Link href="/books">The books</Link>
        </p>
      )}
    </header>
  );
}

/** What an account held, what moved and what it holds; every line leads to its fact and to the other account. */
export function StatementPage({ statement, zone }: { statement: StatementView; zone: string }) {
  const { account, refrigerant, refrigerants, openingGrams, closingGrams, earlier, latest, lines } = statement;
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <Landing />
      <Head statement={statement} />
      <div className={css['list']}>
        {!latest && lines.length > 0 && (
          <p className={css['aside']}>An earlier page: what moved later is on the newest one.</p>
        )}
        <MovementTable
          caption={`Movements of ${account.title}, oldest first`}
          lines={lines}
          zone={zone}
          showGas={refrigerant === null && refrigerants.length > 1}
          balances={{
            opening: {
              id: 'opening',
              words: earlier === null ? 'Opening' : 'Brought forward',
              grams: openingGrams,
            },
            closing: { id: 'closing', words: latest ? 'Closing, now' : 'Carried forward', grams: closingGrams },
          }}
          empty={<p>Nothing has moved in or out{refrigerant === null ? '' : ` of ${refrigerant}`} yet.</p>}
        />
      </div>
      {(earlier !== null || !latest) && (
        <nav className={css['pages']} aria-label="Pages">
          <div className={css['bar']}>
            {earlier !== null && (
              <ButtonLink href={statementPath(account.id, { gas: refrigerant, before: earlier })}>
                Earlier movements
              </ButtonLink>
            )}
            {!latest && <ButtonLink href={statementPath(account.id, { gas: refrigerant })}>Newest</ButtonLink>}
          </div>
        </nav>
      )}
    </main>
  );
}
