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
    criticalPressureKpa: 3384.37369557,
    criticalDensityKgPerM3: 476.693888,
    lowestK: 180.001,
    highestK: 367.519,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.80947541457, 1.62606372814, -1.22237011082, -3.44190604093],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-156.723411492, 259.001045965, -238.359082168, 252.250484756, -175.54649942, 62.288396956],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.66, 2.0, 6.0],
      coefficients: [
        38.8637651661, -82.9333905072, 66.5083031118, -31.5830939353, 16.0207717729, -14.7131115051, -4.61926379292,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.9, 1.2, 1.5],
      coefficients: [-3531412.40091, 7469751.59953, -5380550.06685, 4902061.50214, -5237220.37137, 2084189.95823],
    },
    virialB: [0.000328965087, -0.000880280063, 0.000270043925, -0.00025268324, 1.25601769e-5],
    virialC: [1.57979054e-7, -5.93973699e-7, 6.88479289e-7, -2.2091899e-7, 1.06608568e-8],
  },
  'R-1234ze(E)': {
    molarMassGPerMol: 114.04159,
    criticalTemperatureK: 382.513002605,
    criticalPressureKpa: 3634.87052106,
    criticalDensityKgPerM3: 489.21075732,
    lowestK: 180.001,
    highestK: 382.182,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.84260830436, 1.36284497537, -2.16093475338, -3.29318254228],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 2.5],
      coefficients: [15.1230158069, -19.4752661918, 9.67184364854, -2.87059233409, 0.544863419307],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 3.0, 4.5],
      coefficients: [-10.8017310347, 16.6930790118, -10.5531307124, -1.04936140942, -1.45596611651, -4.70285611347],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 1.2, 5.0],
      coefficients: [1005079.9927, -1471504.84467, 868189.169566, -139157.960506, 236742.922432],
    },
    virialB: [0.000112165202, -0.000284586073, -0.000208147912, -0.000196593426, 1.85877235e-5],
    virialC: [-4.92953782e-8, 8.40982477e-8, 1.1032323e-7, -1.12789271e-7, 1.01601639e-8],
  },
  'R-1233zd(E)': {
    molarMassGPerMol: 130.4962,
    criticalTemperatureK: 438.86,
    criticalPressureKpa: 3582.75288965,
    criticalDensityKgPerM3: 483.357924803,
    lowestK: 180.001,
    highestK: 438.529,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 4.5],
      coefficients: [-7.4252963176, 4.95467142228, -5.10392268903, -3.79247583103],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85, 1.66],
      coefficients: [11.0224517882, -13.5242512881, 6.0922633835, -1.39002929291, 0.651491861782],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 3.5, 4.5],
      coefficients: [-8.74318608323, 13.572108828, -9.47804264097, -1.01680545045, -2.62856110308, -3.04000057981],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.7, 0.9, 4.0],
      coefficients: [580283.761054, -602740.070487, 905269.050147, -630199.982373, 139546.926796],
    },
    virialB: [0.000216977465, -0.000582887591, -0.000261879498, -0.000277289095, 2.00950913e-5],
    virialC: [8.64202433e-8, -4.72538964e-7, 8.20022235e-7, -4.49302878e-7, 3.19850194e-8],
  },
  'R-13I1': {
    molarMassGPerMol: 195.9104,
    criticalTemperatureK: 396.439690446,
    criticalPressureKpa: 3952.54456195,
    criticalDensityKgPerM3: 867.999744417,
    lowestK: 180.001,
    highestK: 396.109,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.0, 4.0],
      coefficients: [-7.23276314872, 1.51051884326, -0.48251067946, -2.2083303227],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.33, 1.66],
      coefficients: [6.59509402266, -42.1250312374, 62.0741999082, -36.4859581348, 12.6896277208],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [
        27.0523243463, -60.6756396768, 54.2141106702, -34.6912530829, 10.6266435917, -2.46902167725, -2.62294131314,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.2, 2.5],
      coefficients: [-1106179.11311, 2493740.74841, -2096809.32171, 1133692.45638, -339961.742024, 63218.0023517],
    },
    virialB: [0.000145607433, -0.000394058213, -0.000122636352, -0.00015919165, 1.58086302e-6],
    virialC: [-4.52936184e-8, 2.01009693e-7, -1.89843781e-7, 5.46444246e-8, -7.9531717e-9],
  },
};
