/**
 * Unsaturated fluorinated fluids, and trifluoroiodomethane.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Equations of state:
 *   R-1234yf: Lemmon & Akasaka, Int. J. Thermophys. 2022
 *   R-1234ze(E): Thol & Lemmon, Int. J. Thermophys. 2016
 *   R-1233zd(E): Akasaka & Lemmon, JPCRD 2022
 *   R-13I1: Lemmon & Span, JCED 2015
 * Largest error of the fits against those values: pressure 0.013 %, liquid density 0.032 %, vapour density
 * 0.038 %, latent heat 0.060 %.
 * Vapour density by the virial: 0.004 % at 101 kPa, 0.007 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFOS: Readonly<Record<string, Correlation>> = {
  'R-1234yf': {
    molarMassGPerMol: 114.0416,
    criticalTemperatureK: 367.85,
    criticalPressureKpa: 3384.3737,
    criticalDensityKgPerM3: 476.693888,
    lowestK: 180.001,
    highestK: 367.519,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.80947541, 1.62606373, -1.22237011, -3.44190604],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-156.723411, 259.001046, -238.359082, 252.250485, -175.546499, 62.288397],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.66, 2.0, 6.0],
      coefficients: [38.8637652, -82.9333905, 66.5083031, -31.5830939, 16.0207718, -14.7131115, -4.61926379],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.9, 1.2, 1.5],
      coefficients: [-3531412.4, 7469751.6, -5380550.07, 4902061.5, -5237220.37, 2084189.96],
    },
    virialB: [0.000328965087, -0.000880280063, 0.000270043925, -0.00025268324, 1.25601769e-5],
    virialC: [1.57979054e-7, -5.93973699e-7, 6.88479289e-7, -2.2091899e-7, 1.06608568e-8],
  },
  'R-1234ze(E)': {
    molarMassGPerMol: 114.04159,
    criticalTemperatureK: 382.513003,
    criticalPressureKpa: 3634.87052,
    criticalDensityKgPerM3: 489.210757,
    lowestK: 180.001,
    highestK: 382.182,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.8426083, 1.36284498, -2.16093475, -3.29318254],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 2.5],
      coefficients: [15.1230158, -19.4752662, 9.67184365, -2.87059233, 0.544863419],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 3.0, 4.5],
      coefficients: [-10.801731, 16.693079, -10.5531307, -1.04936141, -1.45596612, -4.70285611],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 1.2, 5.0],
      coefficients: [1005079.99, -1471504.84, 868189.17, -139157.961, 236742.922],
    },
    virialB: [0.000112165202, -0.000284586073, -0.000208147912, -0.000196593426, 1.85877235e-5],
    virialC: [-4.92953782e-8, 8.40982477e-8, 1.1032323e-7, -1.12789271e-7, 1.01601639e-8],
  },
  'R-1233zd(E)': {
    molarMassGPerMol: 130.4962,
    criticalTemperatureK: 438.86,
    criticalPressureKpa: 3582.75289,
    criticalDensityKgPerM3: 483.357925,
    lowestK: 180.001,
    highestK: 438.529,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 4.5],
      coefficients: [-7.42529632, 4.95467142, -5.10392269, -3.79247583],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85, 1.66],
      coefficients: [11.0224518, -13.5242513, 6.09226338, -1.39002929, 0.651491862],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 3.5, 4.5],
      coefficients: [-8.74318608, 13.5721088, -9.47804264, -1.01680545, -2.6285611, -3.04000058],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.7, 0.9, 4.0],
      coefficients: [580283.761, -602740.07, 905269.05, -630199.982, 139546.927],
    },
    virialB: [0.000216977465, -0.000582887591, -0.000261879498, -0.000277289095, 2.00950913e-5],
    virialC: [8.64202433e-8, -4.72538964e-7, 8.20022235e-7, -4.49302878e-7, 3.19850194e-8],
  },
  'R-13I1': {
    molarMassGPerMol: 195.9104,
    criticalTemperatureK: 396.43969,
    criticalPressureKpa: 3952.54456,
    criticalDensityKgPerM3: 867.999744,
    lowestK: 180.001,
    highestK: 396.109,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.0, 4.0],
      coefficients: [-7.23276315, 1.51051884, -0.482510679, -2.20833032],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.33, 1.66],
      coefficients: [6.59509402, -42.1250312, 62.0741999, -36.4859581, 12.6896277],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [27.0523243, -60.6756397, 54.2141107, -34.6912531, 10.6266436, -2.46902168, -2.62294131],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.2, 2.5],
      coefficients: [-1106179.11, 2493740.75, -2096809.32, 1133692.46, -339961.742, 63218.0024],
    },
    virialB: [0.000145607433, -0.000394058213, -0.000122636352, -0.00015919165, 1.58086302e-6],
    virialC: [-4.52936184e-8, 2.01009693e-7, -1.89843781e-7, 5.46444246e-8, -7.9531717e-9],
  },
};
