import { LocationListView } from '@ullage/contracts';
import { REFRIGERANTS } from '@ullage/rulebook';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Delivery } from '../../../../../office/delivery/delivery.tsx';
import css from '../../../../../office/office.module.css';
import { EmptyState } from '../../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Delivery' };

const byNumber = new Intl.Collator('en', { numeric: true });

export default async function DeliveryPage() {
  const me = await getMe();
  if (!me.permissions.includes('cylinder.handle'))
    return (
      <main className={css['page']}>
        <EmptyState as="h1" title="Your role takes in no deliveries.">
          <p>The warehouse or a manager does.</p>
        </EmptyState>
      </main>
    );
  const { items } = await get('/v1/locations', LocationListView);
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>Delivery</h1>
        <p className={css['lead']}>Full cylinders of bought gas, alike but for their serials: all come in, or none.</p>
      </header>
      <Delivery
        refrigerants={Object.keys(REFRIGERANTS).sort((a, b) => byNumber.compare(a, b))}
        locations={items.filter(({ kind }) => kind === 'warehouse' || kind === 'van')}
        massUnit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
      />
    </main>
  );
}
