import type { Holding } from './holding.ts';
import type { Posting } from './movement.ts';

/** How title and state pass in a movement: from one holding to another of the same refrigerant. */
export type Passing = Pick<Posting, 'refrigerant' | 'fromOwner' | 'fromState' | 'toOwner' | 'toState'>;

/** What an act makes of whose gas it moves. */
export type Title =
  /** Charging makes gas the customer's, in use, whoever owned it in the cylinder. */
  | { readonly act: 'charge'; readonly customer: string }
  /** Recovery makes gas recovered; it stays its owner's until title is passed by a movement of its own. */
  | { readonly act: 'recovery' }
  /** From cylinder to cylinder, or into the air: as it was. */
  | { readonly act: 'move' };

/** How gas of a holding passes by an act. */
export function passing({ refrigerant, owner, state }: Holding, title: Title): Passing {
  const before = { refrigerant, fromOwner: owner, fromState: state };
  switch (title.act) {
    case 'charge':
      return { ...before, toOwner: title.customer, toState: 'in-use' };
    case 'recovery':
      return { ...before, toOwner: owner, toState: 'recovered' };
    case 'move':
      return { ...before, toOwner: owner, toState: state };
  }
}
