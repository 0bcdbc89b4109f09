/** Molar gas constant, J/(mol K), exact (SI brochure, 9th edition). */
export const GAS_CONSTANT = 8.314462618;
/** Molar mass of dry air, g/mol (ISO 2533). */
export const AIR_MOLAR_MASS = 28.9647;
/** Of everything here that is a fit: what made the values fitted to. */
export const PROPERTY_SOURCE = 'Equations of state as in CoolProp 8.0.1dev (HEOS), own fits';
