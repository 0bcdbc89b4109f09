import { EmptyState } from './blank.tsx';
import { ButtonLink } from './button-link.tsx';

/** The same words for what does not exist and for what belongs to somebody else. */
export const Nowhere = () => (
  <EmptyState
    as="h1"
    title="There is nothing at this address."
    actions={<ButtonLink href="/">Go to the start</ButtonLink>}
  >
    <p>It may have been typed wrongly, or it is not yours to see.</p>
  </EmptyState>
);
