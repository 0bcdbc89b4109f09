/**
 * Chlorinated fluids.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Equations of state:
 *   Marx, Pruss & Wagner 1992 (VDI)
 *   Kamei, Beyerlein & Jacobsen, Int. J. Thermophys. 1995
 *   Lemmon & Span, J. Chem. Eng. Data (JCED) 2015
 *   Younglove & McLinden, JPCRD 1994
 *   de Vries, Tillner-Roth & Baehr, Int. Congr. Refrig. 1995
 *   R-142b: Lemmon & Span, JCED 2006
 * Largest error of the fits against those values: pressure 0.013 %, liquid density 0.039 %, vapour density
 * 0.032 %, latent heat 0.072 %.
 * Vapour density by the virial: 0.051 % at 101 kPa, 0.059 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const CFCS_AND_HCFCS: Readonly<Record<string, Correlation>> = {
  'R-12': {
    molarMassGPerMol: 120.913,
    criticalTemperatureK: 385.12,
    criticalPressureKpa: 4136.16563,
    criticalDensityKgPerM3: 565.000001,
    lowestK: 180.001,
    highestK: 384.789,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.32106798, 1.57952369, -0.874403743, -2.7797196],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-98.8929708, 165.999539, -159.611612, 176.543648, -128.019333, 46.7371701],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 3.0, 4.5],
      coefficients: [5.85141433, -14.445002, 10.2304104, -6.61398334, -1.04819108, -3.49053012],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1770888.16, 4222731.93, -4133284.24, 3285051.06, -1419523.37, 86009.015],
    },
    virialB: [0.000154768048, -0.000380455805, -0.000156135538, -7.10774848e-5, -7.81211447e-7],
    virialC: [-3.73197484e-9, 2.80531966e-8, 4.7734014e-9, 3.77401354e-9, -5.42050481e-10],
  },
  'R-22': {
    molarMassGPerMol: 86.468,
    criticalTemperatureK: 369.295,
    criticalPressureKpa: 4990,
    criticalDensityKgPerM3: 523.842167,
    lowestK: 180.001,
    highestK: 368.964,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.11421275, 2.0706282, -1.76963269, -3.25668162],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 2.0],
      coefficients: [3.3542349, -2.66571682, 1.79267505, 0.327268584],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.0, 1.66, 2.0, 6.0],
      coefficients: [-3.04725402, 3.02878771, -9.4016729, 14.6228077, -12.4161154, -4.19405027],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1115074.36, 3080552.12, -3322186.14, 3026036.48, -1387779.64, 92684.5881],
    },
    virialB: [-7.78854432e-5, 0.000329579453, -0.000638422254, 5.39206608e-5, -1.54804349e-5],
    virialC: [8.27748374e-6, -2.59312554e-5, 2.34264122e-5, -6.45525781e-6, 6.99789747e-7],
  },
  'R-115': {
    molarMassGPerMol: 154.46642,
    criticalTemperatureK: 353.101978,
    criticalPressureKpa: 3129.17085,
    criticalDensityKgPerM3: 614.771464,
    lowestK: 180.001,
    highestK: 352.771,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 5.0],
      coefficients: [-8.07112938, 2.3164545, -1.99316834, -2.86396495],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.66, 2.0],
      coefficients: [9.76221296, -14.4788862, 11.68077, -11.0384192, 6.94229368],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.33, 4.5],
      coefficients: [28.484454, -65.4815188, 62.8171888, -47.5340683, 26.4641732, -10.9368615, -4.42908851],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1495135.02, 3462099.8, -3178350.39, 2289367.99, -922265.395, 49834.2936],
    },
    virialB: [0.000214860845, -0.000530647274, -1.90563103e-5, -0.000111789338, 8.01949953e-6],
    virialC: [-6.20338401e-6, 2.0185877e-5, -1.8986957e-5, 5.84416351e-6, -8.51235584e-7],
  },
  'R-123': {
    molarMassGPerMol: 152.931,
    criticalTemperatureK: 456.830026,
    criticalPressureKpa: 3661.80527,
    criticalDensityKgPerM3: 550.012895,
    lowestK: 180.001,
    highestK: 456.499,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.0, 7.0],
      coefficients: [-7.77838692, 1.54757228, -0.998190909, -3.31939438, -0.698320988],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 1.0, 1.33],
      coefficients: [-43.996976, 72.0542071, -53.4698423, 37.5696499, -14.1735207, 4.88394775],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.33, 2.5, 4.5],
      coefficients: [17.3095697, -39.4451031, 32.387471, -17.3810351, 2.64736762, -2.70741872, -3.93718627],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.2, 3.0],
      coefficients: [-1588128.8, 3670014.92, -3091310.81, 1620327.7, -429844.499, 138136.934],
    },
    virialB: [0.000272840535, -0.000815242649, -1.63769071e-5, -0.000479631139, 9.63792219e-6],
    virialC: [1.06094303e-7, -7.14733022e-7, 1.1785658e-6, -5.48173111e-7, -3.60462505e-9],
  },
  'R-124': {
    molarMassGPerMol: 136.4762,
    criticalTemperatureK: 395.427961,
    criticalPressureKpa: 3624.48251,
    criticalDensityKgPerM3: 559.293169,
    lowestK: 180.001,
    highestK: 395.097,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.53287222, 3.40248608, -2.8297498, -3.85442726],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [13.0704572, -32.2710113, 45.4398172, -25.4934123, 2.11336701],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 4.5],
      coefficients: [-10.183354, 20.0190477, -34.7063784, 34.0558482, -16.0423285, -4.37061681],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1462467.58, 3542118.68, -3449755.49, 2755830.09, -1181784.55, 88628.6717],
    },
    virialB: [0.000234178724, -0.00062292565, 3.65362683e-6, -0.00023133949, 1.1196342e-6],
    virialC: [-3.54264258e-6, 1.10103708e-5, -9.77551076e-6, 2.6302795e-6, -2.78158708e-7],
  },
  'R-142b': {
    molarMassGPerMol: 100.49503,
    criticalTemperatureK: 410.260233,
    criticalPressureKpa: 4054.78342,
    criticalDensityKgPerM3: 446.003795,
    lowestK: 180.001,
    highestK: 409.929,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.35283812, 2.79396515, -2.50198336, -3.12923659],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 2.5],
      coefficients: [-47.9569486, 78.6460304, -59.1633296, 44.5513406, -13.7839737, 0.669306069],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [16.1175819, -37.48898, 33.2041259, -22.3687657, 6.49619395, -2.22197087, -4.0365864],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2817973.14, 6605343.16, -6328142.26, 4749741.64, -1947036.75, 115977.52],
    },
    virialB: [0.000189980223, -0.0005418722, -5.58841047e-5, -0.000177478881, -1.65571268e-5],
    virialC: [-2.59960701e-5, 8.44936587e-5, -7.95801986e-5, 2.45862536e-5, -3.57594442e-6],
  },
};
