/**
 * Blends with an HFO, R-448A to R-454C.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Blends: multi-fluid mixture model (Kunz-Wagner, Lemmon) at the nominal composition, in mass percent:
 *   R-448A: R-32/R-125/R-1234yf/R-134a/R-1234ze(E) 26/26/20/21/7
 *   R-449A: R-32/R-125/R-1234yf/R-134a 24.3/24.7/25.3/25.7
 *   R-450A: R-134a/R-1234ze(E) 42/58
 *   R-452A: R-32/R-125/R-1234yf 11/59/30
 *   R-452B: R-32/R-125/R-1234yf 67/7/26
 *   R-454A: R-32/R-1234yf 35/65
 *   R-454B: R-32/R-1234yf 68.9/31.1
 *   R-454C: R-32/R-1234yf 21.5/78.5
 * Largest error of the fits against those values: bubble pressure 0.022 %, dew pressure 0.032 %, liquid density
 * 0.014 %, vapour density 0.024 %, latent heat 0.072 %.
 * Vapour density by the virial: 0.013 % at 101 kPa, 0.046 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFO_BLENDS_448_TO_454: Readonly<Record<string, Correlation>> = {
  'R-448A': {
    molarMassGPerMol: 86.283446,
    criticalTemperatureK: 355.940903,
    criticalPressureKpa: 4605.18093,
    criticalDensityKgPerM3: 483.336378,
    lowestK: 213.15,
    highestK: 353.941,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [11.2871855, -127.009557, 362.41782, -502.136825, 300.143925, -54.3964101],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-43.6755688, 283.548438, -942.087166, 1581.7712, -1185.60128, 412.929655, -119.743794],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 2.5],
      coefficients: [-77.6666317, 120.358258, -77.0826005, 51.6267792, -14.7943842, 0.732962995],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.58523017, 2.53258007, -4.34567954, -3.40677405, -5.66751302],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 2.0, 3.0],
      coefficients: [324943.656, 88053.9369, -220986.067, 233810.697],
    },
    virialB: [0.000121542726, -0.000261922201, -0.000116605015, -0.000100184598, -1.10864717e-5],
    virialC: [1.39474505e-6, -4.38127506e-6, 3.9902767e-6, -1.09050061e-6, 1.17711007e-7],
  },
  'R-449A': {
    molarMassGPerMol: 87.212899,
    criticalTemperatureK: 355.635301,
    criticalPressureKpa: 4516.51774,
    criticalDensityKgPerM3: 468.248683,
    lowestK: 213.15,
    highestK: 353.635,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [13.6686778, -144.968664, 415.579451, -576.804676, 344.2723, -61.6168962],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-38.97336, 246.68462, -820.576096, 1381.84993, -1039.66738, 365.633878, -107.606178],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-209.13221, 337.407558, -283.879765, 278.168517, -181.827627, 62.4355315],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 2.5, 4.5],
      coefficients: [-2.99610226, 1.90448686, -4.25866737, -1.62459876, -5.41863928],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 2.5],
      coefficients: [1333960.71, -3166727.82, 3602648.66, -1604226.43, 234823.592],
    },
    virialB: [0.000117107801, -0.000248136549, -0.000133427111, -9.62621709e-5, -1.18619256e-5],
    virialC: [1.42983345e-6, -4.48870618e-6, 4.08482443e-6, -1.11321273e-6, 1.19808069e-7],
  },
  'R-450A': {
    molarMassGPerMol: 108.66944,
    criticalTemperatureK: 378.529247,
    criticalPressureKpa: 3897.10315,
    criticalDensityKgPerM3: 500.10008,
    lowestK: 213.15,
    highestK: 376.529,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 2.0, 5.0],
      coefficients: [-6.5473811, -4.30356674, 7.62406775, -4.75246225, -4.05155233],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 4.0],
      coefficients: [-8.72991737, 4.2315364, -2.48204727, -4.13985277],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 3.0],
      coefficients: [-0.897290637, 3.13294444, 0.369876132, 0.446227102],
    },
    vapourDensity: {
      exponents: [0.38, 1.0, 1.66, 2.0, 4.5],
      coefficients: [-2.63430401, -4.41625187, 5.50206511, -5.27634642, -5.02642653],
    },
    latentHeat: {
      exponents: [0.38, 1.2, 2.0, 2.5],
      coefficients: [283934.585, 188890.87, -623357.096, 521813.08],
    },
    virialB: [-8.54129808e-7, 0.000106959735, -0.00054438682, -6.95121734e-5, -5.30262433e-6],
    virialC: [-1.58631411e-7, 4.87715331e-7, -3.65150422e-7, 9.73261031e-8, -1.97875193e-8],
  },
  'R-452A': {
    molarMassGPerMol: 103.51091,
    criticalTemperatureK: 348.248967,
    criticalPressureKpa: 3983.77665,
    criticalDensityKgPerM3: 477.127049,
    lowestK: 213.15,
    highestK: 346.249,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [15.2438202, -159.489447, 463.713004, -650.457208, 391.133194, -70.6249554],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0],
      coefficients: [-21.0361633, 78.2111146, -179.931432, 196.09714, -83.0859685],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-283.641838, 460.424783, -397.183815, 393.077815, -256.727534, 87.3544697],
    },
    vapourDensity: {
      exponents: [0.33, 0.7, 2.0, 4.5],
      coefficients: [-1.41399986, -3.72659021, -1.24359215, -5.99778266],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.5, 2.0],
      coefficients: [1157255.17, -2653550.36, 2556980.2, -1467218.82, 746874.979],
    },
    virialB: [0.000164059786, -0.000394614523, -1.19369563e-5, -0.000130177728, -2.40618571e-6],
    virialC: [7.5422086e-7, -2.36445038e-6, 2.17522522e-6, -6.0229104e-7, 6.37334493e-8],
  },
  'R-452B': {
    molarMassGPerMol: 63.525256,
    criticalTemperatureK: 350.319815,
    criticalPressureKpa: 5246.31815,
    criticalDensityKgPerM3: 440.177681,
    lowestK: 213.15,
    highestK: 348.32,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [-56.0683285, 177.011197, -265.966393, 171.6601, -36.1549527],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 2.0, 2.5],
      coefficients: [-11.9269684, 20.6536409, -27.7213832, 24.6282676, -14.9832989],
    },
    liquidDensity: {
      exponents: [0.33, 0.66, 1.33, 2.5],
      coefficients: [1.7842936, 1.11732779, -0.163537087, 0.40256776],
    },
    vapourDensity: {
      exponents: [0.38, 1.0, 1.33, 3.5],
      coefficients: [-2.63467529, -4.71249198, 2.1869625, -4.35114062],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 2.5],
      coefficients: [296359.308, 265348.812, -555335.312, 517647.491],
    },
    virialB: [0.000158347393, -0.000383261491, 2.68874103e-5, -0.000105541354, -1.13390548e-5],
    virialC: [7.21848027e-7, -2.29070873e-6, 2.10929838e-6, -5.71272551e-7, 6.20484219e-8],
  },
  'R-454A': {
    molarMassGPerMol: 80.467752,
    criticalTemperatureK: 356.714276,
    criticalPressureKpa: 4719.95205,
    criticalDensityKgPerM3: 453.567166,
    lowestK: 213.15,
    highestK: 354.714,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [12.9632632, -134.52731, 379.021168, -521.468692, 310.114334, -55.5986421],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-50.7456911, 335.329995, -1098.67773, 1817.84992, -1342.84602, 454.672172, -127.835828],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-155.66924, 249.564504, -206.383939, 204.031563, -136.337442, 47.7887468],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 3.5, 6.0],
      coefficients: [-4.30760513, 4.66276499, -5.76617037, -4.2221117, -2.0006931],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.0],
      coefficients: [1020501.17, -1264943.14, 2590135.89, -2975668.25, 1049851.51],
    },
    virialB: [0.000196170254, -0.000481338902, 5.68336014e-5, -0.00012488051, -8.97461904e-6],
    virialC: [1.33987054e-6, -4.23649942e-6, 3.8802004e-6, -1.06554838e-6, 1.13926341e-7],
  },
  'R-454B': {
    molarMassGPerMol: 62.613634,
    criticalTemperatureK: 351.430213,
    criticalPressureKpa: 5304.10939,
    criticalDensityKgPerM3: 441.717754,
    lowestK: 213.15,
    highestK: 349.43,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [-55.1370301, 172.818304, -258.578138, 166.542032, -35.0751572],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 2.0, 2.5],
      coefficients: [-12.8244245, 24.6647941, -33.1561013, 28.6784839, -16.821984],
    },
    liquidDensity: {
      exponents: [0.36, 0.85, 1.33, 1.66],
      coefficients: [2.05482863, 1.45114266, -2.13311921, 1.66313356],
    },
    vapourDensity: {
      exponents: [0.38, 1.0, 1.66, 3.5],
      coefficients: [-2.72338929, -3.77630589, 1.61414624, -4.84714108],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 2.0],
      coefficients: [289788.193, 317051.631, -343231.469, 199877.78],
    },
    virialB: [0.00016216899, -0.000393295314, 3.22231668e-5, -0.000105502242, -1.13055378e-5],
    virialC: [6.99781056e-7, -2.22362384e-6, 2.0499487e-6, -5.54819646e-7, 6.01283191e-8],
  },
  'R-454C': {
    molarMassGPerMol: 90.775725,
    criticalTemperatureK: 360.79336,
    criticalPressureKpa: 4370.45963,
    criticalDensityKgPerM3: 458.596597,
    lowestK: 213.15,
    highestK: 358.793,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [15.4335005, -148.143924, 411.296664, -558.476085, 327.93045, -57.3704839],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-55.4067852, 370.206108, -1206.51862, 1983.36904, -1455.04486, 485.39947, -134.127324],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-178.069407, 285.028472, -234.826389, 230.032896, -151.85859, 52.6712336],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 3.0, 4.5],
      coefficients: [-4.19760446, 4.47914478, -5.65111536, -1.91418297, -3.88984501],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.5],
      coefficients: [880378.09, -1008604.03, 1673916.86, -1554523.85, 406659.287],
    },
    virialB: [0.000214110113, -0.000530205255, 6.3470426e-5, -0.000140222733, -6.51292791e-6],
    virialC: [1.87411983e-6, -5.91540088e-6, 5.40813379e-6, -1.49306772e-6, 1.58782482e-7],
  },
};
