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
    criticalTemperatureK: 369.890008951,
    criticalPressureKpa: 4251.16532801,
    criticalDensityKgPerM3: 220.478127492,
    lowestK: 180.001,
    highestK: 369.559,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-6.75270704039, 1.51090993022, -1.49828291897, -2.30637235804],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.85, 4.0],
      coefficients: [2.13655694366, -0.260335478729, 0.656659764622, 0.314126861353],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 2.0, 3.5],
      coefficients: [
        -11.0665106474, 27.8092915909, -65.8559358031, 108.568722299, -107.844688497, 46.9864936615, -7.28231146787,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2437333.75258, 6331637.16947, -6460025.14717, 5668700.59579, -2603871.02921, 137209.63107],
    },
    virialB: [8.50103385e-5, -0.000212453846, -0.000206897145, -5.24998045e-5, 1.38498837e-6],
    virialC: [-1.96863034e-7, 6.2529903e-7, -5.2120907e-7, 1.34321397e-7, -2.17550808e-8],
  },
  'R-600': {
    molarMassGPerMol: 58.1222,
    criticalTemperatureK: 425.125,
    criticalPressureKpa: 3796.00001742,
    criticalDensityKgPerM3: 228.0,
    lowestK: 180.001,
    highestK: 424.794,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 3.0, 4.0],
      coefficients: [-7.06073878847, 7.10058355003, -8.08151209692, 3.05621457098, -4.4320364511],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.33, 1.66],
      coefficients: [7.17323926318, -40.2621503602, 55.2884878584, -28.7885611468, 9.40024942548],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.33, 1.66, 4.5],
      coefficients: [
        18.2533372786, -41.7388116461, 36.1844077939, -21.4834801757, 10.2180646397, -7.42661693034, -3.55637100249,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 4.0],
      coefficients: [-4419383.99649, 10234104.5554, -9466740.13217, 6973652.16119, -2845845.90788, 192714.639431],
    },
    virialB: [0.000154203729, -0.000371731834, -0.00033364018, -0.000152248909, 1.24903192e-6],
    virialC: [8.82112193e-8, -3.16728561e-7, 3.51161276e-7, -4.84669978e-8, -8.99992929e-8],
  },
  'R-600a': {
    molarMassGPerMol: 58.1222,
    criticalTemperatureK: 407.81,
    criticalPressureKpa: 3629.00001665,
    criticalDensityKgPerM3: 225.5,
    lowestK: 180.001,
    highestK: 407.479,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 4.5],
      coefficients: [-7.11387329598, 1.17063307378, -1.80873043377, -1.48621952585],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 1.0, 2.0],
      coefficients: [1.69801338414, 2.69230512788, -2.1499300014, 0.520962772488],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 1.0, 1.33, 2.0, 4.5],
      coefficients: [-3.94029033914, 2.85020267229, -10.3442471732, 9.54961700494, -4.21728139385, -3.2817398248],
    },
    latentHeat: {
      exponents: [0.38, 0.7, 0.9, 1.2, 2.0],
      coefficients: [686750.025962, -1944375.45412, 3832049.27031, -2553177.40854, 554646.683612],
    },
    virialB: [0.00012931125, -0.000329160724, -0.000321382596, -0.00010123575, 9.03138239e-7],
    virialC: [4.7798633e-8, -1.30747206e-7, 1.55908699e-7, 1.83655486e-8, -9.60033835e-8],
  },
  'R-601a': {
    molarMassGPerMol: 72.14878,
    criticalTemperatureK: 460.349794711,
    criticalPressureKpa: 3378.21722418,
    criticalDensityKgPerM3: 235.997472099,
    lowestK: 180.001,
    highestK: 460.019,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 2.5, 4.5],
      coefficients: [-7.25173157559, 2.5895533207, -1.29020457121, -1.20337955699, -2.74342317836],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.33],
      coefficients: [19.5778962009, -63.5184547748, 113.942002316, -80.5557306183, 13.3289084551],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 2.0, 3.5],
      coefficients: [
        -13.7711564513, 38.8272292932, -93.2698400799, 151.059293983, -143.522326703, 59.2032644932, -8.30445298477,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2799251.80105, 7325610.57429, -8041711.87067, 7100342.1155, -3211483.02763, 215314.237676],
    },
    virialB: [0.000209762075, -0.000685891246, -0.000190445257, -0.000390119034, 7.88629698e-6],
    virialC: [-1.17507028e-6, 3.95153757e-6, -3.70784237e-6, 1.13641873e-6, -1.65287344e-7],
  },
  'R-1270': {
    molarMassGPerMol: 42.07974,
    criticalTemperatureK: 364.211002591,
    criticalPressureKpa: 4554.99301842,
    criticalDensityKgPerM3: 229.628401071,
    lowestK: 180.001,
    highestK: 363.88,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-6.71216393937, 1.48531231735, -1.4541738946, -2.46350840158],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [4.49232222809, -10.4894799971, 16.1319210617, -9.3080823642, 1.89008521931],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 1.33, 2.0, 4.5],
      coefficients: [-3.72547104415, 2.94591476837, -4.33437302835, 0.981825379466, -1.29385825204, -3.59422039615],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 4.0],
      coefficients: [672933.504052, -1121874.30735, 2436431.81416, -1431980.94095, 143587.763785],
    },
    virialB: [0.000224143662, -0.000673663547, 0.000255315568, -0.000159582945, 1.05684917e-5],
    virialC: [6.65688005e-8, -2.2212903e-7, 2.61724295e-7, -9.47760548e-8, 5.22250232e-9],
  },
  'R-717': {
    molarMassGPerMol: 17.03052,
    criticalTemperatureK: 405.559999973,
    criticalPressureKpa: 11363.3911574,
    criticalDensityKgPerM3: 233.249995998,
    lowestK: 195.496,
    highestK: 405.229,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.5, 4.5],
      coefficients: [-7.4983834107, 1.18525519377, -2.31427287872, -0.747777181714],
    },
    liquidDensity: {
      exponents: [0.36, 0.5, 0.66, 2.0],
      coefficients: [1.96490732378, 0.122400703809, 0.696067936548, 0.208589894415],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.33, 2.0, 3.5],
      coefficients: [-2.37902954537, 2.58396726486, -4.17773262135, -2.88779873021, 2.36886249666, -4.7761818039],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 1.2, 1.5],
      coefficients: [
        20720822.4261, -48258286.494, 63045963.5515, -79173572.4213, 72046709.2133, -36866026.2689, 10365551.7016,
      ],
    },
    virialB: [0.000308009897, -0.000931873001, 0.000645558869, -0.000266948954, -4.99415281e-6],
    virialC: [3.67015792e-7, -1.18592014e-6, 1.09582708e-6, -2.7858641e-7, 1.16632691e-9],
  },
  'R-744': {
    molarMassGPerMol: 44.0098,
    criticalTemperatureK: 304.128200003,
    criticalPressureKpa: 7377.29837345,
    criticalDensityKgPerM3: 467.599969911,
    lowestK: 216.593,
    highestK: 303.797,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.0],
      coefficients: [-7.06164451142, 1.94918274755, -1.66263528196, -3.27087963755],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.66, 2.5],
      coefficients: [1.84632120029, -0.252128205726, 1.01368128046, 0.256779793537],
    },
    vapourDensity: {
      exponents: [0.33, 0.7, 1.33, 4.5],
      coefficients: [-1.6663375002, -2.85297591952, -0.957269374332, -8.32239477728],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 1.5, 5.0],
      coefficients: [364229.602324, 321759.386978, -172049.403141, 452033.121148],
    },
    virialB: [5.15204437e-5, -9.8625809e-5, -5.85774793e-5, -1.52571308e-5, -3.33844934e-7],
    virialC: [-8.02080645e-9, 2.89436431e-8, -2.24995496e-8, 7.50492108e-9, -1.2176609e-9],
  },
};
