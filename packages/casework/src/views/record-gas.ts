/** Item (vi) of a service record: the amount and type of refrigerant added and removed. */
import type { ServiceRecordView } from '@ullage/contracts';
import { bookedGrams, compare, exactGrams, massText, MASS_UNITS, subtract, sum, ZERO } from '@ullage/units';
import type { EnteredMass, MassUnit, Rational } from '@ullage/units';
import { weightsOf } from '../gas/corrections.ts';
import { netEntered } from '../law/circuit-file.ts';
import type { FactRow } from './fact-row.ts';
import { tagOf } from './record-work.ts';
import type { Told } from './record-work.ts';

type Line = ServiceRecordView['gas'][number];

/** Each weighing of the visit, as last corrected. */
export function gasLines(told: Told): Line[] {
  return told.facts.flatMap((fact) => {
    const weights = weightsOf(fact);
    if (!weights) return [];
    const { before, after } = weights;
    return {
      circuitTag: tagOf(told, fact),
      refrigerant: told.circuits.get(fact.circuitId ?? '')?.refrigerant ?? '',
      direction: fact.kind === 'charge' ? ('added' as const) : ('removed' as const),
      mass: netEntered(before, after),
      grams: Math.abs(bookedGrams(before) - bookedGrams(after)),
      cylinder: cylinderOf(fact),
    };
  });
}
const cylinderOf = (fact: FactRow): string => {
  const cylinder = fact.factRefs.find((ref) => ref.role === 'cylinder')?.cylinder;
  return cylinder?.label ?? cylinder?.serial ?? '';
};

/** A thousandth of a pound is half a gram: finer than any field scale shows. */
const PLACES = 3;
/** Per circuit what was added, removed and the net of both, in the contractor's unit. */
export function gasTotals(lines: readonly Line[], tenantUnit: string): ServiceRecordView['gasTotals'] {
  const asked = MASS_UNITS.find((unit) => unit === tenantUnit) ?? 'lb';
  const unit: MassUnit = asked === 'lb-oz' ? 'lb' : asked;
  const say = (exact: Rational): EnteredMass => ({ value: massText(exact, unit, PLACES), unit });
  return [...Map.groupBy(lines, ({ circuitTag }) => circuitTag)].map(([circuitTag, own]) => {
    const total = (direction: Line['direction']): Rational =>
      sum(own.filter((line) => line.direction === direction).map(({ mass }) => exactGrams(mass)));
    const [added, removed] = [total('added'), total('removed')];
    const net = subtract(added, removed);
    const isAdded = compare(net, ZERO) >= 0;
    return {
      circuitTag,
      refrigerant: own[0]?.refrigerant ?? '',
      added: say(added),
      removed: say(removed),
      net: { ...say(isAdded ? net : subtract(ZERO, net)), direction: isAdded ? 'added' : 'removed' },
    };
  });
}
