import { EmptyState } from '../../ui/blank.tsx';
import { ButtonLink } from '../../ui/button-link.tsx';

/** Inside the frame, so that the way on is at hand. The same for what does not exist and for what is another's. */
export default function NotFound() {
  return (
    <main>
      <EmptyState
        as="h1"
        title="There is nothing at this address."
        actions={<ButtonLink href="/">Go to the start</ButtonLink>}
      >
        <p>It may have been typed wrongly, or it is not yours to see.</p>
      </EmptyState>
    </main>
  );
}
