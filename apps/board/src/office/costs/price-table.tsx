import type { PricesView, PriceUnit, PriceView } from '@ullage/contracts';
import { SetPrice, WithdrawPrice } from '../../screens/costs/price-acts.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import office from '../office.module.css';
import { dayAt, dayWords } from '../when.ts';
import css from './costs.module.css';
import { priceWords } from './words.ts';

export interface GasPricesProps {
  readonly gas: PricesView['gases'][number];
  readonly id: string;
  readonly today: string;
  readonly currency: string;
  readonly zone: string;
  readonly unit: PriceUnit;
  readonly sets: boolean;
}

function Standing({ price, props }: { price: PriceView; props: GasPricesProps }) {
  const { gas, today, currency } = props;
  if (price.withdrawn) return <State mark="refused">withdrawn</State>;
  if (price.currency !== currency) return <State mark="doubt">in {price.currency}, not reckoned with</State>;
  if (price.id === gas.current?.id) return <State mark="done">in force</State>;
  return price.fromOn > today ? <State mark="planned">from then on</State> : <span className="quiet">past</span>;
}

function Amount({ price, of }: { price: PriceView; of: 'purchase' | 'sale' }) {
  const amount = price[of];
  if (amount === null) return <span className="quiet">none</span>;
  return (
    <span className={price.withdrawn ? office['struck'] : undefined}>
      {priceWords({ amount, unit: price.unit }, price.currency)}
    </span>
  );
}

function columnsOf(props: GasPricesProps): Column<PriceView>[] {
  const columns: Column<PriceView>[] = [
    {
      id: 'from',
      head: 'Valid',
      cell: ({ fromOn, untilOn }) => (
        <>
          from {dayWords(fromOn)}
          {untilOn !== null && <small>to {dayWords(untilOn)}</small>}
        </>
      ),
    },
    { id: 'purchase', head: 'We pay', right: true, cell: (price) => <Amount price={price} of="purchase" /> },
    { id: 'sale', head: 'The customer pays', right: true, cell: (price) => <Amount price={price} of="sale" /> },
    { id: 'state', head: 'State', cell: (price) => <Standing price={price} props={props} /> },
    {
      id: 'by',
      head: 'Set by',
      cell: ({ setBy, setAt, withdrawn }) => (
        <>
          {setBy}, {dayWords(dayAt(setAt, props.zone))}
          {withdrawn && (
            <small>
              withdrawn by {withdrawn.by}, {dayWords(dayAt(withdrawn.at, props.zone))}
            </small>
          )}
        </>
      ),
    },
  ];
  if (!props.sets) return columns;
  const act: Column<PriceView> = {
    id: 'act',
    head: 'Acts',
    cell: (price) => (price.withdrawn ? '' : <WithdrawPrice price={price} />),
  };
  return [...columns, act];
}

/** What one gas has cost since when. */
export function GasPrices(props: GasPricesProps) {
  const { gas, id, today, unit, currency, sets } = props;
  return (
    <section className={css['gas']} aria-labelledby={id}>
      <h2 id={id}>{gas.refrigerant}</h2>
      {gas.current === null && <p>No price is in force today: what is added costs “no price”.</p>}
      <Table
        caption={`Prices of ${gas.refrigerant}, newest first`}
        rows={gas.history}
        keyOf={(price) => price.id}
        empty={null}
        columns={columnsOf(props)}
      />
      {sets && (
        <div>
          <SetPrice
            label={`New price of ${gas.refrigerant}`}
            refrigerants={[gas.refrigerant]}
            {...{ today, unit, currency }}
          />
        </div>
      )}
    </section>
  );
}
