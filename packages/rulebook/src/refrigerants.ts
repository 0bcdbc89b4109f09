/**
 * What the rulebooks need to know of a refrigerant. It is the law's view and stands apart from the physics on purpose:
 * a better equation of state must not move a legal class.
 */
import { add, compare, divide, multiply, parseDecimal, rational, ZERO } from '@ullage/units';
import type { Rational } from '@ullage/units';
import { BLENDS } from './blends.ts';
import { pressureClassOf } from './pressure-class.ts';
import type { PressureClass, PressureClassReason } from './pressure-class.ts';
import { SUBSTANCES } from './substances.ts';

export interface Component {
  readonly name: string;
  /** Nominal mass percent, decimal text. */
  readonly massPercent: string;
}

export interface Refrigerant {
  readonly name: string;
  readonly components: readonly Component[];
  /** Contains a class I or class II ozone-depleting substance. */
  readonly containsOds: boolean;
  /** Contains an HFC regulated under the AIM Act. */
  readonly containsHfc: boolean;
  readonly onlyOds: boolean;
  /** By 40 CFR 84.64: exchange values for HFCs, the table of 84.64(b) for the rest; unlisted parts are left out. */
  readonly gwp: Rational;
  readonly pressureClass: PressureClass;
  readonly pressureClassReason: PressureClassReason;
  readonly compositionSource: string;
}

const number = (text: string): Rational => parseDecimal(text) ?? ZERO;

function componentsOf(name: string): { components: readonly Component[]; source: string } | undefined {
  const blend = BLENDS[name];
  if (blend) return blend;
  return (
    SUBSTANCES[name] && { components: [{ name, massPercent: '100' }], source: 'ANSI/ASHRAE Standard 34 designation' }
  );
}

function build(name: string): Refrigerant | undefined {
  const made = componentsOf(name);
  const pressure = pressureClassOf(name);
  if (!made || !pressure) return undefined;
  const kinds = made.components.map((part) => SUBSTANCES[part.name]?.kind);
  const gwp = made.components.reduce((sum, part) => {
    const own = SUBSTANCES[part.name]?.gwp;
    return own === undefined ? sum : add(sum, multiply(number(part.massPercent), number(own)));
  }, ZERO);
  return {
    name,
    components: made.components,
    containsOds: kinds.includes('ods'),
    containsHfc: kinds.includes('hfc'),
    onlyOds: kinds.every((kind) => kind === 'ods'),
    gwp: divide(gwp, rational(100n)),
    pressureClass: pressure.class,
    pressureClassReason: pressure,
    compositionSource: made.source,
  };
}

/** Every refrigerant the rulebooks know, by its standard number such as `R-410A`, `R-1234ze(E)`. */
export const REFRIGERANTS: Readonly<Record<string, Refrigerant>> = Object.fromEntries(
  [...Object.keys(SUBSTANCES), ...Object.keys(BLENDS)].flatMap((name) => {
    const refrigerant = build(name);
    return refrigerant ? [[name, refrigerant] as const] : [];
  }),
);

/** The refrigerant of a standard number, or undefined when the rulebooks do not know it: then nothing is concluded. */
export const findRefrigerant = (name: string): Refrigerant | undefined =>
  Object.hasOwn(REFRIGERANTS, name) ? REFRIGERANTS[name] : undefined;

/** Whether the rule's GWP test catches it. Strict: equal is not over. */
export const gwpIsOver = (refrigerant: Refrigerant, limit: string): boolean =>
  compare(refrigerant.gwp, number(limit)) > 0;
