/**
 * Blends of HFCs, R-404A to R-410A.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Blends: multi-fluid mixture model (Kunz-Wagner, Lemmon) at the nominal composition, in mass percent:
 *   R-404A: R-125/R-143a/R-134a 44/52/4
 *   R-407A: R-32/R-125/R-134a 20/40/40
 *   R-407C: R-32/R-125/R-134a 23/25/52
 *   R-407F: R-32/R-125/R-134a 30/30/40
 *   R-407H: R-32/R-125/R-134a 32.5/15/52.5
 *   R-410A: 50/50
 * Largest error of the fits against those values: bubble pressure 0.025 %, dew pressure 0.013 %, liquid density
 * 0.026 %, vapour density 0.022 %, latent heat 0.068 %.
 * Vapour density by the virial: 0.021 % at 101 kPa, 0.033 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFC_BLENDS_404_TO_410: Readonly<Record<string, Correlation>> = {
  'R-404A': {
    molarMassGPerMol: 97.603799,
    criticalTemperatureK: 345.27019,
    criticalPressureKpa: 3734.88778,
    criticalDensityKgPerM3: 486.698835,
    lowestK: 213.15,
    highestK: 343.27,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 4.0],
      coefficients: [-7.29584255, 4.29714426, -4.13854773, -3.16818531],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 4.0],
      coefficients: [-8.39857898, 3.4997056, -1.86072341, -4.38874643],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 5.0],
      coefficients: [-0.244159772, 2.41046126, 0.514229932, 1.8290769],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.0, 3.0, 3.5],
      coefficients: [-2.59312464, -0.776626585, -2.39753282, 4.03164441, -9.25763434],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 2.5],
      coefficients: [283270.5, 492260.665, -1271806.51, 908727.96],
    },
    virialB: [0.00012644724, -0.000248691045, -0.000196352272, -5.98084253e-5, -1.99267797e-5],
    virialC: [7.85562982e-6, -2.50855208e-5, 2.31831737e-5, -6.74388882e-6, 8.38450812e-7],
  },
  'R-407A': {
    molarMassGPerMol: 90.110733,
    criticalTemperatureK: 355.396867,
    criticalPressureKpa: 4513.89431,
    criticalDensityKgPerM3: 497.573988,
    lowestK: 213.15,
    highestK: 353.397,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.38339129, -115.329331, 330.917838, -460.645131, 277.040055, -51.181643],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-37.2192745, 234.516603, -786.315558, 1333.42088, -1009.52564, 358.80365, -106.741851],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.33, 1.66, 2.0],
      coefficients: [25.9331458, -47.194647, 78.2944937, -89.4640768, 36.3075672],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.59741175, 2.60785932, -4.48718676, -3.69865043, -5.65193867],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 2.0, 5.0],
      coefficients: [318954.396, 72607.5177, -122400.456, 463756.602],
    },
    virialB: [6.34715901e-5, -8.77166336e-5, -0.000263122322, -7.22915186e-5, -1.46771336e-5],
    virialC: [1.32311359e-6, -4.13536604e-6, 3.74940819e-6, -1.01415368e-6, 1.09657889e-7],
  },
  'R-407C': {
    molarMassGPerMol: 86.203637,
    criticalTemperatureK: 359.287875,
    criticalPressureKpa: 4639.30451,
    criticalDensityKgPerM3: 484.034409,
    lowestK: 213.15,
    highestK: 357.288,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [11.8969187, -132.6264, 379.100489, -524.7314, 312.872919, -56.2425293],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-41.1599305, 265.968114, -890.149456, 1502.83336, -1131.174, 396.22174, -115.53565],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 2.0],
      coefficients: [37.9779074, -126.308481, 122.979181, -36.9807351, 5.64453022],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 2.0, 4.5],
      coefficients: [-12.2781911, 19.5518492, -12.2885184, -1.86196532, -5.83555758],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 2.0],
      coefficients: [1462507.63, -3714780.12, 4477365.65, -2225039.05, 400480.349],
    },
    virialB: [4.30084196e-5, -2.20215468e-5, -0.000328475208, -5.7292428e-5, -1.78933503e-5],
    virialC: [1.64351061e-6, -5.13996211e-6, 4.65427366e-6, -1.25831846e-6, 1.3585663e-7],
  },
  'R-407F': {
    molarMassGPerMol: 82.058269,
    criticalTemperatureK: 355.753702,
    criticalPressureKpa: 4749.22788,
    criticalDensityKgPerM3: 475.648541,
    lowestK: 213.15,
    highestK: 353.754,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [10.8338312, -125.822575, 361.088808, -501.865556, 300.68731, -54.6999643],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-36.9138696, 232.346927, -780.095468, 1324.77756, -1004.26671, 357.75656, -106.579176],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.66, 2.0],
      coefficients: [35.9198939, -106.949044, 88.5933912, -30.023764, 15.9802616],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.50182886, 2.53063905, -4.51698256, -3.40339163, -7.04597566],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 3.0],
      coefficients: [356702.831, 338870.702, -618888.875, 389030.01],
    },
    virialB: [7.39139764e-5, -0.000121857655, -0.000224057948, -7.47031121e-5, -1.58824035e-5],
    virialC: [1.46921088e-6, -4.60207385e-6, 4.17520855e-6, -1.13139303e-6, 1.22832292e-7],
  },
  'R-407H': {
    molarMassGPerMol: 79.099291,
    criticalTemperatureK: 359.675961,
    criticalPressureKpa: 4856.56403,
    criticalDensityKgPerM3: 463.161993,
    lowestK: 213.15,
    highestK: 357.676,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [13.8694253, -147.247858, 421.816619, -583.725159, 346.991576, -61.4255277],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-40.9994848, 264.847409, -886.986853, 1498.57941, -1128.69619, 395.855483, -115.530457],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 1.0, 1.66],
      coefficients: [-87.5100442, 137.485752, -90.732622, 55.0177791, -13.5004348, 2.53257049],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 2.0, 4.5],
      coefficients: [-12.3568523, 19.7799566, -12.4526664, -1.76645692, -5.87337831],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 5.0],
      coefficients: [270446.087, 179904.038, -147087.083, 422184.02],
    },
    virialB: [5.64174145e-5, -6.56922074e-5, -0.000281761734, -6.22155898e-5, -1.84186616e-5],
    virialC: [1.70578531e-6, -5.34329968e-6, 4.84250597e-6, -1.31089497e-6, 1.42017801e-7],
  },
  'R-410A': {
    molarMassGPerMol: 72.585414,
    criticalTemperatureK: 344.494101,
    criticalPressureKpa: 4901.23081,
    criticalDensityKgPerM3: 459.050842,
    lowestK: 213.15,
    highestK: 342.494,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.5, 4.5],
      coefficients: [-7.28369581, 1.99719512, -2.72234506, -2.30258945],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-7.49121967, 1.62938466, -2.0495634, -3.49623343],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.66, 2.5],
      coefficients: [8.34196461, -33.9770622, 35.3273382, -9.98662406, 4.04716239],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 1.0, 3.0, 3.5],
      coefficients: [2.88965858, -6.03753967, -2.62116843, 2.69347488, -7.08215995],
    },
    latentHeat: {
      exponents: [0.38, 0.5, 4.0, 5.0],
      coefficients: [304832.424, 120544.316, -966843.324, 1826065.96],
    },
    virialB: [0.000134297282, -0.000317073145, -1.39696683e-5, -0.000105243802, -1.10052789e-5],
    virialC: [8.80468141e-7, -2.77323201e-6, 2.53655018e-6, -6.90163715e-7, 7.57296695e-8],
  },
};
