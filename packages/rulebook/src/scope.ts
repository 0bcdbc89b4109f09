/** Whether a circuit is under a rulebook on a day, with the reason. */
import { compare, dayWords, exactGrams, toDecimal } from '@ullage/units';
import type { Day, Rational } from '@ullage/units';
import type { Edition } from './edition.ts';
import { editionFor, editionOn } from './editions.ts';
import { findRefrigerant, gwpIsOver } from './refrigerants.ts';
import type { Refrigerant } from './refrigerants.ts';
import type { Equipment, RulebookId, ScopeAnswer, ScopeInput, Subsector, Use } from './types.ts';

export interface ScopeFacts {
  readonly rulebook: RulebookId;
  readonly refrigerant: string;
  /** Exact grams; undefined when no full charge is known. */
  readonly fullCharge: Rational | undefined;
  readonly use: Use;
  readonly equipment?: Equipment;
  readonly subsector?: Subsector;
  readonly day: Day;
}

export interface Scope {
  readonly inScope: boolean | null;
  readonly why: string;
  readonly source: string;
  readonly flags: readonly string[];
}

type Finding = Omit<Scope, 'source'> & { readonly source?: string };

const out = (why: string, flags: readonly string[] = []): Finding => ({ inScope: false, why, flags });
const unknown = (why: string, flag: string): Finding => ({ inScope: null, why, flags: [flag] });

/** What the gas says: undefined when it is caught. */
function gasOutside(edition: Edition, refrigerant: Refrigerant): Finding | undefined {
  const { name } = refrigerant;
  if (edition.covers === 'ods')
    return refrigerant.containsOds ? undefined : out(`${name} contains no ozone-depleting substance.`);
  if (refrigerant.containsHfc) return undefined;
  if (refrigerant.onlyOds) return out(`${name} is only ozone-depleting: 40 CFR 82.157 applies instead.`);
  const limit = edition.gwpOver;
  if (limit !== null && gwpIsOver(refrigerant, limit)) return undefined;
  return out(`${name} contains no regulated HFC, and its GWP ${toDecimal(refrigerant.gwp, 1)} is not over ${limit}.`);
}

/** What the kind of equipment says: undefined when it is not excluded. */
function equipmentOutside(edition: Edition, { use, equipment, subsector }: ScopeFacts): Finding | undefined {
  if (!edition.excludesResidentialLightCommercial || equipment === 'chiller' || subsector === 'none') return undefined;
  const contested = equipment && edition.contestedEquipment.includes(equipment) ? ['contested'] : [];
  if (subsector === 'residential-light-commercial-ac')
    return out('Residential and light commercial air conditioning and heat pumps are excluded.', contested);
  if (use !== 'comfort-cooling' || !equipment || !edition.presumedExcluded.includes(equipment)) return undefined;
  return out(
    `Comfort cooling by ${equipment.replace('-', ' ')} is taken to be in the excluded residential and light commercial subsector (preamble, 89 FR 82717-82719); record who decided and why.`,
    ['subsector-presumed', ...contested],
  );
}

function chargeOutside(edition: Edition, { fullCharge }: ScopeFacts): Finding | undefined {
  if (!fullCharge) return unknown('No full charge is known.', 'full-charge-unknown');
  const minimum = exactGrams({ value: edition.minimumChargeLb, unit: 'lb' });
  if (compare(fullCharge, minimum) >= 0) return undefined;
  return out(`The full charge is below ${edition.minimumChargeLb} lb.`);
}

function caughtBecause(edition: Edition, { containsHfc, gwp }: Refrigerant): string {
  if (edition.covers === 'ods') return 'contains an ozone-depleting substance';
  return containsHfc ? 'contains a regulated HFC' : `has a GWP of ${toDecimal(gwp, 1)}, over ${edition.gwpOver}`;
}

function find(facts: ScopeFacts, edition: Edition): Finding {
  const refrigerant = findRefrigerant(facts.refrigerant);
  if (!refrigerant) return unknown(`${facts.refrigerant} is not in the rulebook's table.`, 'refrigerant-unknown');
  const outside = gasOutside(edition, refrigerant) ?? equipmentOutside(edition, facts) ?? chargeOutside(edition, facts);
  if (outside) return outside;
  const contradiction = facts.equipment === 'chiller' && facts.subsector === 'residential-light-commercial-ac';
  return {
    inScope: true,
    why: `${refrigerant.name} ${caughtBecause(edition, refrigerant)}, and the full charge is ${edition.minimumChargeLb} lb or more.`,
    flags: contradiction ? ['chiller-is-not-excluded'] : [],
  };
}

/** Decides by gas, equipment and charge, in this order; `null` where a fact is missing. */
export function scopeOf(facts: ScopeFacts): Scope {
  const edition = editionOn(facts.rulebook, facts.day);
  const coming = editionFor(facts.rulebook, facts.day);
  const finding = edition ? find(facts, edition) : out(`The rule applies from ${dayWords(coming.effectiveOn)}.`);
  const caveat = coming.useCaveats[facts.use];
  const flags = finding.inScope && caveat ? [...finding.flags, caveat.flag] : finding.flags;
  return { ...finding, flags, source: coming.clauses.scope };
}

/**
 * Whether a mass of a refrigerant is under each rulebook asked about. A blend with both an ozone-depleting part and an
 * HFC can be under both: the stricter duty is met first.
 * @throws RangeError for a mass that is none
 */
export function scope(input: ScopeInput): readonly ScopeAnswer[] {
  const { mass, onDay, jurisdictions, ...circuit } = input;
  return jurisdictions.map((rulebook) => {
    const found = scopeOf({ ...circuit, rulebook, day: onDay, fullCharge: exactGrams(mass) });
    const edition = editionFor(rulebook, onDay);
    const caveats = [edition.useCaveats[input.use], ...edition.caveats].filter((caveat) => caveat !== undefined);
    return {
      rulebook,
      rulebookVersion: edition.version,
      inScope: found.inScope,
      why: found.why,
      clause: found.source,
      flags: found.flags,
      reasons: [{ text: found.why, source: found.source }, ...caveats.map(({ text, source }) => ({ text, source }))],
    };
  });
}
