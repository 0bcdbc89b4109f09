import { PlacesView } from '@ullage/contracts';
import { REFRIGERANTS } from '@ullage/rulebook';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { RegisterForm } from '../../../../../office/cylinder/register-form.tsx';
import css from '../../../../../office/office.module.css';
import { EmptyState } from '../../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Register cylinder' };

const byNumber = new Intl.Collator('en', { numeric: true });

export default async function RegisterCylinderPage() {
  const me = await getMe();
  if (!me.permissions.includes('cylinder.register'))
    return (
      <main className={css['page']}>
        <EmptyState as="h1" title="Your role registers no cylinders.">
          <p>The warehouse, a manager or a technician on the spot does.</p>
        </EmptyState>
      </main>
    );
  const { customers } = await get('/v1/places', PlacesView);
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>Register cylinder</h1>
        <p className={css['lead']}>By its stamps, with what is in it now.</p>
      </header>
      <RegisterForm
        refrigerants={Object.keys(REFRIGERANTS).sort((a, b) => byNumber.compare(a, b))}
        customers={customers}
        massUnit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
      />
    </main>
  );
}
