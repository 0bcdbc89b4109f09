import { PricesView } from '@ullage/contracts';
import { REFRIGERANTS } from '@ullage/rulebook';
import type { Metadata, Route } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { CostsClosed, CostsFrame } from '../../../../office/costs/costs-frame.tsx';
import { GasPrices } from '../../../../office/costs/price-table.tsx';
import { SetPrice } from '../../../../screens/costs/price-acts.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Prices' };

/** What has no price yet comes first, then the rest by name. */
function choices({ unpriced, gases }: PricesView): string[] {
  const rest = Object.keys(REFRIGERANTS).sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  return [...new Set([...unpriced, ...gases.map(({ refrigerant }) => refrigerant), ...rest])];
}

export default async function PricesPage() {
  const me = await getMe();
  if (!me.permissions.includes('costs.read')) return <CostsClosed />;
  const prices = await get('/v1/prices', PricesView);
  const sets = me.permissions.includes('price.set');
  const unit = me.tenant.massUnit === 'kg' || me.tenant.massUnit === 'g' ? 'kg' : 'lb';
  const { today, currency, gases, unpriced } = prices;
  const set = sets && (
    <SetPrice kind="main" label="Set a price" refrigerants={choices(prices)} {...{ today, unit, currency }} />
  );
  return (
    <CostsFrame
      title="Prices"
      current={'/prices' as Route}
      lead={
        <>
          What gas costs by weight since when, in {currency}. An addition has the price of its own day, whatever the gas
          costs since.
          {unpriced.length > 0 && gases.length > 0 && ` Without any price: ${unpriced.join(', ')}.`}
        </>
      }
      bar={gases.length > 0 && set}
    >
      {gases.length === 0 ? (
        <EmptyState title="No gas has a price yet." actions={set || undefined}>
          <p>
            Until it has, its cost reads “no price”, never nothing.
            {unpriced.length > 0 && ` Worked with here: ${unpriced.join(', ')}.`}
          </p>
        </EmptyState>
      ) : (
        gases.map((gas, i) => (
          <GasPrices
            key={gas.refrigerant}
            id={`price-${i}`}
            gas={gas}
            {...{ today, currency, unit, sets }}
            zone={me.tenant.timeZone}
          />
        ))
      )}
    </CostsFrame>
  );
}
