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
    criticalTemperatureK: 299.293048972,
    criticalPressureKpa: 4831.745105,
    criticalDensityKgPerM3: 526.502299397,
    lowestK: 180.001,
    highestK: 298.962,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.45888043917, 3.22219313935, -2.47529807361, -3.25572221239],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.85, 1.0, 1.66],
      coefficients: [-34.0748833387, 53.5869542866, -27.549754934, 33.6817328429, -25.4050153669, 2.78837266498],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 3.5],
      coefficients: [18.0705388393, -40.206214555, 32.7365677489, -19.3606449653, 3.63687078939, -4.3221336338],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.7, 0.9, 1.2, 1.5],
      coefficients: [-1122423.56742, 2180696.12923, -4104669.98459, 6712478.16255, -5095500.46246, 1795199.85869],
    },
    virialB: [7.90682183e-5, -0.000116708312, -0.000136202168, -5.01942694e-6, -6.40868749e-6],
    virialC: [-2.49989163e-7, 8.18628507e-7, -7.69099642e-7, 2.49536635e-7, -3.64845852e-8],
  },
  'R-32': {
    molarMassGPerMol: 52.024,
    criticalTemperatureK: 351.255000449,
    criticalPressureKpa: 5782.64509395,
    criticalDensityKgPerM3: 423.999969988,
    lowestK: 180.001,
    highestK: 350.924,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 7.0],
      coefficients: [-7.75847227462, 1.40471681194, -2.8545797267, -1.46224431932],
    },
    liquidDensity: {
      exponents: [0.33, 0.5, 0.85, 1.0, 1.33],
      coefficients: [2.81692674385, -3.41988049901, 17.6796465333, -18.9826079574, 5.03660265238],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 1.33, 1.66, 4.5],
      coefficients: [-4.28679345166, 3.15313383324, -13.0489371576, 16.9659327084, -9.14973407318, -3.95367525898],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 0.9, 1.2, 2.0],
      coefficients: [442845.03386, -914773.316909, 2565677.37022, -1939810.86568, 429607.690405],
    },
    virialB: [0.000141482656, -0.000342314037, 1.45314888e-5, -9.75063788e-5, -1.22366279e-5],
    virialC: [5.04794927e-7, -1.60744037e-6, 1.48736668e-6, -3.98047637e-7, 4.36828682e-8],
  },
  'R-116': {
    molarMassGPerMol: 138.01182,
    criticalTemperatureK: 293.029792783,
    criticalPressureKpa: 3047.66018627,
    criticalDensityKgPerM3: 613.329132896,
    lowestK: 180.001,
    highestK: 292.699,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 6.0],
      coefficients: [-7.35835076651, 1.92277078989, -2.65187313268, -4.25001214708],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [-63.3677380927, 104.580306873, -85.9818232638, 74.267912271, -30.00197011, 3.28198968692],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.5],
      coefficients: [-8.85818027175, 15.2067310027, -22.8467921221, 14.1214983891, -6.17575778661],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 2.0],
      coefficients: [-1735223.49631, 4080564.14821, -4046041.89452, 3214121.00995, -1414578.45751, 82327.2092653],
    },
    virialB: [0.000159188211, -0.000289820213, -8.37321603e-5, -3.67964754e-5, 6.15405149e-8],
    virialC: [6.46622965e-9, 2.33123489e-8, -1.46428265e-8, 1.75996976e-9, -1.53345177e-10],
  },
  'R-125': {
    molarMassGPerMol: 120.0214,
    criticalTemperatureK: 339.177282456,
    criticalPressureKpa: 3618.27605562,
    criticalDensityKgPerM3: 573.394859894,
    lowestK: 180.001,
    highestK: 338.847,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.63461661461, 3.65538583954, -3.15012378084, -3.82165611706],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [16.15842686, -45.1883149415, 68.831655813, -40.2426367943, 3.39198894985],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 2.5, 3.5],
      coefficients: [6.48832793297, -17.2453598349, 14.2997048987, -9.21404066058, 0.96983794325, -5.99963976521],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [1241803.93052, -3934057.19455, 5677150.22142, -4270657.874, 1561027.35778],
    },
    virialB: [0.000128160736, -0.000297130424, -7.88731517e-5, -0.000117065725, 2.51777225e-6],
    virialC: [-5.01059381e-8, 1.95139832e-7, -1.54610443e-7, 3.36322789e-8, -3.53798952e-9],
  },
  'R-134a': {
    molarMassGPerMol: 102.032,
    criticalTemperatureK: 374.211966585,
    criticalPressureKpa: 4059.27637379,
    criticalDensityKgPerM3: 511.945113282,
    lowestK: 180.001,
    highestK: 373.881,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.95015093522, 1.44348093425, -2.50154894073, -2.62755112285],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 2.0],
      coefficients: [13.7615713468, -33.9713556386, 46.176880825, -24.3871506223, 1.44861677401],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.66, 4.5],
      coefficients: [
        25.1688699301, -59.3572248583, 57.9718134583, -41.9575908101, 16.1609925053, -4.80181567917, -5.07229958506,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2190471.1572, 5307110.62991, -5278236.70131, 4214483.10556, -1792344.82194, 129087.449261],
    },
    virialB: [-0.000121797716, 0.000519481151, -0.000901410752, 4.52234266e-5, -2.69645692e-5],
    virialC: [-2.20500185e-7, 7.30131235e-7, -6.73489194e-7, 2.48681045e-7, -4.03122968e-8],
  },
  'R-143a': {
    molarMassGPerMol: 84.041,
    criticalTemperatureK: 345.857000868,
    criticalPressureKpa: 3761.8182714,
    criticalDensityKgPerM3: 431.000426496,
    lowestK: 180.001,
    highestK: 345.526,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.70454471145, 1.49586898847, -1.78304179192, -2.50991183334],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.33, 1.66],
      coefficients: [13.3454473455, -29.418412806, 26.7191644244, -15.0576945407, 7.49045566151],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.0, 6.0],
      coefficients: [-10.4935759665, 20.2080143324, -31.8941709235, 23.3573486266, -8.59365853979, -4.67573657647],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2376288.41798, 5710355.57836, -5623539.23242, 4447060.38222, -1889182.47059, 109866.498306],
    },
    virialB: [0.000137278869, -0.000256538213, -0.000226585161, -3.071137e-5, -2.83256509e-5],
    virialC: [1.24014871e-5, -3.96227021e-5, 3.66051422e-5, -1.06450509e-5, 1.3216839e-6],
  },
  'R-152a': {
    molarMassGPerMol: 66.051,
    criticalTemperatureK: 386.410997777,
    criticalPressureKpa: 4516.74994105,
    criticalDensityKgPerM3: 367.999843596,
    lowestK: 180.001,
    highestK: 386.08,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.8409970083, 1.66041344624, -1.17839390914, -3.07047053022],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 0.85, 1.0, 1.33],
      coefficients: [-4.46276111295, 40.2483067634, -100.51655039, 151.080374508, -97.7284121105, 14.3955519259],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.5, 4.5],
      coefficients: [
        23.1053313864, -51.7382033927, 43.6198350716, -25.2424543988, 5.2270950698, -1.52731115031, -4.04307244205,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 5.0],
      coefficients: [-4345069.00764, 9949069.82245, -9114628.98301, 6420079.17399, -2477344.66543, 229358.475948],
    },
    virialB: [0.00019176785, -0.000532329822, 7.49252838e-5, -0.000247496621, 4.6356914e-6],
    virialC: [1.91935633e-8, -1.23740727e-7, 2.02818343e-7, -3.22118942e-8, -1.055274e-9],
  },
  'R-227ea': {
    molarMassGPerMol: 170.02886,
    criticalTemperatureK: 374.900103445,
    criticalPressureKpa: 2925.24866568,
    criticalDensityKgPerM3: 594.246925374,
    lowestK: 180.001,
    highestK: 374.569,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.88004554869, 3.80719557919, -3.40386040192, -4.42792889823],
    },
    liquidDensity: {
      exponents: [0.36, 0.66, 1.0, 5.0],
      coefficients: [2.26016780669, -0.237673530459, 0.689874960878, 0.328067877139],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 3.0, 3.5],
      coefficients: [
        -14.8410764657, 39.264423343, -80.0159183489, 97.2370797681, -55.2487597303, 22.2799593773, -20.8210605986,
      ],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [1125216.46995, -3779280.38448, 5577376.45572, -4283207.41745, 1598536.12878],
    },
    virialB: [0.000640882326, -0.00189523068, 0.00114870324, -0.00056531866, 2.65892819e-5],
    virialC: [1.19921326e-6, -3.94622629e-6, 3.83302261e-6, -1.08743557e-6, 3.20150177e-8],
  },
  'R-236fa': {
    molarMassGPerMol: 152.0384,
    criticalTemperatureK: 398.070051605,
    criticalPressureKpa: 3190.86942212,
    criticalDensityKgPerM3: 551.293463611,
    lowestK: 180.001,
    highestK: 397.739,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-7.91127404771, 1.88781379433, -2.88099220661, -4.9965453774],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [11.9118100171, -26.739030561, 35.1384451985, -19.0743334241, 1.72160790137],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.66, 4.5],
      coefficients: [
        18.1264224337, -42.573996244, 39.955913411, -29.7768958794, 11.4645252695, -4.19554235864, -6.81600379412,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 1.2, 5.0],
      coefficients: [
        -2128869.26646, 5116209.75715, -5441912.16192, 5273887.05788, -3268764.30641, 698281.374597, 197569.585722,
      ],
    },
    virialB: [0.000289564873, -0.000805574544, 0.000166849588, -0.000445064202, 3.49433164e-5],
    virialC: [-2.91747398e-7, 6.16122193e-7, -1.28886803e-7, -1.79681279e-7, 1.55531944e-8],
  },
  'R-245fa': {
    molarMassGPerMol: 134.04794,
    criticalTemperatureK: 427.009989696,
    criticalPressureKpa: 3650.99502413,
    criticalDensityKgPerM3: 519.284675769,
    lowestK: 180.001,
    highestK: 426.679,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-8.06290869167, 1.29004709682, -3.08811605836, -2.3924994023],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 1.0, 1.33],
      coefficients: [6.69778562443, -17.1455246561, 20.6598821915, -12.5967058135, 5.29844542911],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [-8.61247086922, 17.4843611786, -21.9127498203, 9.5430802723, -4.39298669764, -4.41801309139],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 3.0],
      coefficients: [428511.566379, -1061362.58573, 2025941.52491, -1157691.59347, 132646.928944],
    },
    virialB: [5.90311484e-5, -0.000283939318, -0.000103982405, -0.000568394949, 4.80619418e-5],
    virialC: [1.04868201e-7, -4.56551211e-7, 7.10031535e-7, -4.68985544e-7, 3.3944771e-8],
  },
};
