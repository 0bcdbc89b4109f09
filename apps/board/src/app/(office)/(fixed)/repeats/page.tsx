import { OneAwayView, REPEAT_ORDERS, RepeatsView, type RepeatOrder } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata, Route } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { GWP_NAMES, repeatsAsked, repeatsPath, searchOf, type RepeatsAsked } from '../../../../office/costs/asked.ts';
import { Choice, CostsClosed, CostsFrame } from '../../../../office/costs/costs-frame.tsx';
import css from '../../../../office/costs/costs.module.css';
import { Evidence } from '../../../../office/costs/evidence.tsx';
import { OneAway } from '../../../../office/costs/one-away.tsx';
import { Legend, RepeatTable } from '../../../../office/costs/repeat-table.tsx';
import { rateFigure } from '../../../../office/costs/words.ts';
import { Landing } from '../../../../office/landing.tsx';
import office from '../../../../office/office.module.css';
import { WhoRules } from '../../../../office/section.tsx';
import { PictureDefs } from '../../../../pictures/defs.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Repeat list' };

const ORDERS: Readonly<Record<RepeatOrder, string>> = { evidence: 'Worst rate', gas: 'Most gas', cost: 'Highest cost' };

function leadOf({ fleet, total }: RepeatsView): string {
  const often = fleet.rate ? ` On average a circuit is topped off ${rateFigure(fleet.rate.perYear)} times a year.` : '';
  return `${total} of ${fleet.circuits} circuits were topped off in the last 24 months: gas went in and no repair was verified at the visit.${often}`;
}

function Choices({ list, asked }: { list: RepeatsView; asked: RepeatsAsked }) {
  return (
    <>
      <Choice
        label="Order"
        parts={REPEAT_ORDERS.map((order) => ({
          text: ORDERS[order],
          href: repeatsPath({ ...asked, order, after: undefined }),
          chosen: order === list.order,
        }))}
      />
      <Choice
        label="GWP by IPCC report"
        parts={GWP_NAMES.map((gwp) => ({
          text: gwp,
          href: repeatsPath({ ...asked, gwp }),
          chosen: gwp === list.gwpSet,
        }))}
      />
    </>
  );
}

function Pages({ list, asked }: { list: RepeatsView; asked: RepeatsAsked }) {
  if (list.next === null && asked.after === undefined) return null;
  const at = (after: string | undefined): Route => repeatsPath({ ...asked, circuit: undefined, after });
  return (
    <nav className={office['pages']} aria-label="Pages">
      <div className={office['bar']}>
        {asked.after !== undefined && <ButtonLink href={at(undefined)}>First page</ButtonLink>}
        {list.next !== null && <ButtonLink href={at(list.next)}>Next page</ButtonLink>}
      </div>
    </nav>
  );
}

export default async function RepeatsPage({ searchParams }: PageProps<'/repeats'>) {
  const asked = repeatsAsked(await searchParams);
  const me = await getMe();
  if (!me.permissions.includes('costs.read')) return <CostsClosed />;
  const { gwp, order, after } = asked;
  const [list, near] = await Promise.all([
    get(`/v1/repeats${searchOf({ gwp, order, after })}`, RepeatsView),
    get('/v1/repeats/one-away', OneAwayView),
  ]);
  const unit = MASS_UNITS.find((one) => one === me.tenant.massUnit) ?? 'lb';
  const row = list.items.find(({ circuitId }) => circuitId === asked.circuit) ?? list.items[0];
  return (
    <CostsFrame
      title="Repeat list"
      lead={leadOf(list)}
      current={'/repeats' as Route}
      bar={list.total > 0 && <Choices list={list} asked={asked} />}
    >
      <PictureDefs />
      <Landing key={asked.circuit} />
      <div className={css['split']}>
        <div>
          {row ? (
            <>
              <RepeatTable list={list} asked={asked} selected={row.circuitId} unit={unit} />
              <Pages list={list} asked={asked} />
              <Legend />
            </>
          ) : (
            <EmptyState title="No circuit was topped off in the last 24 months.">
              <p>An addition counts from the visit it was made at, unless a repair was verified there.</p>
            </EmptyState>
          )}
          <OneAway near={near} unit={unit} />
          <div className={css['legend']}>
            <WhoRules />
          </div>
        </div>
        {row && (
          <Evidence
            key={row.circuitId}
            row={row}
            list={list}
            unit={unit}
            zone={me.tenant.timeZone}
            plans={me.permissions.includes('replacement.plan')}
          />
        )}
      </div>
    </CostsFrame>
  );
}
