'use client';
import type { GlanceView, VisitView } from '@ullage/contracts';
import { useEffect, type ReactNode } from 'react';
import { EmptyState, ErrorState } from '../ui/blank.tsx';
import { BigButton } from '../ui/phone/big-button.tsx';
import { PhoneShell } from '../ui/phone/phone-shell.tsx';
import { Segment } from '../ui/segment.tsx';
import { Skeleton } from '../ui/skeleton.tsx';
import { FieldProvider, useField } from './field-context.tsx';
import { loadNextLook } from './next-look/load-next-look.ts';
import { SyncState } from './parts/sync-state.tsx';
import { go, pathTo, type Route } from './router.ts';
import { StepView } from './step-view.tsx';
import { stepsFor } from './steps.ts';
import { type Shown, useRead } from './use-read.ts';
import { VisitProvider } from './visit-context.tsx';
import css from './app.module.css';

type VisitRoute = Extract<Route, { is: 'visit' }>;

/** One visit: its data, kept on the screen while it is fetched again, and the step the address names. */
export function Visit({ route }: { route: VisitRoute }) {
  const field = useField();
  const shown = useRead(field.port, () => field.port.visit(route.visitId));
  if (!shown.data) return <NotYet shown={shown} />;
  const { glances } = shown.data;
  const glance = glances.find((one) => one.circuitId === route.circuitId) ?? glances[0];
  if (!glance) return <NoCircuit view={shown.data} />;
  return <Known route={route} view={shown.data} glance={glance} refresh={shown.refresh} />;
}

interface KnownProps {
  readonly route: VisitRoute;
  readonly view: VisitView;
  readonly glance: GlanceView;
  readonly refresh: () => Promise<void>;
}
function Known({ route, view, glance, refresh }: KnownProps): ReactNode {
  const field = { ...useField(), timeZone: view.site.timeZone };
  // While there is a signal: the looks are made where there is none.
  useEffect(() => void loadNextLook(), []);
  const several = view.glances.length > 1;
  const screen = {
    ...field,
    view,
    glance,
    refresh,
    steps: stepsFor(view.visit, view.facts),
    goTo: (step: VisitRoute['step'], circuitId?: string) =>
      go(pathTo(route.visitId, step, several ? (circuitId ?? glance.circuitId) : null)),
  };
  return (
    <FieldProvider value={field}>
      <VisitProvider value={screen}>
        {several && (
          <nav className={css['circuits']} aria-label="Circuits of this visit">
            <Segment
              label="Circuit"
              parts={view.glances.map((one) => ({ value: one.circuitId, text: one.tag }))}
              value={glance.circuitId}
              onChange={(circuitId) => screen.goTo(route.step, circuitId)}
            />
          </nav>
        )}
        <StepView key={`${route.step} ${glance.circuitId}`} step={route.step} />
      </VisitProvider>
    </FieldProvider>
  );
}

function NotYet({ shown }: { shown: Shown<VisitView> }) {
  const { problem, refresh } = shown;
  if (!problem)
    return (
      <PhoneShell title="Opening the visit" onBack={() => go('/field')} sync={<SyncState />}>
        <Skeleton label="Fetching the visit" lines={8} />
      </PhoneShell>
    );
  const isGone = problem.status === 404;
  return (
    <PhoneShell
      title={isGone ? 'Not here' : 'Not open yet'}
      onBack={() => go('/field')}
      sync={<SyncState />}
      foot={
        <BigButton onClick={() => (isGone ? go('/field') : void refresh())}>
          {isGone ? 'To today' : 'Try again'}
        </BigButton>
      }
    >
      <ErrorState title={isGone ? 'There is no such visit.' : problem.title}>
        <p>
          {isGone ? 'It may have been given to somebody else.' : (problem.detail ?? '')} What you typed is still on this
          phone.
        </p>
      </ErrorState>
    </PhoneShell>
  );
}

function NoCircuit({ view }: { view: VisitView }) {
  return (
    <PhoneShell
      title={view.visit.siteName}
      subtitle={view.visit.purposeText}
      onBack={() => go('/field')}
      sync={<SyncState />}
    >
      <EmptyState title="This visit names no circuit.">
        <p>Ask the dispatcher to add the unit and its circuit; the steps then appear here.</p>
      </EmptyState>
    </PhoneShell>
  );
}
