/** How far a cylinder may be filled, and with what service pressure: the published rules as data. */

/**
 * Named gases with a filling density of their own, percent of the water capacity by weight: 49 CFR 173.304a(a)(2), note 1.
 * Carbon dioxide has four by service pressure (68, 70.3, 73.2, 74.5): the least is used for all.
 */
export const FILLING_DENSITY_PERCENT: Readonly<Record<string, number>> = {
  'R-12': 119,
  'R-22': 105,
  'R-115': 110,
  'R-13': 100,
  'R-142b': 100,
  'R-152a': 79,
  'R-717': 54,
  'R-744': 68,
};

/**
 * Least service pressure (psig) that a gas's own row names instead of the 5/4 rule. R-22: its row lists the 240 series
 * (49 CFR 173.304a(a)(2)). Carbon dioxide: the first row's cylinders are the 1800 series (from memory).
 */
export const NAMED_SERVICE_PSIG: Readonly<Record<string, number>> = { 'R-22': 240, 'R-744': 1800 };

/** AHRI Guideline K: net at most 0.80 of the water capacity times the specific gravity of the liquid at 77 °F. */
export const GUIDELINE_K_PART = 0.8;
/** Its scope ends at 500 psig of service pressure (ton tanks; cylinders 400). */
export const GUIDELINE_K_HIGHEST_PSIG = 500;
export const GUIDELINE_K_TEMPERATURE_K = 298.15;

/** 131 °F. The law's row for most HFCs says 130 °F, its pressure rule 131 °F: the higher is on the safe side of both. */
export const HOT_CYLINDER_K = 328.15;
/** Pressure at 131 °F at most 5/4 of the service pressure: 49 CFR 173.304a(c). */
export const HOT_PRESSURE_RATIO = 1.25;

/** A pound of water fills 27.737 cubic inches: 49 CFR 173.304a(a)(2), note 1. An inch is 25.4 mm. */
export const LITRES_PER_KG_OF_WATER_CAPACITY = (27.737 * 0.0254 ** 3 * 1000) / 0.45359237;

/** Other refrigerants and volatile impurities, percent by mass: AHRI 700; 40 CFR 82 subpart F appendix A, 5.11.2. */
export const FOREIGN_MASS_LIMIT_PERCENT = 0.5;

export const CLAUSE = {
  guidelineK: 'AHRI Guideline K',
  fillingDensity: '49 CFR 173.304a(a)(2)',
  servicePressure: '49 CFR 173.304a(c)',
  disposable: '49 U.S.C. 5124',
  dueDate: '49 CFR 180.205(c)',
  damage: '49 CFR 180.205(d)',
  overPressure: '49 CFR 180.205(i)',
  period: '49 CFR 180.209(a)',
  longPeriod: '49 CFR 180.209(e)',
  visual: '49 CFR 180.209(g)',
  purity: 'AHRI 700; 40 CFR 82 subpart F appendix A',
} as const;
