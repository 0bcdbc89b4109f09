/**
 * Blends that hold a CFC or HCFC.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Blends: multi-fluid mixture model (Kunz-Wagner, Lemmon) at the nominal composition, in mass percent:
 *   R-401A: R-22/R-152a/R-124 53/13/34 (estimated pairs, R-152a/R-124)
 *   R-402A: 60/2/38 (estimated pairs)
 *   R-408A: R-125/R-143a/R-22 7/46/47 (estimated pairs)
 *   R-409A: R-22/R-124/R-142b 60/25/15 (estimated pairs)
 *   R-12/R-152a 73.8/26.2
 *   R-502: R-22/R-115 48.8/51.2
 * Largest error of the fits against those values: bubble pressure 0.018 %, dew pressure 0.020 %, liquid density
 * 0.019 %, vapour density 0.028 %, latent heat 0.078 %.
 * Vapour density by the virial: 0.013 % at 101 kPa, 0.063 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const BLENDS_WITH_CHLORINE: Readonly<Record<string, Correlation>> = {
  'R-401A': {
    molarMassGPerMol: 94.438622,
    criticalTemperatureK: 381.417576,
    criticalPressureKpa: 4673.13725,
    criticalDensityKgPerM3: 496.361025,
    lowestK: 213.15,
    highestK: 379.418,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [5.72708047, -88.7109041, 257.026931, -360.401629, 218.502214, -41.105186],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-30.1979403, 182.144367, -611.684071, 1039.40534, -788.108363, 280.990011, -84.0906685],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85],
      coefficients: [-16.076645, 24.3228011, -7.50227107, 2.11234492],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-2.02882149, 1.27017713, -4.43350434, -1.43301166, -4.89020185],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 2.0, 3.0],
      coefficients: [306863.637, 79767.2446, -192812.216, 178210.609],
    },
    virialB: [-0.000243105245, 0.000845783197, -0.00116118593, 0.000155425732, -3.16214052e-5],
    virialC: [1.48421846e-5, -4.64752492e-5, 4.19797489e-5, -1.15871876e-5, 1.27223939e-6],
    estimatedPairs: true,
  },
  'R-402A': {
    molarMassGPerMol: 101.55008,
    criticalTemperatureK: 352.005676,
    criticalPressureKpa: 4212.84661,
    criticalDensityKgPerM3: 549.08005,
    lowestK: 213.15,
    highestK: 350.006,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 6.0],
      coefficients: [-5.16486359, -10.1711896, 19.9677917, -12.0667553, -3.35343718],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 2.0, 2.5],
      coefficients: [-11.1644693, 18.5540515, -25.447107, 23.0283812, -14.4573534],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 1.0],
      coefficients: [-3.17120531, 5.68446279, -1.78548812, 1.94147103],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 3.5],
      coefficients: [-2.66717449, 2.71830507, -5.36786616, -4.34991663],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 5.0],
      coefficients: [191812.121, 165302.644, -104575.182, 153951.53],
    },
    virialB: [8.23234127e-5, -0.000160140925, -0.000202068985, -7.25139958e-5, -1.61756307e-6],
    virialC: [1.83408521e-6, -5.72917758e-6, 5.18666052e-6, -1.42248263e-6, 1.49857647e-7],
    estimatedPairs: true,
  },
  'R-408A': {
    molarMassGPerMol: 87.014897,
    criticalTemperatureK: 356.789245,
    criticalPressureKpa: 4297.05854,
    criticalDensityKgPerM3: 485.908642,
    lowestK: 213.15,
    highestK: 354.789,
    bubblePressure: {
      exponents: [1.0, 1.5, 3.0, 7.0],
      coefficients: [-7.13122488, 1.27063788, -2.55563715, -4.26972483],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 4.0],
      coefficients: [-7.98177694, 2.92387078, -1.4408617, -3.53108333],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 1.0, 3.0],
      coefficients: [-0.868503014, 3.04339348, 0.465771426, 0.215609052],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-2.34556058, 1.81395062, -4.63662507, -1.04115774, -4.46795812],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 2.5],
      coefficients: [223507.964, 179655.199, -337786.115, 292049.248],
    },
    virialB: [7.38209201e-5, -0.000103405953, -0.000306036981, -2.33273512e-5, -1.99495234e-5],
    virialC: [1.07052136e-5, -3.40609421e-5, 3.13219553e-5, -9.01798112e-6, 1.09120524e-6],
    estimatedPairs: true,
  },
  'R-409A': {
    molarMassGPerMol: 97.433451,
    criticalTemperatureK: 383.468067,
    criticalPressureKpa: 4788.78866,
    criticalDensityKgPerM3: 510.110514,
    lowestK: 213.15,
    highestK: 381.468,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.48542469, -109.048347, 304.74052, -415.971283, 246.548989, -44.6110672],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-44.097129, 291.402653, -970.493779, 1626.22224, -1213.03196, 416.072716, -118.090488],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66],
      coefficients: [-38.6163877, 57.1093504, -25.0253117, 9.3507814],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.66, 2.0, 4.5],
      coefficients: [-10.375649, 16.2870333, -10.5997686, -0.622632567, -0.93331072, -5.64031941],
    },
    latentHeat: {
      exponents: [0.38, 0.5, 2.0, 5.0],
      coefficients: [243110.417, 96163.3099, -73685.7737, 222755.16],
    },
    virialB: [-0.000359135771, 0.00120786884, -0.00149103916, 0.000260994717, -4.2588941e-5],
    virialC: [1.80290297e-5, -5.63181116e-5, 5.07191292e-5, -1.39047359e-5, 1.49471732e-6],
    estimatedPairs: true,
  },
  'R-500': {
    molarMassGPerMol: 99.302954,
    criticalTemperatureK: 374.633165,
    criticalPressureKpa: 4157.8536,
    criticalDensityKgPerM3: 495.454389,
    lowestK: 213.15,
    highestK: 372.633,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.18772812, 2.34937399, -1.95528983, -2.71255937],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 6.0],
      coefficients: [-7.64095623, 1.85001788, -1.47243648, -8.08862582],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 2.0, 2.5],
      coefficients: [1.77196304, 1.09869216, -1.41829643, 1.55017728],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 4.5],
      coefficients: [-2.28676487, -0.676154278, -2.43760993, -6.32713202],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 3.0],
      coefficients: [200311.283, 171953.428, -132824.122, 76604.9704],
    },
    virialB: [0.000173365828, -0.000440523669, -4.93787514e-5, -0.000132884425, 1.34619905e-6],
    virialC: [7.71675728e-9, -4.52851686e-8, 9.67365877e-8, -1.24707033e-8, -6.10766245e-10],
  },
  'R-502': {
    molarMassGPerMol: 111.62779,
    criticalTemperatureK: 355.427135,
    criticalPressureKpa: 4053.37775,
    criticalDensityKgPerM3: 577.286259,
    lowestK: 213.15,
    highestK: 353.427,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.3052098, 2.62282844, -2.28029171, -2.86066641],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 3.0, 7.0],
      coefficients: [-7.60773223, 1.6383579, -2.4803314, -5.81493633],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 1.33],
      coefficients: [-0.456192618, 2.5184508, 0.137734858, 0.434155992],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 3.5],
      coefficients: [-4.46995054, 4.78288211, -5.4428534, -4.20019194],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 4.0],
      coefficients: [177164.405, 136112.837, -91803.8617, 72977.5738],
    },
    virialB: [6.10583592e-5, -7.77371972e-5, -0.000318145898, -2.56423035e-5, -4.68113106e-6],
    virialC: [2.46094771e-6, -7.52711003e-6, 6.61687502e-6, -1.66163571e-6, 1.22731853e-7],
  },
};
