import type { Holding } from './holding.ts';
import type { Posting } from './movement.ts';

/** How title and state pass in a movement: from one holding to another of the same refrigerant. */
export type Passing = Pick<Posting, 'refrigerant' | 'fromOwner' | 'fromState' | 'toOwner' | 'toState'>;

/** Charging makes gas the customer's, in use, whoever owned it in the cylinder. */
export const charging = ({ refrigerant, owner, state }: Holding, customer: string): Passing => ({
  refrigerant,
  fromOwner: owner,
  fromState: state,
  toOwner: customer,
  toState: 'in-use',
});

/** Recovery makes gas recovered; it stays the customer's until title is passed by a movement of its own. */
export const recovering = (refrigerant: string, customer: string): Passing => ({
  refrigerant,
  fromOwner: customer,
  fromState: 'in-use',
  toOwner: customer,
  toState: 'recovered',
});
