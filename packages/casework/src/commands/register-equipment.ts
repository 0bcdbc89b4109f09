import type { CommandBody } from '@ullage/contracts';
import type { Case, Received } from '../pipeline/case.ts';
import { bookHistory, lockHistory } from './past-additions.ts';
import { openCircuit, openCustomer, openSite, openUnit } from './take-call.ts';

type Equipment = CommandBody<'register-equipment'>;
type Entry<T> = { id: string; new?: T | undefined };

/**
 * Enters customer, site, unit and circuit, without a call. What is there already under its id stays as it is: of the
 * rows of a file each names all it stands on, and whichever comes first makes it.
 */
export async function registerEquipment(desk: Case, received: Received<Equipment>): Promise<void> {
  const { body } = received;
  const customer = await orKnown(desk, 'customer', body.customer);
  await openCustomer(desk, { customer });
  if (!body.site) return;
  const site = await orKnown(desk, 'site', body.site);
  const { timeZone: zone } = await openSite(desk, { site, customer });
  if (!body.unit) return;
  const unit = await orKnown(desk, 'unit', body.unit);
  await openUnit(desk, { unit, site });
  if (!body.circuit) return;
  const circuit = await orKnown(desk, 'circuit', body.circuit);
  const today = desk.world.calendar.dayOf(received.happenedAt, zone);
  await openCircuit(desk, { circuit, unit, history: body.history }, today);
  // The law asks nothing of a circuit to which nothing happened yet.
  if (body.history.length === 0) return;
  await lockHistory(desk, { circuitId: circuit.id, history: body.history, zone });
  await bookHistory(desk, { circuitId: circuit.id, owner: customer.id, history: body.history, zone, today });
}

async function orKnown<T>(
  { tx, tenantId }: Case,
  kind: 'customer' | 'site' | 'unit' | 'circuit',
  entry: Entry<T>,
): Promise<Entry<T>> {
  if (!entry.new) return entry;
  const where = { tenantId, id: entry.id };
  const count = {
    customer: () => tx.customer.count({ where }),
    site: () => tx.site.count({ where }),
    unit: () => tx.unit.count({ where }),
    circuit: () => tx.circuit.count({ where }),
  };
  return (await count[kind]()) === 0 ? entry : { id: entry.id };
}
