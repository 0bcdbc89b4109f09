/**
 * Blends of HFCs, some with a little hydrocarbon or PFC, R-417A to R-508B.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Blends: multi-fluid mixture model (Kunz-Wagner, Lemmon) at the nominal composition, in mass percent:
 *   R-417A: R-125/R-134a/R-600 46.6/50/3.4
 *   R-422D: R-125/R-134a/R-600a 65.1/31.5/3.4
 *   R-427A: R-32/R-125/R-143a/R-134a 15/25/10/50
 *   R-438A: R-32/R-125/R-134a/R-600/R-601a 8.5/45/44.2/1.7/0.6 (estimated pairs: R-32/R-601a, R-125/R-601a,
 *     R-134a/R-601a)
 *   R-507A: R-125/R-143a 50/50
 *   R-508B: 46/54
 * Largest error of the fits against those values: bubble pressure 0.016 %, dew pressure 0.029 %, liquid density
 * 0.024 %, vapour density 0.031 %, latent heat 0.063 %.
 * Vapour density by the virial: 0.021 % at 101 kPa, 0.200 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFC_BLENDS_417_TO_508: Readonly<Record<string, Correlation>> = {
  'R-417A': {
    molarMassGPerMol: 106.74593,
    criticalTemperatureK: 358.577445,
    criticalPressureKpa: 3897.07951,
    criticalDensityKgPerM3: 519.235372,
    lowestK: 213.15,
    highestK: 356.577,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.5],
      coefficients: [-45.7938379, 114.489278, -128.118768, 55.3074713, -5.94846775],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 7.0],
      coefficients: [-18.905907, 67.9856182, -160.94317, 180.329426, -78.7147201, -2.8834585],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 1.66],
      coefficients: [31.6548717, -107.979278, 111.702405, -46.2936815, 13.9170817],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.93379035, 2.94140462, -4.44500579, -3.86493234, -5.63815282],
    },
    latentHeat: {
      exponents: [0.38, 1.2, 1.5, 4.0],
      coefficients: [273440.707, 268339.061, -311448.365, 204866.103],
    },
    virialB: [4.22558515e-5, -1.29093949e-5, -0.000381172338, -6.80921749e-5, -9.72452443e-6],
    virialC: [-8.81913307e-8, 3.12190464e-7, -2.77528397e-7, 1.02209108e-7, -1.58763337e-8],
  },
  'R-422D': {
    molarMassGPerMol: 109.93512,
    criticalTemperatureK: 351.264505,
    criticalPressureKpa: 3798.74953,
    criticalDensityKgPerM3: 530.306544,
    lowestK: 213.15,
    highestK: 349.265,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.0],
      coefficients: [-48.0882987, 128.132315, -156.407232, 76.1584471, -9.44734579],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 7.0],
      coefficients: [-18.4789413, 66.1443031, -157.846765, 178.260562, -78.4568632, -3.91861595],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 1.66],
      coefficients: [32.5646292, -113.756215, 119.740247, -51.3144655, 15.793428],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 2.5, 4.5],
      coefficients: [-4.04506105, 3.06919743, -4.42093506, -1.95814359, -6.17371761],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 2.5],
      coefficients: [262790.12, 462046.274, -1186977.21, 845236.212],
    },
    virialB: [8.13913266e-5, -0.000142946601, -0.000247312229, -9.09641887e-5, -4.64124034e-6],
    virialC: [-6.40821664e-8, 2.38512025e-7, -2.04850058e-7, 6.93874533e-8, -1.04434546e-8],
  },
  'R-427A': {
    molarMassGPerMol: 90.444001,
    criticalTemperatureK: 358.644184,
    criticalPressureKpa: 4412.06837,
    criticalDensityKgPerM3: 490.140905,
    lowestK: 213.15,
    highestK: 356.644,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.44230036, -116.052949, 333.515515, -464.042324, 278.50862, -50.9829392],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-38.9107132, 248.565935, -832.814388, 1408.41752, -1062.2811, 374.019585, -109.980428],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 2.0],
      coefficients: [34.5548897, -112.561377, 108.599454, -32.3635964, 4.99264398],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.66, 3.5, 4.5],
      coefficients: [-11.3286707, 17.7709443, -11.3251318, -1.40194651, -1.63195656, -4.74682531],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 1.2, 1.5, 2.5],
      coefficients: [332776.153, -222959.216, 932201.59, -920852.115, 276028.014],
    },
    virialB: [4.67606261e-5, -2.56478599e-5, -0.00034686231, -5.2331179e-5, -1.92198932e-5],
    virialC: [3.38506021e-6, -1.07326713e-5, 9.85107933e-6, -2.79781607e-6, 3.33664491e-7],
  },
  'R-438A': {
    molarMassGPerMol: 99.100017,
    criticalTemperatureK: 356.723322,
    criticalPressureKpa: 4169.23411,
    criticalDensityKgPerM3: 507.246081,
    lowestK: 213.15,
    highestK: 354.723,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [7.58636638, -103.564211, 299.147984, -418.626651, 253.190354, -47.4745978],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-36.5546355, 229.937774, -771.254571, 1307.43813, -989.224878, 351.078554, -104.472799],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.66, 2.5],
      coefficients: [28.6722949, -79.3569545, 62.2881763, -12.8100601, 4.75893919],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-4.0772782, 3.17161229, -4.57221549, -3.62089073, -6.89464507],
    },
    latentHeat: {
      exponents: [0.38, 1.2, 1.5, 5.0],
      coefficients: [294590.705, 235289.755, -267141.264, 353977.009],
    },
    virialB: [5.04855118e-5, -4.25619e-5, -0.000328893097, -6.84297976e-5, -1.24301443e-5],
    virialC: [8.06604269e-7, -2.5034455e-6, 2.26982805e-6, -6.03848684e-7, 6.33520796e-8],
    estimatedPairs: true,
  },
  'R-507A': {
    molarMassGPerMol: 98.859158,
    criticalTemperatureK: 343.765789,
    criticalPressureKpa: 3704.87879,
    criticalDensityKgPerM3: 490.762449,
    lowestK: 213.15,
    highestK: 341.766,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.51824948, 2.39299906, -2.1325909, -4.09605628],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.85971206, 1.62542808, -1.17828412, -3.91883043],
    },
    liquidDensity: {
      exponents: [0.36, 1.33, 1.66, 3.0],
      coefficients: [2.19402248, 2.38063073, -2.59566345, 1.47815297],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.33, 2.5, 3.0],
      coefficients: [-2.48520247, -1.62141679, -2.65456228, 8.19080442, -11.4070534],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 3.0],
      coefficients: [279626.943, 387612.09, -758710.514, 555959.79],
    },
    virialB: [0.000130355578, -0.000262511816, -0.000179518575, -6.3313333e-5, -1.85465464e-5],
    virialC: [7.23401089e-6, -2.30972736e-5, 2.13464535e-5, -6.20881685e-6, 7.71655075e-7],
  },
  'R-508B': {
    molarMassGPerMol: 95.394024,
    criticalTemperatureK: 284.540776,
    criticalPressureKpa: 3816.46559,
    criticalDensityKgPerM3: 574.426153,
    lowestK: 183.15,
    highestK: 282.541,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.41493751, 2.3891656, -2.03384667, -3.31485308],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.0, 5.0],
      coefficients: [-7.44482929, 2.55142626, -2.25820627, -7.64708795],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 4.0],
      coefficients: [2.86941446, -2.1094441, 1.94744428, 0.457416439],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 1.0, 4.5],
      coefficients: [-1.11300121, -2.17803986, -2.24833943, -8.86328179],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 2.0],
      coefficients: [160496.383, 157434.662, -161335.726, 83220.1001],
    },
    virialB: [0.000107116476, -0.000168917562, -0.000113335539, -1.32065202e-5, -3.4039532e-6],
    virialC: [-1.31967839e-7, 4.41988298e-7, -4.11333599e-7, 1.35147782e-7, -1.94139646e-8],
  },
};
