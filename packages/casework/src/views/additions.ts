/** A circuit's additions as its page and the phone show them: judged as the repeat list judges them. */
import type { CircuitView } from '@ullage/contracts';
import { topOffs } from '@ullage/insight';
import type { JudgedAddition } from '@ullage/insight';
import type { CircuitEvent } from '@ullage/rulebook';
import { massText } from '@ullage/units';
import type { Calendar, EnteredMass } from '@ullage/units';
import { factOfEvent } from '../law/circuit-file.ts';
import type { CircuitFile } from '../law/circuit-file.ts';
import { historyOf } from './gas-history.ts';
import { wholeGrams } from './figures.ts';

type Addition = CircuitView['additions'][number];
type MoveEvent = Extract<CircuitEvent, { kind: 'addition' | 'removal' }>;

function kindOf({ visitId, topOff, reason }: JudgedAddition): Addition['kind'] {
  if (visitId === null) return 'past';
  if (topOff) return 'top-off';
  return reason.code === 'verified-there' ? 'at-repair' : 'no-top-off';
}

/** A single addition is shown as it was entered; a net of several in the unit of the full charge. */
function massOf({ netGrams }: JudgedAddition, events: readonly MoveEvent[], file: CircuitFile): EnteredMass | null {
  if (netGrams === null) return null;
  const [only, ...more] = events;
  if (only?.kind === 'addition' && only.mass && more.length === 0) return only.mass;
  const unit = file.facts.fullCharges.at(-1)?.mass.unit ?? 'lb';
  return { value: massText(netGrams, unit, 2), unit: unit === 'lb-oz' ? 'lb' : unit };
}

/** Net of each visit, newest first. */
export function additionsOf(file: CircuitFile, calendar: Calendar): Addition[] {
  const moves = file.events.filter((event) => event.kind === 'addition' || event.kind === 'removal');
  return topOffs(historyOf(file, calendar))
    .map((judged): Addition => {
      const events = moves.filter(({ id }) => judged.factIds.includes(factOfEvent(id)));
      return {
        factIds: [...judged.factIds],
        day: judged.day,
        mass: massOf(judged, events, file),
        grams: judged.netGrams && wholeGrams(judged.netGrams),
        kind: kindOf(judged),
        reason: judged.reason.text,
        by: events.some(({ by }) => by === 'other') ? 'other' : 'us',
        visitId: judged.visitId,
      };
    })
    .toReversed();
}
