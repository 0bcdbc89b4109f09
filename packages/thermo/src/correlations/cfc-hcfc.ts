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
    criticalTemperatureK: 385.119999768,
    criticalPressureKpa: 4136.16562844,
    criticalDensityKgPerM3: 565.000000545,
    lowestK: 180.001,
    highestK: 384.789,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.32106798253, 1.57952369471, -0.874403743363, -2.77971959982],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-98.8929708475, 165.999539288, -159.61161176, 176.543648295, -128.019333437, 46.7371700549],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 3.0, 4.5],
      coefficients: [5.85141432869, -14.4450019768, 10.2304103933, -6.61398333557, -1.04819107639, -3.4905301188],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1770888.15889, 4222731.93423, -4133284.24228, 3285051.05633, -1419523.37389, 86009.0150091],
    },
    virialB: [0.000154768048, -0.000380455805, -0.000156135538, -7.10774848e-5, -7.81211447e-7],
    virialC: [-3.73197484e-9, 2.80531966e-8, 4.7734014e-9, 3.77401354e-9, -5.42050481e-10],
  },
  'R-22': {
    molarMassGPerMol: 86.468,
    criticalTemperatureK: 369.295000008,
    criticalPressureKpa: 4990.00000046,
    criticalDensityKgPerM3: 523.842167024,
    lowestK: 180.001,
    highestK: 368.964,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.1142127515, 2.07062820315, -1.7696326909, -3.25668161877],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 2.0],
      coefficients: [3.35423489529, -2.66571681941, 1.7926750479, 0.327268583536],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.0, 1.66, 2.0, 6.0],
      coefficients: [-3.04725401888, 3.02878770921, -9.40167289995, 14.622807686, -12.4161154253, -4.19405027228],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1115074.36493, 3080552.11929, -3322186.14401, 3026036.48048, -1387779.64032, 92684.5881364],
    },
    virialB: [-7.78854432e-5, 0.000329579453, -0.000638422254, 5.39206608e-5, -1.54804349e-5],
    virialC: [8.27748374e-6, -2.59312554e-5, 2.34264122e-5, -6.45525781e-6, 6.99789747e-7],
  },
  'R-115': {
    molarMassGPerMol: 154.46642,
    criticalTemperatureK: 353.101977539,
    criticalPressureKpa: 3129.17084911,
    criticalDensityKgPerM3: 614.771464359,
    lowestK: 180.001,
    highestK: 352.771,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 5.0],
      coefficients: [-8.07112937973, 2.31645450424, -1.99316833805, -2.86396495241],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.66, 2.0],
      coefficients: [9.7622129628, -14.4788862485, 11.6807700454, -11.0384192414, 6.94229367842],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 1.33, 4.5],
      coefficients: [
        28.4844539624, -65.4815188167, 62.8171887525, -47.5340682509, 26.4641732221, -10.9368615185, -4.42908851472,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1495135.02432, 3462099.79888, -3178350.39301, 2289367.98928, -922265.395136, 49834.293557],
    },
    virialB: [0.000214860845, -0.000530647274, -1.90563103e-5, -0.000111789338, 8.01949953e-6],
    virialC: [-6.20338401e-6, 2.0185877e-5, -1.8986957e-5, 5.84416351e-6, -8.51235584e-7],
  },
  'R-123': {
    molarMassGPerMol: 152.931,
    criticalTemperatureK: 456.830025813,
    criticalPressureKpa: 3661.80526944,
    criticalDensityKgPerM3: 550.012894861,
    lowestK: 180.001,
    highestK: 456.499,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.0, 7.0],
      coefficients: [-7.7783869207, 1.54757227938, -0.998190909032, -3.31939438414, -0.698320987962],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 1.0, 1.33],
      coefficients: [-43.996976002, 72.0542071128, -53.469842298, 37.5696498883, -14.1735207119, 4.88394774741],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.33, 2.5, 4.5],
      coefficients: [
        17.3095697161, -39.4451031185, 32.3874710028, -17.3810351043, 2.64736761585, -2.70741871601, -3.93718627034,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.2, 3.0],
      coefficients: [-1588128.80144, 3670014.91859, -3091310.81453, 1620327.70197, -429844.498973, 138136.933783],
    },
    virialB: [0.000272840535, -0.000815242649, -1.63769071e-5, -0.000479631139, 9.63792219e-6],
    virialC: [1.06094303e-7, -7.14733022e-7, 1.1785658e-6, -5.48173111e-7, -3.60462505e-9],
  },
  'R-124': {
    molarMassGPerMol: 136.4762,
    criticalTemperatureK: 395.427960773,
    criticalPressureKpa: 3624.48251094,
    criticalDensityKgPerM3: 559.293168797,
    lowestK: 180.001,
    highestK: 395.097,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.53287222473, 3.40248607707, -2.82974979797, -3.85442726088],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 0.85, 1.0, 1.66],
      coefficients: [13.0704572388, -32.2710112698, 45.4398171701, -25.4934123315, 2.11336701072],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 1.66, 4.5],
      coefficients: [-10.1833540114, 20.0190477115, -34.7063784114, 34.0558481609, -16.0423285273, -4.37061680717],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-1462467.58173, 3542118.68149, -3449755.49487, 2755830.09217, -1181784.55413, 88628.6717034],
    },
    virialB: [0.000234178724, -0.00062292565, 3.65362683e-6, -0.00023133949, 1.1196342e-6],
    virialC: [-3.54264258e-6, 1.10103708e-5, -9.77551076e-6, 2.6302795e-6, -2.78158708e-7],
  },
  'R-142b': {
    molarMassGPerMol: 100.49503,
    criticalTemperatureK: 410.260232652,
    criticalPressureKpa: 4054.78342013,
    criticalDensityKgPerM3: 446.003795251,
    lowestK: 180.001,
    highestK: 409.929,
    bubblePressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.35283811867, 2.79396514575, -2.50198335505, -3.12923659228],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 2.5],
      coefficients: [-47.95694856, 78.6460303711, -59.1633295917, 44.5513406081, -13.7839737368, 0.669306069244],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.0, 2.0, 4.5],
      coefficients: [
        16.1175818727, -37.4889799597, 33.2041258805, -22.368765661, 6.49619395452, -2.22197086775, -4.03658640016,
      ],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 3.0],
      coefficients: [-2817973.14121, 6605343.1569, -6328142.2635, 4749741.63724, -1947036.75379, 115977.519857],
    },
    virialB: [0.000189980223, -0.0005418722, -5.58841047e-5, -0.000177478881, -1.65571268e-5],
    virialC: [-2.59960701e-5, 8.44936587e-5, -7.95801986e-5, 2.45862536e-5, -3.57594442e-6],
  },
};
