/** What a leak of nitrogen would let out of another gas. */
import { correlationOf } from '../correlations/index.ts';
import { NITROGEN_MOLAR_MASS } from '../nitrogen.ts';
import { gasViscosity, NITROGEN_VISCOSITY } from './viscosity.ts';

/** How the gas gets through: by collisions with the wall, creeping through a fine long path, or as a jet. */
export type LeakRegime = 'molecular' | 'laminar' | 'orifice';

/** Pa m3/s between which a leak is likely a fine capillary: from memory of leak-testing practice. */
const MOLECULAR_BELOW = 1e-7;
const ORIFICE_ABOVE = 1e-4;
/** Choked flow of a refrigerant (heat capacity ratio near 1.13) over that of nitrogen (1.4), molar mass left out. */
const ORIFICE_COEFFICIENT = 0.93;

export function regimeOf(paM3PerS: number): LeakRegime {
  if (paM3PerS < MOLECULAR_BELOW) return 'molecular';
  return paM3PerS > ORIFICE_ABOVE ? 'orifice' : 'laminar';
}

/** Absolute kPa inside with nitrogen, inside with the refrigerant, and outside. */
export interface LeakPressures {
  readonly nitrogenKpa: number;
  readonly refrigerantKpa: number;
  readonly outsideKpa: number;
}

/**
 * Mass flow of a refrigerant over that of nitrogen through the same leak; 0 where the refrigerant stands no higher than the
 * outside. Laminar `(M/mu) (p^2 - pa^2)`, molecular `sqrt(M) (p - pa)`, orifice `sqrt(M) p`. Undefined for a gas not known,
 * or a test that stood no higher than the outside.
 */
export function massRatio(refrigerant: string, regime: LeakRegime, pressures: LeakPressures): number | undefined {
  const of = correlationOf(refrigerant);
  const { nitrogenKpa: pn, refrigerantKpa: pr, outsideKpa: pa } = pressures;
  if (!of || !(pn > pa)) return undefined;
  if (pr <= pa) return 0;
  const masses = of.molarMassGPerMol / NITROGEN_MOLAR_MASS;
  switch (regime) {
    case 'laminar':
      return masses * (NITROGEN_VISCOSITY / gasViscosity(refrigerant)) * ((pr ** 2 - pa ** 2) / (pn ** 2 - pa ** 2));
    case 'molecular':
      return Math.sqrt(masses) * ((pr - pa) / (pn - pa));
    case 'orifice':
      return ORIFICE_COEFFICIENT * Math.sqrt(masses) * (pr / pn);
  }
}
