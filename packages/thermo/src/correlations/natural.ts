/**
 * Hydrocarbons, ammonia, carbon dioxide.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Equations of state:
 *   Lemmon, McLinden & Wagner, JCED 2009
 *   Buecker & Wagner, JPCRD 2006
 *   R-600a: Buecker & Wagner, JPCRD 2006
 *   R-601a: Lemmon & Span, JCED 2006
 *   R-1270: Lemmon, Overhoff, McLinden & Wagner 2013
 *   Gao, Wu, Bell, Harvey & Lemmon, JPCRD (2020/2023)
 *   Span & Wagner, JPCRD 1996
 * Largest error of the fits against those values: pressure 0.016 %, liquid density 0.036 %, vapour density
 * 0.038 %, latent heat 0.055 %.
 * Vapour density by the virial: 0.009 % at 101 kPa, 0.009 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const NATURAL_FLUIDS: Readonly<Record<string, Correlation>> = {
  'R-290': {
    molarMassGPerMol: 44.09562,
    criticalTemperatureK: 369.890009,
    criticalPressureKpa: 4251.16533,
    criticalDensityKgPerM3: 220.478127,
    lowestK: 180.001,
    highestK: 369.559,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-6.75270704, 1.51090993, -1.49828292, -2.30637236],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.85, 4.0],
      coefficients: [2.13655694, -0.260335479, 0.656659765, 0.314126861],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 2.0, 3.5],
      coefficients: [-11.0665106, 27.8092916, -65.8559358, 108.568722, -107.844688, 46.9864937, -7.28231147],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2437333.75, 6331637.17, -6460025.15, 5668700.6, -2603871.03, 137209.631],
    },
    virialB: [8.50103385e-5, -0.000212453846, -0.000206897145, -5.24998045e-5, 1.38498837e-6],
    virialC: [-1.96863034e-7, 6.2529903e-7, -5.2120907e-7, 1.34321397e-7, -2.17550808e-8],
  },
  'R-600': {
    molarMassGPerMol: 58.1222,
    criticalTemperatureK: 425.125,
    criticalPressureKpa: 3796.00002,
    criticalDensityKgPerM3: 228.0,
    lowestK: 180.001,
    highestK: 424.794,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 3.0, 4.0],
      coefficients: [-7.06073879, 7.10058355, -8.0815121, 3.05621457, -4.43203645],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.33, 1.66],
      coefficients: [7.17323926, -40.2621504, 55.2884879, -28.7885611, 9.40024943],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.33, 1.66, 4.5],
      coefficients: [18.2533373, -41.7388116, 36.1844078, -21.4834802, 10.2180646, -7.42661693, -3.556371],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 4.0],
      coefficients: [-4419384, 10234104.6, -9466740.13, 6973652.16, -2845845.91, 192714.639],
    },
    virialB: [0.000154203729, -0.000371731834, -0.00033364018, -0.000152248909, 1.24903192e-6],
    virialC: [8.82112193e-8, -3.16728561e-7, 3.51161276e-7, -4.84669978e-8, -8.99992929e-8],
  },
  'R-600a': {
    molarMassGPerMol: 58.1222,
    criticalTemperatureK: 407.81,
    criticalPressureKpa: 3629.00002,
    criticalDensityKgPerM3: 225.5,
    lowestK: 180.001,
    highestK: 407.479,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 4.5],
      coefficients: [-7.1138733, 1.17063307, -1.80873043, -1.48621953],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 1.0, 2.0],
      coefficients: [1.69801338, 2.69230513, -2.14993, 0.520962772],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 1.33, 2.0, 4.5],
      coefficients: [-3.94029034, 2.85020267, -10.3442472, 9.549617, -4.21728139, -3.28173982],
    },
    latentHeat: {
      exponents: [0.38, 0.7, 0.9, 1.2, 2.0],
      coefficients: [686750.026, -1944375.45, 3832049.27, -2553177.41, 554646.684],
    },
    virialB: [0.00012931125, -0.000329160724, -0.000321382596, -0.00010123575, 9.03138239e-7],
    virialC: [4.7798633e-8, -1.30747206e-7, 1.55908699e-7, 1.83655486e-8, -9.60033835e-8],
  },
  'R-601a': {
    molarMassGPerMol: 72.14878,
    criticalTemperatureK: 460.349795,
    criticalPressureKpa: 3378.21722,
    criticalDensityKgPerM3: 235.997472,
    lowestK: 180.001,
    highestK: 460.019,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 2.5, 4.5],
      coefficients: [-7.25173158, 2.58955332, -1.29020457, -1.20337956, -2.74342318],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.33],
      coefficients: [19.5778962, -63.5184548, 113.942002, -80.5557306, 13.3289085],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 2.0, 3.5],
      coefficients: [-13.7711565, 38.8272293, -93.2698401, 151.059294, -143.522327, 59.2032645, -8.30445298],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2799251.8, 7325610.57, -8041711.87, 7100342.12, -3211483.03, 215314.238],
    },
    virialB: [0.000209762075, -0.000685891246, -0.000190445257, -0.000390119034, 7.88629698e-6],
    virialC: [-1.17507028e-6, 3.95153757e-6, -3.70784237e-6, 1.13641873e-6, -1.65287344e-7],
  },
  'R-1270': {
    molarMassGPerMol: 42.07974,
    criticalTemperatureK: 364.211003,
    criticalPressureKpa: 4554.99302,
    criticalDensityKgPerM3: 229.628401,
    lowestK: 180.001,
    highestK: 363.88,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-6.71216394, 1.48531232, -1.45417389, -2.4635084],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [4.49232223, -10.48948, 16.1319211, -9.30808236, 1.89008522],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 1.33, 2.0, 4.5],
      coefficients: [-3.72547104, 2.94591477, -4.33437303, 0.981825379, -1.29385825, -3.5942204],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 4.0],
      coefficients: [672933.504, -1121874.31, 2436431.81, -1431980.94, 143587.764],
    },
    virialB: [0.000224143662, -0.000673663547, 0.000255315568, -0.000159582945, 1.05684917e-5],
    virialC: [6.65688005e-8, -2.2212903e-7, 2.61724295e-7, -9.47760548e-8, 5.22250232e-9],
  },
  'R-717': {
    molarMassGPerMol: 17.03052,
    criticalTemperatureK: 405.56,
    criticalPressureKpa: 11363.3912,
    criticalDensityKgPerM3: 233.249996,
    lowestK: 195.496,
    highestK: 405.229,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 4.5],
      coefficients: [-7.49838341, 1.18525519, -2.31427288, -0.747777182],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 2.0],
      coefficients: [1.96490732, 0.122400704, 0.696067937, 0.208589894],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 2.0, 3.5],
      coefficients: [-2.37902955, 2.58396726, -4.17773262, -2.88779873, 2.3688625, -4.7761818],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [20720822.4, -48258286.5, 63045963.6, -79173572.4, 72046709.2, -36866026.3, 10365551.7],
    },
    virialB: [0.000308009897, -0.000931873001, 0.000645558869, -0.000266948954, -4.99415281e-6],
    virialC: [3.67015792e-7, -1.18592014e-6, 1.09582708e-6, -2.7858641e-7, 1.16632691e-9],
  },
  'R-744': {
    molarMassGPerMol: 44.0098,
    criticalTemperatureK: 304.1282,
    criticalPressureKpa: 7377.29837,
    criticalDensityKgPerM3: 467.59997,
    lowestK: 216.593,
    highestK: 303.797,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.0],
      coefficients: [-7.06164451, 1.94918275, -1.66263528, -3.27087964],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.66, 2.5],
      coefficients: [1.8463212, -0.252128206, 1.01368128, 0.256779794],
    },
    vapourDensity: {
      exponents: [0.33, 0.7, 1.33, 4.5],
      coefficients: [-1.6663375, -2.85297592, -0.957269374, -8.32239478],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 5.0],
      coefficients: [364229.602, 321759.387, -172049.403, 452033.121],
    },
    virialB: [5.15204437e-5, -9.8625809e-5, -5.85774793e-5, -1.52571308e-5, -3.33844934e-7],
    virialC: [-8.02080645e-9, 2.89436431e-8, -2.24995496e-8, 7.50492108e-9, -1.2176609e-9],
  },
};
