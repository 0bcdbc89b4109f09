'use client';
import { Button } from '../ui/button.tsx';
import { ErrorState } from '../ui/blank.tsx';
import css from './plain.module.css';

const digestOf = (error: unknown): string | undefined =>
  error instanceof Error && 'digest' in error && typeof error.digest === 'string' ? error.digest : undefined;

export default function ErrorPage({ error, retry }: { error: unknown; retry: () => void }) {
  return (
    <main className={css['plain']}>
      <ErrorState
        as="h1"
        title="This page could not be made."
        reference={digestOf(error)}
        actions={
          <Button kind="main" onClick={retry}>
            Try again
          </Button>
        }
      >
        <p>What was recorded is safe. If it happens again, tell whoever runs this server the reference.</p>
      </ErrorState>
    </main>
  );
}
