import { REFRIGERANTS } from '@ullage/rulebook';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata } from 'next';
import { getMe } from '../../../../../lib/session.ts';
import { TakeCall } from '../../../../../screens/call/take-call.tsx';
import css from '../../../../../screens/call/call.module.css';
import { EmptyState } from '../../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Take a call' };

export default async function NewCallPage() {
  const me = await getMe();
  if (!me.permissions.includes('call.take'))
    return (
      <main className={css['page']}>
        <EmptyState
          as="h1"
          title="Your role takes no calls."
          actions={<ButtonLink href="/returns">Return visits</ButtonLink>}
        >
          <p>Owners, managers and dispatchers do.</p>
        </EmptyState>
      </main>
    );
  const massUnit = MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb';
  return (
    <main className={css['page']}>
      <h1>Take a call</h1>
      <TakeCall
        owner={`${me.tenant.id}.${me.user.id}`}
        timeZone={me.tenant.timeZone}
        massUnit={massUnit}
        now={me.now}
        gases={Object.keys(REFRIGERANTS)}
      />
    </main>
  );
}
