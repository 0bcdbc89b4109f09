/** A circuit's file as the repeat list reads it: what gas moved, what was repaired, and how the repairs were tested. */
import type { CircuitHistory, GasMove, Purpose, Repair, Verification } from '@ullage/insight';
import type { CircuitEvent } from '@ullage/rulebook';
import { exactGrams } from '@ullage/units';
import type { Calendar, Day, Instant } from '@ullage/units';
import { noonOf } from '../gas/gas-facts.ts';
import { factOfEvent } from '../law/circuit-file.ts';
import type { CircuitFile } from '../law/circuit-file.ts';

type MoveEvent = Extract<CircuitEvent, { kind: 'addition' | 'removal' }>;
type Sited = Pick<CircuitFile, 'timeZone'>;

/** The day of an event at its site. */
const eventDay = (event: Pick<CircuitEvent, 'at'>, { timeZone }: Sited, calendar: Calendar): Day =>
  typeof event.at === 'string' ? calendar.dayOf(event.at, timeZone) : event.at.on;

const eventInstant = (event: Pick<CircuitEvent, 'at'>, { timeZone }: Sited, calendar: Calendar): Instant =>
  typeof event.at === 'string' ? event.at : noonOf(calendar, event.at.on, timeZone);

function purposeOf(event: MoveEvent): Purpose {
  if (event.kind === 'addition' && event.installation) return 'first-charge';
  if (event.kind === 'addition' && event.retrofit) return 'retrofit';
  return event.seasonal ? 'seasonal' : 'service';
}

const moveOf = (event: MoveEvent, file: CircuitFile, calendar: Calendar): GasMove => ({
  factId: factOfEvent(event.id),
  visitId: event.visit ?? null,
  day: eventDay(event, file, calendar),
  direction: event.kind === 'addition' ? 'in' : 'out',
  grams: event.mass === null ? null : exactGrams(event.mass),
  purpose: purposeOf(event),
});

/** Everything that `topOffs` judges a circuit's additions by. */
export function historyOf(file: CircuitFile, calendar: Calendar): CircuitHistory {
  const moves: GasMove[] = [];
  const repairs: Repair[] = [];
  const verifications: Verification[] = [];
  const acted = (event: CircuitEvent, leakIds: readonly string[]): Repair => ({
    factId: factOfEvent(event.id),
    visitId: event.visit ?? null,
    at: eventInstant(event, file, calendar),
    leakIds,
  });
  for (const event of file.events) {
    if (event.kind === 'addition' || event.kind === 'removal') moves.push(moveOf(event, file, calendar));
    if (event.kind === 'repair') repairs.push(acted(event, [event.leakId]));
    if (event.kind === 'initial-verification' || event.kind === 'follow-up-verification')
      verifications.push({ ...acted(event, event.leakIds), passed: event.result === 'pass' });
  }
  return { moves, repairs, verifications };
}
