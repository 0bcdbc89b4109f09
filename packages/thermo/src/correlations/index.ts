import { HFC_BLENDS_404_TO_410 } from './blends-hfc-404-410.ts';
import { HFC_BLENDS_417_TO_508 } from './blends-hfc-417-508.ts';
import { HFO_BLENDS_448_TO_454 } from './blends-hfo-448-454.ts';
import { HFO_BLENDS_455_TO_516 } from './blends-hfo-455-516.ts';
import { BLENDS_WITH_CHLORINE } from './blends-with-chlorine.ts';
import { CFCS_AND_HCFCS } from './cfc-hcfc.ts';
import { HFCS } from './hfc.ts';
import { HFOS } from './hfo.ts';
import { NATURAL_FLUIDS } from './natural.ts';
import type { Correlation } from './types.ts';

const ALL: ReadonlyMap<string, Correlation> = new Map(
  [
    CFCS_AND_HCFCS,
    HFCS,
    HFOS,
    NATURAL_FLUIDS,
    BLENDS_WITH_CHLORINE,
    HFC_BLENDS_404_TO_410,
    HFC_BLENDS_417_TO_508,
    HFO_BLENDS_448_TO_454,
    HFO_BLENDS_455_TO_516,
  ].flatMap((family) => Object.entries(family)),
);

/** Standard numbers (ASHRAE 34) of every refrigerant this room knows. */
export const REFRIGERANTS: readonly string[] = [...ALL.keys()];

/** The correlation of a refrigerant by its standard number such as `R-410A`, or undefined. */
export const correlationOf = (refrigerant: string): Correlation | undefined => ALL.get(refrigerant);
