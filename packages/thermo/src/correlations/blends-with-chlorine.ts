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
    criticalTemperatureK: 381.417576448,
    criticalPressureKpa: 4673.13725063,
    criticalDensityKgPerM3: 496.361024567,
    lowestK: 213.15,
    highestK: 379.418,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [5.72708047444, -88.7109040544, 257.0269307, -360.401629346, 218.502214052, -41.1051860259],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -30.1979403327, 182.144366691, -611.684071131, 1039.4053437, -788.108362682, 280.990010801, -84.09066851,
      ],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85],
      coefficients: [-16.0766449829, 24.3228011318, -7.50227106886, 2.11234491912],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-2.02882148592, 1.27017713334, -4.4335043354, -1.43301166432, -4.89020185102],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 2.0, 3.0],
      coefficients: [306863.63672, 79767.2446118, -192812.216289, 178210.60914],
    },
    virialB: [-0.000243105245, 0.000845783197, -0.00116118593, 0.000155425732, -3.16214052e-5],
    virialC: [1.48421846e-5, -4.64752492e-5, 4.19797489e-5, -1.15871876e-5, 1.27223939e-6],
    estimatedPairs: true,
  },
  'R-402A': {
    molarMassGPerMol: 101.55008,
    criticalTemperatureK: 352.005676043,
    criticalPressureKpa: 4212.84660542,
    criticalDensityKgPerM3: 549.08004962,
    lowestK: 213.15,
    highestK: 350.006,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 6.0],
      coefficients: [-5.16486359204, -10.1711896201, 19.967791733, -12.0667553367, -3.35343717685],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 2.0, 2.5],
      coefficients: [-11.1644692886, 18.5540514761, -25.4471070314, 23.0283812247, -14.457353403],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 1.0],
      coefficients: [-3.17120531144, 5.68446278569, -1.78548812479, 1.94147103095],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 3.5],
      coefficients: [-2.66717449123, 2.71830506814, -5.36786616025, -4.34991663183],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 5.0],
      coefficients: [191812.12057, 165302.644057, -104575.181756, 153951.529816],
    },
    virialB: [8.23234127e-5, -0.000160140925, -0.000202068985, -7.25139958e-5, -1.61756307e-6],
    virialC: [1.83408521e-6, -5.72917758e-6, 5.18666052e-6, -1.42248263e-6, 1.49857647e-7],
    estimatedPairs: true,
  },
  'R-408A': {
    molarMassGPerMol: 87.014897,
    criticalTemperatureK: 356.789245336,
    criticalPressureKpa: 4297.05854008,
    criticalDensityKgPerM3: 485.908641829,
    lowestK: 213.15,
    highestK: 354.789,
    bubblePressure: {
      exponents: [1.0, 1.5, 3.0, 7.0],
      coefficients: [-7.13122488058, 1.27063787704, -2.55563714559, -4.26972483074],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 4.0],
      coefficients: [-7.98177693526, 2.92387078347, -1.44086170463, -3.53108332933],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 1.0, 3.0],
      coefficients: [-0.868503014174, 3.04339348488, 0.465771426016, 0.215609051517],
    },
    vapourDensity: {
      exponents: [0.33, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-2.34556058203, 1.81395062382, -4.636625067, -1.04115774403, -4.46795811511],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 2.5],
      coefficients: [223507.963592, 179655.198706, -337786.115042, 292049.247574],
    },
    virialB: [7.38209201e-5, -0.000103405953, -0.000306036981, -2.33273512e-5, -1.99495234e-5],
    virialC: [1.07052136e-5, -3.40609421e-5, 3.13219553e-5, -9.01798112e-6, 1.09120524e-6],
    estimatedPairs: true,
  },
  'R-409A': {
    molarMassGPerMol: 97.433451,
    criticalTemperatureK: 383.468066922,
    criticalPressureKpa: 4788.78865824,
    criticalDensityKgPerM3: 510.110513761,
    lowestK: 213.15,
    highestK: 381.468,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.48542469042, -109.048346828, 304.74051998, -415.971283208, 246.548988735, -44.611067208],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -44.0971289835, 291.402653366, -970.493779193, 1626.22224459, -1213.03195752, 416.072716335, -118.090487595,
      ],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66],
      coefficients: [-38.6163877289, 57.1093504356, -25.0253116891, 9.35078139685],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.66, 2.0, 4.5],
      coefficients: [-10.3756489644, 16.2870333065, -10.5997685594, -0.622632566795, -0.933310719555, -5.64031941022],
    },
    latentHeat: {
      exponents: [0.38, 0.5, 2.0, 5.0],
      coefficients: [243110.417199, 96163.309888, -73685.773689, 222755.159793],
    },
    virialB: [-0.000359135771, 0.00120786884, -0.00149103916, 0.000260994717, -4.2588941e-5],
    virialC: [1.80290297e-5, -5.63181116e-5, 5.07191292e-5, -1.39047359e-5, 1.49471732e-6],
    estimatedPairs: true,
  },
  'R-500': {
    molarMassGPerMol: 99.302954,
    criticalTemperatureK: 374.633165415,
    criticalPressureKpa: 4157.85360237,
    criticalDensityKgPerM3: 495.454389084,
    lowestK: 213.15,
    highestK: 372.633,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.18772812437, 2.34937398926, -1.95528982883, -2.71255937119],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 6.0],
      coefficients: [-7.64095622627, 1.85001787564, -1.47243648244, -8.08862582302],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 2.0, 2.5],
      coefficients: [1.771963042, 1.09869215788, -1.41829643271, 1.55017727786],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 4.5],
      coefficients: [-2.28676487173, -0.676154277549, -2.43760992935, -6.32713202186],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 3.0],
      coefficients: [200311.283017, 171953.428096, -132824.121883, 76604.9703816],
    },
    virialB: [0.000173365828, -0.000440523669, -4.93787514e-5, -0.000132884425, 1.34619905e-6],
    virialC: [7.71675728e-9, -4.52851686e-8, 9.67365877e-8, -1.24707033e-8, -6.10766245e-10],
  },
  'R-502': {
    molarMassGPerMol: 111.62779,
    criticalTemperatureK: 355.427135142,
    criticalPressureKpa: 4053.37775363,
    criticalDensityKgPerM3: 577.286258662,
    lowestK: 213.15,
    highestK: 353.427,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.3052098, 2.62282843983, -2.28029170937, -2.86066640924],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 3.0, 7.0],
      coefficients: [-7.607732229, 1.63835789541, -2.48033139578, -5.81493632946],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 1.33],
      coefficients: [-0.456192617748, 2.51845079673, 0.137734858162, 0.434155991682],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 3.5],
      coefficients: [-4.46995054243, 4.7828821107, -5.4428533974, -4.20019193592],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 4.0],
      coefficients: [177164.405426, 136112.83704, -91803.8617365, 72977.5737907],
    },
    virialB: [6.10583592e-5, -7.77371972e-5, -0.000318145898, -2.56423035e-5, -4.68113106e-6],
    virialC: [2.46094771e-6, -7.52711003e-6, 6.61687502e-6, -1.66163571e-6, 1.22731853e-7],
  },
};
