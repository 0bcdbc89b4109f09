/**
 * Saturated fluorinated fluids without chlorine.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Equations of state:
 *   Penoncello, Lemmon, Jacobsen & Shan, J. Phys. Chem. Ref. Data (JPCRD) 2003
 *   Tillner-Roth & Yokozeki, JPCRD 1997
 *   Lemmon & Span, JCED 2006
 *   Lemmon & Jacobsen, JPCRD 2005
 *   R-134a: Tillner-Roth & Baehr, JPCRD 1994
 *   R-143a: Lemmon & Jacobsen, JPCRD 2000
 *   R-152a: Outcalt & McLinden, JPCRD 1996
 *   R-227ea: Lemmon & Span, JCED 2015
 *   R-236fa: Pan, Rui, Zhao & Qiu, Fluid Phase Equilib. 2012
 *   R-245fa: Akasaka, Zhou & Lemmon, JPCRD 2015
 * Largest error of the fits against those values: pressure 0.016 %, liquid density 0.039 %, vapour density
 * 0.036 %, latent heat 0.072 %.
 * Vapour density by the virial: 0.014 % at 101 kPa, 0.456 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFCS: Readonly<Record<string, Correlation>> = {
  'R-23': {
    molarMassGPerMol: 70.01385,
    criticalTemperatureK: 299.293049,
    criticalPressureKpa: 4831.7451,
    criticalDensityKgPerM3: 526.502299,
    lowestK: 180.001,
    highestK: 298.962,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.45888044, 3.22219314, -2.47529807, -3.25572221],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85, 1.0, 1.66],
      coefficients: [-34.0748833, 53.5869543, -27.5497549, 33.6817328, -25.4050154, 2.78837266],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 3.5],
      coefficients: [18.0705388, -40.2062146, 32.7365677, -19.360645, 3.63687079, -4.32213363],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.7, 0.9, 1.2, 1.5],
      coefficients: [-1122423.57, 2180696.13, -4104669.98, 6712478.16, -5095500.46, 1795199.86],
    },
    virialB: [7.90682183e-5, -0.000116708312, -0.000136202168, -5.01942694e-6, -6.40868749e-6],
    virialC: [-2.49989163e-7, 8.18628507e-7, -7.69099642e-7, 2.49536635e-7, -3.64845852e-8],
  },
  'R-32': {
    molarMassGPerMol: 52.024,
    criticalTemperatureK: 351.255,
    criticalPressureKpa: 5782.64509,
    criticalDensityKgPerM3: 423.99997,
    lowestK: 180.001,
    highestK: 350.924,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 7.0],
      coefficients: [-7.75847227, 1.40471681, -2.85457973, -1.46224432],
    },
    liquidDensity: {
      exponents: [0.33, 0.5, 0.85, 1.0, 1.33],
      coefficients: [2.81692674, -3.4198805, 17.6796465, -18.982608, 5.03660265],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 1.33, 1.66, 4.5],
      coefficients: [-4.28679345, 3.15313383, -13.0489372, 16.9659327, -9.14973407, -3.95367526],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 0.9, 1.2, 2.0],
      coefficients: [442845.034, -914773.317, 2565677.37, -1939810.87, 429607.69],
    },
    virialB: [0.000141482656, -0.000342314037, 1.45314888e-5, -9.75063788e-5, -1.22366279e-5],
    virialC: [5.04794927e-7, -1.60744037e-6, 1.48736668e-6, -3.98047637e-7, 4.36828682e-8],
  },
  'R-116': {
    molarMassGPerMol: 138.01182,
    criticalTemperatureK: 293.029793,
    criticalPressureKpa: 3047.66019,
    criticalDensityKgPerM3: 613.329133,
    lowestK: 180.001,
    highestK: 292.699,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 6.0],
      coefficients: [-7.35835077, 1.92277079, -2.65187313, -4.25001215],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [-63.3677381, 104.580307, -85.9818233, 74.2679123, -30.0019701, 3.28198969],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.5],
      coefficients: [-8.85818027, 15.206731, -22.8467921, 14.1214984, -6.17575779],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 2.0],
      coefficients: [-1735223.5, 4080564.15, -4046041.89, 3214121.01, -1414578.46, 82327.2093],
    },
    virialB: [0.000159188211, -0.000289820213, -8.37321603e-5, -3.67964754e-5, 6.15405149e-8],
    virialC: [6.46622965e-9, 2.33123489e-8, -1.46428265e-8, 1.75996976e-9, -1.53345177e-10],
  },
  'R-125': {
    molarMassGPerMol: 120.0214,
    criticalTemperatureK: 339.177282,
    criticalPressureKpa: 3618.27606,
    criticalDensityKgPerM3: 573.39486,
    lowestK: 180.001,
    highestK: 338.847,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.63461661, 3.65538584, -3.15012378, -3.82165612],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [16.1584269, -45.1883149, 68.8316558, -40.2426368, 3.39198895],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 2.5, 3.5],
      coefficients: [6.48832793, -17.2453598, 14.2997049, -9.21404066, 0.969837943, -5.99963977],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [1241803.93, -3934057.19, 5677150.22, -4270657.87, 1561027.36],
    },
    virialB: [0.000128160736, -0.000297130424, -7.88731517e-5, -0.000117065725, 2.51777225e-6],
    virialC: [-5.01059381e-8, 1.95139832e-7, -1.54610443e-7, 3.36322789e-8, -3.53798952e-9],
  },
  'R-134a': {
    molarMassGPerMol: 102.032,
    criticalTemperatureK: 374.211967,
    criticalPressureKpa: 4059.27637,
    criticalDensityKgPerM3: 511.945113,
    lowestK: 180.001,
    highestK: 373.881,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.95015094, 1.44348093, -2.50154894, -2.62755112],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 2.0],
      coefficients: [13.7615713, -33.9713556, 46.1768808, -24.3871506, 1.44861677],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.66, 4.5],
      coefficients: [25.1688699, -59.3572249, 57.9718135, -41.9575908, 16.1609925, -4.80181568, -5.07229959],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2190471.16, 5307110.63, -5278236.7, 4214483.11, -1792344.82, 129087.449],
    },
    virialB: [-0.000121797716, 0.000519481151, -0.000901410752, 4.52234266e-5, -2.69645692e-5],
    virialC: [-2.20500185e-7, 7.30131235e-7, -6.73489194e-7, 2.48681045e-7, -4.03122968e-8],
  },
  'R-143a': {
    molarMassGPerMol: 84.041,
    criticalTemperatureK: 345.857001,
    criticalPressureKpa: 3761.81827,
    criticalDensityKgPerM3: 431.000426,
    lowestK: 180.001,
    highestK: 345.526,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.70454471, 1.49586899, -1.78304179, -2.50991183],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.33, 1.66],
      coefficients: [13.3454473, -29.4184128, 26.7191644, -15.0576945, 7.49045566],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.0, 6.0],
      coefficients: [-10.493576, 20.2080143, -31.8941709, 23.3573486, -8.59365854, -4.67573658],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2376288.42, 5710355.58, -5623539.23, 4447060.38, -1889182.47, 109866.498],
    },
    virialB: [0.000137278869, -0.000256538213, -0.000226585161, -3.071137e-5, -2.83256509e-5],
    virialC: [1.24014871e-5, -3.96227021e-5, 3.66051422e-5, -1.06450509e-5, 1.3216839e-6],
  },
  'R-152a': {
    molarMassGPerMol: 66.051,
    criticalTemperatureK: 386.410998,
    criticalPressureKpa: 4516.74994,
    criticalDensityKgPerM3: 367.999844,
    lowestK: 180.001,
    highestK: 386.08,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.84099701, 1.66041345, -1.17839391, -3.07047053],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 0.85, 1.0, 1.33],
      coefficients: [-4.46276111, 40.2483068, -100.51655, 151.080375, -97.7284121, 14.3955519],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.5, 4.5],
      coefficients: [23.1053314, -51.7382034, 43.6198351, -25.2424544, 5.22709507, -1.52731115, -4.04307244],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 5.0],
      coefficients: [-4345069.01, 9949069.82, -9114628.98, 6420079.17, -2477344.67, 229358.476],
    },
    virialB: [0.00019176785, -0.000532329822, 7.49252838e-5, -0.000247496621, 4.6356914e-6],
    virialC: [1.91935633e-8, -1.23740727e-7, 2.02818343e-7, -3.22118942e-8, -1.055274e-9],
  },
  'R-227ea': {
    molarMassGPerMol: 170.02886,
    criticalTemperatureK: 374.900103,
    criticalPressureKpa: 2925.24867,
    criticalDensityKgPerM3: 594.246925,
    lowestK: 180.001,
    highestK: 374.569,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.88004555, 3.80719558, -3.4038604, -4.4279289],
    },
    liquidDensity: {
      exponents: [0.36, 0.66, 1.0, 5.0],
      coefficients: [2.26016781, -0.23767353, 0.689874961, 0.328067877],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 3.0, 3.5],
      coefficients: [-14.8410765, 39.2644233, -80.0159183, 97.2370798, -55.2487597, 22.2799594, -20.8210606],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [1125216.47, -3779280.38, 5577376.46, -4283207.42, 1598536.13],
    },
    virialB: [0.000640882326, -0.00189523068, 0.00114870324, -0.00056531866, 2.65892819e-5],
    virialC: [1.19921326e-6, -3.94622629e-6, 3.83302261e-6, -1.08743557e-6, 3.20150177e-8],
  },
  'R-236fa': {
    molarMassGPerMol: 152.0384,
    criticalTemperatureK: 398.070052,
    criticalPressureKpa: 3190.86942,
    criticalDensityKgPerM3: 551.293464,
    lowestK: 180.001,
    highestK: 397.739,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-7.91127405, 1.88781379, -2.88099221, -4.99654538],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [11.91181, -26.7390306, 35.1384452, -19.0743334, 1.7216079],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.66, 4.5],
      coefficients: [18.1264224, -42.5739962, 39.9559134, -29.7768959, 11.4645253, -4.19554236, -6.81600379],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 1.2, 5.0],
      coefficients: [-2128869.27, 5116209.76, -5441912.16, 5273887.06, -3268764.31, 698281.375, 197569.586],
    },
    virialB: [0.000289564873, -0.000805574544, 0.000166849588, -0.000445064202, 3.49433164e-5],
    virialC: [-2.91747398e-7, 6.16122193e-7, -1.28886803e-7, -1.79681279e-7, 1.55531944e-8],
  },
  'R-245fa': {
    molarMassGPerMol: 134.04794,
    criticalTemperatureK: 427.00999,
    criticalPressureKpa: 3650.99502,
    criticalDensityKgPerM3: 519.284676,
    lowestK: 180.001,
    highestK: 426.679,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-8.06290869, 1.2900471, -3.08811606, -2.3924994],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 1.0, 1.33],
      coefficients: [6.69778562, -17.1455247, 20.6598822, -12.5967058, 5.29844543],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [-8.61247087, 17.4843612, -21.9127498, 9.54308027, -4.3929867, -4.41801309],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 3.0],
      coefficients: [428511.566, -1061362.59, 2025941.52, -1157691.59, 132646.929],
    },
    virialB: [5.90311484e-5, -0.000283939318, -0.000103982405, -0.000568394949, 4.80619418e-5],
    virialC: [1.04868201e-7, -4.56551211e-7, 7.10031535e-7, -4.68985544e-7, 3.3944771e-8],
  },
};
