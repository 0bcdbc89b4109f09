import { CylinderListView, LocationListView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata } from 'next';
import { get } from '../../../../../../lib/api.ts';
import { getMe } from '../../../../../../lib/session.ts';
import { Shipment } from '../../../../../../office/manifest/shipment.tsx';
import css from '../../../../../../office/office.module.css';
import { EmptyState } from '../../../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Send cylinders' };

export default async function ShipmentPage() {
  const me = await getMe();
  if (!me.permissions.includes('cylinder.handle'))
    return (
      <main className={css['page']}>
        <EmptyState as="h1" title="Your role sends no cylinders.">
          <p>The warehouse or a manager does.</p>
        </EmptyState>
      </main>
    );
  const [{ items: locations }, { items }] = await Promise.all([
    get('/v1/locations', LocationListView),
    get('/v1/cylinders', CylinderListView),
  ]);
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>Send cylinders</h1>
        <p className={css['lead']}>
          To a reclaimer or for destruction, each weighed as it leaves. The gas stays in your books until it is
          accepted.
        </p>
      </header>
      <Shipment
        receivers={locations.filter(({ kind }) => kind === 'reclaimer')}
        cylinders={items}
        unit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
      />
    </main>
  );
}
