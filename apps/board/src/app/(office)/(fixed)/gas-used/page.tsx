import { BILLED_ASKED, GasUsedView, type BilledAsked } from '@ullage/contracts';
import { MASS_UNITS, type MassUnit } from '@ullage/units';
import type { Metadata, Route } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { gasUsedAsked, gasUsedPath, searchOf } from '../../../../office/costs/asked.ts';
import { Choice, CostsClosed, CostsFrame } from '../../../../office/costs/costs-frame.tsx';
import css from '../../../../office/costs/costs.module.css';
import { GasUsedTable } from '../../../../office/costs/gas-used-table.tsx';
import { bothMasses } from '../../../../office/costs/words.ts';
import office from '../../../../office/office.module.css';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Gas to bill' };

const NAMES: Readonly<Record<BilledAsked, string>> = { open: 'Not billed', billed: 'Billed', all: 'All' };
const NONE: Readonly<Record<BilledAsked, string>> = {
  open: 'All gas stands on an invoice.',
  billed: 'No gas is marked as billed yet.',
  all: 'No gas has moved at a visit yet.',
};

/** What waits for an invoice, by gas, in a sentence. */
function Open({ open, unit }: { open: GasUsedView['open']; unit: MassUnit }) {
  if (open.length === 0) return 'Nothing waits for an invoice.';
  return (
    <>
      Not billed:{' '}
      {open.map(({ refrigerant, grams, visits }, i) => (
        <span key={refrigerant}>
          {i > 0 && '; '}
          <b>{bothMasses(grams, unit)[0]}</b> of {refrigerant} ({bothMasses(grams, unit)[1]}) from{' '}
          {visits === 1 ? 'one visit' : `${visits} visits`}
        </span>
      ))}
      .
    </>
  );
}

export default async function GasUsedPage({ searchParams }: PageProps<'/gas-used'>) {
  const asked = gasUsedAsked(await searchParams);
  const me = await getMe();
  if (!me.permissions.includes('costs.read')) return <CostsClosed />;
  const list = await get(`/v1/gas-used${searchOf({ ...asked })}`, GasUsedView);
  const unit = MASS_UNITS.find((one) => one === me.tenant.massUnit) ?? 'lb';
  return (
    <CostsFrame
      title="Gas to bill"
      current={'/gas-used' as Route}
      lead={<Open open={list.open} unit={unit} />}
      bar={
        <>
          <Choice
            label="Shown"
            parts={BILLED_ASKED.map((billed) => ({
              text: NAMES[billed],
              href: gasUsedPath({ billed }),
              chosen: billed === list.billed,
            }))}
          />
          <a className={css['file']} href={`/v1/gas-used/file?billed=${list.billed}`} download="gas-used.csv">
            Download as CSV
          </a>
        </>
      }
    >
      <div className={office['list']}>
        <GasUsedTable
          list={list}
          unit={unit}
          zone={me.tenant.timeZone}
          bills={me.permissions.includes('gas.bill')}
          empty={
            <EmptyState title={NONE[list.billed]}>
              <p>A visit stands here from its first charge by weight on.</p>
            </EmptyState>
          }
        />
      </div>
      {(list.next !== null || asked.after !== undefined) && (
        <nav className={office['pages']} aria-label="Pages">
          <div className={office['bar']}>
            {asked.after !== undefined && <ButtonLink href={gasUsedPath({ billed: asked.billed })}>Newest</ButtonLink>}
            {list.next !== null && (
              <ButtonLink href={gasUsedPath({ ...asked, after: list.next })}>Earlier visits</ButtonLink>
            )}
          </div>
        </nav>
      )}
      <p className={css['legend']}>
        How it is reckoned: for each visit and gas, what the scale says left cylinders for circuits, less what it says
        came back into cylinders by recovery, as last corrected. Gas that was recovered and put back so counts for
        nothing, and neither does the customer’s own gas that is put back at another visit: to bill is never more than
        came out of our own. Gas that was recovered and kept stays the customer’s and is taken off too: where new gas
        replaced it, look at what was charged. Figures lead to their weighings.
      </p>
    </CostsFrame>
  );
}
