/** Molar gas constant, J/(mol K), exact (SI brochure, 9th edition). */
export const GAS_CONSTANT = 8.314462618;
/** Molar mass of dry air, g/mol (ISO 2533). */
export const AIR_MOLAR_MASS = 28.9647;
/** Of everything here that is a fit: what made the values fitted to. */
export const PROPERTY_SOURCE = 'Equations of state as in CoolProp 8.0.1dev (HEOS), own fits';
/** Of everything that the cubic equation of state answers. */
export const CUBIC_SOURCE =
  "Peng-Robinson 1976 with Twu's alpha, own fits to mixture models as in CoolProp 8.0.1dev (HEOS)";
