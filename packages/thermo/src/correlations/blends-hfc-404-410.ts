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
    criticalTemperatureK: 345.270190451,
    criticalPressureKpa: 3734.88778309,
    criticalDensityKgPerM3: 486.698835263,
    lowestK: 213.15,
    highestK: 343.27,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.0, 4.0],
      coefficients: [-7.29584255232, 4.29714426458, -4.13854773074, -3.16818530997],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 4.0],
      coefficients: [-8.39857897563, 3.49970560233, -1.86072340645, -4.38874643482],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.85, 5.0],
      coefficients: [-0.244159771775, 2.41046125824, 0.51422993203, 1.82907690244],
    },
    vapourDensity: {
      exponents: [0.38, 0.7, 1.0, 3.0, 3.5],
      coefficients: [-2.59312463989, -0.776626584507, -2.3975328216, 4.03164440815, -9.25763433551],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 2.5],
      coefficients: [283270.499976, 492260.665121, -1271806.50926, 908727.959588],
    },
    virialB: [0.00012644724, -0.000248691045, -0.000196352272, -5.98084253e-5, -1.99267797e-5],
    virialC: [7.85562982e-6, -2.50855208e-5, 2.31831737e-5, -6.74388882e-6, 8.38450812e-7],
  },
  'R-407A': {
    molarMassGPerMol: 90.110733,
    criticalTemperatureK: 355.396866972,
    criticalPressureKpa: 4513.89430532,
    criticalDensityKgPerM3: 497.573987867,
    lowestK: 213.15,
    highestK: 353.397,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [9.38339129116, -115.329331347, 330.91783786, -460.645131388, 277.040054919, -51.1816430185],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -37.2192744638, 234.516603415, -786.315557918, 1333.42087992, -1009.52563869, 358.803650389, -106.741850796,
      ],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.33, 1.66, 2.0],
      coefficients: [25.9331458303, -47.1946470104, 78.2944937175, -89.4640768244, 36.3075672192],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.59741175201, 2.60785931625, -4.48718676436, -3.69865042575, -5.6519386731],
    },
    latentHeat: {
      exponents: [0.38, 0.9, 2.0, 5.0],
      coefficients: [318954.395688, 72607.5176564, -122400.45647, 463756.6021],
    },
    virialB: [6.34715901e-5, -8.77166336e-5, -0.000263122322, -7.22915186e-5, -1.46771336e-5],
    virialC: [1.32311359e-6, -4.13536604e-6, 3.74940819e-6, -1.01415368e-6, 1.09657889e-7],
  },
  'R-407C': {
    molarMassGPerMol: 86.203637,
    criticalTemperatureK: 359.287875232,
    criticalPressureKpa: 4639.30450517,
    criticalDensityKgPerM3: 484.034409032,
    lowestK: 213.15,
    highestK: 357.288,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [11.8969187414, -132.626399706, 379.100488943, -524.73140033, 312.872919267, -56.2425292746],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -41.1599305182, 265.968114497, -890.149456233, 1502.83335947, -1131.17399693, 396.221739516, -115.535650335,
      ],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.33, 2.0],
      coefficients: [37.9779074165, -126.308481076, 122.979181377, -36.980735087, 5.64453022293],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 2.0, 4.5],
      coefficients: [-12.2781910806, 19.5518491543, -12.2885184103, -1.86196532023, -5.83555758146],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 0.9, 1.2, 2.0],
      coefficients: [1462507.62624, -3714780.1159, 4477365.6546, -2225039.04873, 400480.349172],
    },
    virialB: [4.30084196e-5, -2.20215468e-5, -0.000328475208, -5.7292428e-5, -1.78933503e-5],
    virialC: [1.64351061e-6, -5.13996211e-6, 4.65427366e-6, -1.25831846e-6, 1.3585663e-7],
  },
  'R-407F': {
    molarMassGPerMol: 82.058269,
    criticalTemperatureK: 355.753702233,
    criticalPressureKpa: 4749.22788399,
    criticalDensityKgPerM3: 475.648540584,
    lowestK: 213.15,
    highestK: 353.754,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [10.8338311914, -125.822575263, 361.088807599, -501.865555744, 300.687310328, -54.699964346],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -36.9138696036, 232.346927489, -780.095468107, 1324.77755584, -1004.26671495, 357.756559735, -106.579176367,
      ],
    },
    liquidDensity: {
      exponents: [0.66, 0.85, 1.0, 1.66, 2.0],
      coefficients: [35.9198938739, -106.949044043, 88.5933911692, -30.0237640209, 15.9802615592],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.0, 6.0],
      coefficients: [-3.50182886195, 2.53063905413, -4.5169825577, -3.40339162919, -7.04597565912],
    },
    latentHeat: {
      exponents: [0.38, 1.5, 2.0, 3.0],
      coefficients: [356702.831423, 338870.702173, -618888.87452, 389030.010226],
    },
    virialB: [7.39139764e-5, -0.000121857655, -0.000224057948, -7.47031121e-5, -1.58824035e-5],
    virialC: [1.46921088e-6, -4.60207385e-6, 4.17520855e-6, -1.13139303e-6, 1.22832292e-7],
  },
  'R-407H': {
    molarMassGPerMol: 79.099291,
    criticalTemperatureK: 359.675960746,
    criticalPressureKpa: 4856.56403378,
    criticalDensityKgPerM3: 463.161992653,
    lowestK: 213.15,
    highestK: 357.676,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [13.8694252616, -147.24785833, 421.816619183, -583.725158617, 346.991575996, -61.4255276501],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -40.9994848253, 264.847408531, -886.986853022, 1498.57941416, -1128.69618818, 395.855483404, -115.530457433,
      ],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 1.0, 1.66],
      coefficients: [-87.5100442272, 137.485752392, -90.7326219818, 55.0177790673, -13.5004348151, 2.53257049375],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 2.0, 4.5],
      coefficients: [-12.3568522907, 19.7799566083, -12.4526663834, -1.76645692476, -5.87337831493],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 5.0],
      coefficients: [270446.087052, 179904.038368, -147087.083301, 422184.01959],
    },
    virialB: [5.64174145e-5, -6.56922074e-5, -0.000281761734, -6.22155898e-5, -1.84186616e-5],
    virialC: [1.70578531e-6, -5.34329968e-6, 4.84250597e-6, -1.31089497e-6, 1.42017801e-7],
  },
  'R-410A': {
    molarMassGPerMol: 72.585414,
    criticalTemperatureK: 344.494101035,
    criticalPressureKpa: 4901.23080619,
    criticalDensityKgPerM3: 459.05084196,
    lowestK: 213.15,
    highestK: 342.494,
    bubblePressure: {
      exponents: [1.0, 1.75, 2.5, 4.5],
      coefficients: [-7.28369580723, 1.99719511713, -2.72234506237, -2.30258944776],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.5, 5.0],
      coefficients: [-7.49121966868, 1.62938465655, -2.04956339968, -3.49623342881],
    },
    liquidDensity: {
      exponents: [0.5, 0.85, 1.0, 1.66, 2.5],
      coefficients: [8.34196461433, -33.9770622155, 35.3273382417, -9.9866240624, 4.04716239397],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 1.0, 3.0, 3.5],
      coefficients: [2.88965858359, -6.03753966732, -2.62116842947, 2.69347487997, -7.0821599494],
    },
    latentHeat: {
      exponents: [0.38, 0.5, 4.0, 5.0],
      coefficients: [304832.424457, 120544.316445, -966843.324093, 1826065.95518],
    },
    virialB: [0.000134297282, -0.000317073145, -1.39696683e-5, -0.000105243802, -1.10052789e-5],
    virialC: [8.80468141e-7, -2.77323201e-6, 2.53655018e-6, -6.90163715e-7, 7.57296695e-8],
  },
};
