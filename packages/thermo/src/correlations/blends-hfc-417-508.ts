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
    criticalTemperatureK: 358.577445217,
    criticalPressureKpa: 3897.07951302,
    criticalDensityKgPerM3: 519.235372162,
    lowestK: 213.15,
    highestK: 356.577,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.5],
      coefficients: [-45.7938379227, 114.489277684, -128.118767988, 55.3074713479, -5.94846775309],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 7.0],
      coefficients: [-18.905907013, 67.9856181756, -160.943169531, 180.329425636, -78.7147201099, -2.88345849625],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 1.66],
      coefficients: [31.6548717206, -107.979277778, 111.702404748, -46.2936814527, 13.9170817494],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.93379035307, 2.94140461767, -4.44500578531, -3.86493233642, -5.63815282008],
    },
    latentHeat: {
      exponents: [0.38, 1.2, 1.5, 4.0],
      coefficients: [273440.706959, 268339.061202, -311448.364989, 204866.102829],
    },
    virialB: [4.22558515e-5, -1.29093949e-5, -0.000381172338, -6.80921749e-5, -9.72452443e-6],
    virialC: [-8.81913307e-8, 3.12190464e-7, -2.77528397e-7, 1.02209108e-7, -1.58763337e-8],
  },
  'R-422D': {
    molarMassGPerMol: 109.93512,
    criticalTemperatureK: 351.264504866,
    criticalPressureKpa: 3798.74953101,
    criticalDensityKgPerM3: 530.306543816,
    lowestK: 213.15,
    highestK: 349.265,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.0],
      coefficients: [-48.0882986516, 128.132315318, -156.407232012, 76.1584471327, -9.4473457866],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 7.0],
      coefficients: [-18.4789412719, 66.1443031252, -157.846765263, 178.260562426, -78.4568631549, -3.91861595313],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 1.66],
      coefficients: [32.5646292255, -113.756215263, 119.740247227, -51.3144654845, 15.793428007],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 2.5, 4.5],
      coefficients: [-4.04506105146, 3.06919742616, -4.42093506279, -1.95814358509, -6.17371761084],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 2.5],
      coefficients: [262790.119671, 462046.274228, -1186977.20862, 845236.21219],
    },
    virialB: [8.13913266e-5, -0.000142946601, -0.000247312229, -9.09641887e-5, -4.64124034e-6],
    virialC: [-6.40821664e-8, 2.38512025e-7, -2.04850058e-7, 6.93874533e-8, -1.04434546e-8],
  },
  'R-427A': {
    molarMassGPerMol: 90.444001,
    criticalTemperatureK: 358.644183762,
    criticalPressureKpa: 4412.06836762,
    criticalDensityKgPerM3: 490.140905459,
    lowestK: 213.15,
    highestK: 356.644,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.44230035774, -116.052949299, 333.515514676, -464.042324091, 278.508619922, -50.9829391752],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -38.9107131792, 248.565934699, -832.814388182, 1408.41751932, -1062.28109734, 374.019585249, -109.980427512,
      ],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 2.0],
      coefficients: [34.5548897024, -112.561376696, 108.599454016, -32.3635963761, 4.99264397741],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.66, 3.5, 4.5],
      coefficients: [-11.3286707296, 17.7709442505, -11.325131846, -1.40194650893, -1.6319565639, -4.74682530926],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 1.2, 1.5, 2.5],
      coefficients: [332776.15344, -222959.215658, 932201.589946, -920852.115156, 276028.013629],
    },
    virialB: [4.67606261e-5, -2.56478599e-5, -0.00034686231, -5.2331179e-5, -1.92198932e-5],
    virialC: [3.38506021e-6, -1.07326713e-5, 9.85107933e-6, -2.79781607e-6, 3.33664491e-7],
  },
  'R-438A': {
    molarMassGPerMol: 99.100017,
    criticalTemperatureK: 356.723321637,
    criticalPressureKpa: 4169.23410569,
    criticalDensityKgPerM3: 507.246080704,
    lowestK: 213.15,
    highestK: 354.723,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [7.5863663833, -103.564210504, 299.147983708, -418.626651101, 253.190354343, -47.4745978304],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -36.5546354752, 229.937774387, -771.254570954, 1307.43813476, -989.224877745, 351.078554084, -104.472798665,
      ],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.66, 2.5],
      coefficients: [28.672294934, -79.3569544895, 62.288176309, -12.8100600722, 4.75893918879],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-4.07727819746, 3.17161229347, -4.572215485, -3.62089073203, -6.89464507015],
    },
    latentHeat: {
      exponents: [0.38, 1.2, 1.5, 5.0],
      coefficients: [294590.704687, 235289.754787, -267141.26354, 353977.009411],
    },
    virialB: [5.04855118e-5, -4.25619e-5, -0.000328893097, -6.84297976e-5, -1.24301443e-5],
    virialC: [8.06604269e-7, -2.5034455e-6, 2.26982805e-6, -6.03848684e-7, 6.33520796e-8],
    estimatedPairs: true,
  },
  'R-507A': {
    molarMassGPerMol: 98.859158,
    criticalTemperatureK: 343.765788931,
    criticalPressureKpa: 3704.87878933,
    criticalDensityKgPerM3: 490.762448836,
    lowestK: 213.15,
    highestK: 341.766,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.51824948178, 2.39299905924, -2.13259089879, -4.0960562809],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.85971205759, 1.62542807504, -1.17828412475, -3.91883042507],
    },
    liquidDensity: {
      exponents: [0.36, 1.33, 1.66, 3.0],
      coefficients: [2.19402247654, 2.38063072991, -2.59566344806, 1.47815297108],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.33, 2.5, 3.0],
      coefficients: [-2.48520246626, -1.62141679328, -2.65456228326, 8.19080442333, -11.4070534063],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 3.0],
      coefficients: [279626.943047, 387612.089809, -758710.514423, 555959.790467],
    },
    virialB: [0.000130355578, -0.000262511816, -0.000179518575, -6.3313333e-5, -1.85465464e-5],
    virialC: [7.23401089e-6, -2.30972736e-5, 2.13464535e-5, -6.20881685e-6, 7.71655075e-7],
  },
  'R-508B': {
    molarMassGPerMol: 95.394024,
    criticalTemperatureK: 284.54077635,
    criticalPressureKpa: 3816.46558767,
    criticalDensityKgPerM3: 574.426153497,
    lowestK: 183.15,
    highestK: 282.541,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.41493750645, 2.38916560309, -2.03384667155, -3.31485308146],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.0, 5.0],
      coefficients: [-7.44482928771, 2.55142625956, -2.25820627012, -7.6470879531],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 4.0],
      coefficients: [2.86941446146, -2.10944409693, 1.94744428309, 0.457416439041],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 1.0, 4.5],
      coefficients: [-1.11300121486, -2.17803986078, -2.24833942994, -8.86328179214],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 2.0],
      coefficients: [160496.382865, 157434.661568, -161335.726065, 83220.1001278],
    },
    virialB: [0.000107116476, -0.000168917562, -0.000113335539, -1.32065202e-5, -3.4039532e-6],
    virialC: [-1.31967839e-7, 4.41988298e-7, -4.11333599e-7, 1.35147782e-7, -1.94139646e-8],
  },
};
