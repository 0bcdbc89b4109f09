/** Additions of the time before the books: known by day, by us or by somebody else, of a known mass or not. */
import type { CommandBody } from '@ullage/contracts';
import { bookedGrams } from '@ullage/units';
import { circuitAccount, outsideAccounts } from '../gas/accounts.ts';
import { enterFact } from '../gas/movement-rows.ts';
import { noonOf } from '../gas/gas-facts.ts';
import { notFound, refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact } from './facts.ts';

type PastAddition = CommandBody<'take-call'>['history'][number];
export interface History {
  readonly circuitId: string;
  /** The customer whose gas it becomes. */
  readonly owner: string;
  readonly history: readonly PastAddition[];
  /** The site's zone, and the day it is there. */
  readonly zone: string;
  readonly today: string;
  /** Where the list stands in the command's body. */
  readonly field?: string;
}

/** Books past additions as facts and as estimates of gas. @throws Refusal for a day that lies in the future */
export async function bookHistory(desk: Case, given: History): Promise<void> {
  const { circuitId, owner, history, zone, today, field = 'history' } = given;
  const account = await circuitAccount(desk, circuitId);
  const outside = await outsideAccounts(desk.tx, desk.tenantId);
  desk.circuits.add(circuitId);
  desk.accounts.add(account);
  const { refrigerant } = await desk.tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } },
    select: { refrigerant: true },
  });
  for (const [index, past] of history.entries()) {
    if (past.onDay > today)
      throw refuseField(`${field}/${index}/onDay`, 'Past addition: the day lies in the future; give a past day.');
    const { id, onDay, ...body } = past;
    await addFact(desk, { id, kind: 'past-addition', circuitId, at: { day: onDay }, body });
    if (past.mass === null) continue;
    const posting = {
      refrigerant,
      grams: bookedGrams(past.mass),
      // Our own gas of a time before the books comes out of their opening.
      from: past.by === 'us' ? outside.opening : outside['other-party'],
      to: account,
      fromOwner: null,
      fromState: 'new',
      toOwner: owner,
      toState: 'in-use',
      happenedAt: noonOf(desk.world.calendar, onDay, zone),
    } as const;
    if (posting.grams > 0) await enterFact(desk, [posting], { factId: id, visitId: null, measured: 'estimate' });
  }
}

/** Locks the circuit, and what its gas has reached since the first of its additions. */
export async function lockHistory(desk: Case, given: Pick<History, 'circuitId' | 'history' | 'zone'>): Promise<void> {
  const { circuitId, history, zone } = given;
  const earliest = history.map(({ onDay }) => onDay).sort()[0];
  const since = earliest === undefined ? desk.recordedAt : desk.world.calendar.startOf(earliest, zone);
  await lock(desk.tx, desk.tenantId, { circuitIds: [circuitId], gas: { since } });
}

/** Past additions of a circuit that is entered already. */
export async function recordPastAdditions(
  desk: Case,
  received: Received<CommandBody<'record-past-additions'>>,
): Promise<void> {
  const { circuitId, additions } = received.body;
  const circuit = await desk.tx.circuit.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } },
    select: { withdrawnAt: true, unit: { select: { site: { select: { timeZone: true, customerId: true } } } } },
  });
  if (!circuit || circuit.withdrawnAt) throw notFound();
  const { timeZone: zone, customerId: owner } = circuit.unit.site;
  await lockHistory(desk, { circuitId, history: additions, zone });
  const today = desk.world.calendar.dayOf(received.happenedAt, zone);
  await bookHistory(desk, { circuitId, owner, history: additions, zone, today, field: 'additions' });
}
