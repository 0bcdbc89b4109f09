/**
 * Blends with an HFO or trifluoroiodomethane, R-455A to R-516A.
 * Own fits to values computed with CoolProp 8.0.1dev (HEOS backend, MIT licence) as calculator.
 * Blends: multi-fluid mixture model (Kunz-Wagner, Lemmon) at the nominal composition, in mass percent:
 *   R-455A: R-744/R-32/R-1234yf 3/21.5/75.5
 *   R-463A: R-744/R-32/R-125/R-1234yf/R-134a 6/36/30/14/14
 *   R-466A: R-32/R-125/R-13I1 49/11.5/39.5
 *   R-513A: R-1234yf/R-134a 56/44
 *   R-515B: R-1234ze(E)/R-227ea 91.1/8.9
 *   R-516A: R-1234yf/R-134a/R-152a 77.5/8.5/14
 * Largest error of the fits against those values: bubble pressure 0.017 %, dew pressure 0.029 %, liquid density
 * 0.017 %, vapour density 0.028 %, latent heat 0.066 %.
 * Vapour density by the virial: 0.007 % at 101 kPa, 0.045 % up to half the dew pressure.
 */
import type { Correlation } from './types.ts';

export const HFO_BLENDS_455_TO_516: Readonly<Record<string, Correlation>> = {
  'R-455A': {
    molarMassGPerMol: 87.452602,
    criticalTemperatureK: 358.784732,
    criticalPressureKpa: 4601.90472,
    criticalDensityKgPerM3: 452.439481,
    lowestK: 213.15,
    highestK: 356.785,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [20.6564935, -173.325072, 461.628533, -604.227999, 342.921199, -56.0262],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-75.8713637, 533.202427, -1749.29481, 2883.46789, -2116.53452, 702.746086, -190.840336],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-170.606309, 270.923209, -216.144543, 206.985116, -134.675471, 46.5295974],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.5],
      coefficients: [-3.82125278, 2.90861223, -4.44918051, -4.7032788],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.5],
      coefficients: [866993.42, -940031.695, 1489112.47, -1379930.27, 362176.42],
    },
    virialB: [0.00022270431, -0.000558870637, 0.000106928658, -0.000142740884, -4.07199036e-6],
    virialC: [6.88253049e-7, -2.20613926e-6, 2.06177648e-6, -5.72095329e-7, 5.85596382e-8],
  },
  'R-463A': {
    molarMassGPerMol: 74.724393,
    criticalTemperatureK: 348.423011,
    criticalPressureKpa: 5219.83305,
    criticalDensityKgPerM3: 461.242604,
    lowestK: 213.15,
    highestK: 346.423,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [17.4113554, -154.363875, 410.24464, -534.08998, 301.820104, -49.1422034],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [-53.8040075, 360.515631, -1192.49442, 1994.72017, -1491.04582, 517.090044, -148.473998],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [-258.793324, 404.359067, -291.693259, 226.504208, -85.3516498, 8.2403244],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-3.23458612, 2.75340863, -4.90166712, -1.48530622, -5.71660427],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 2.0],
      coefficients: [-8177108.73, 17578977.4, -15597612.5, 10619131, -4228152.17, 218684.979],
    },
    virialB: [0.000136664665, -0.000318917625, -2.05161694e-5, -9.77889759e-5, -7.85184028e-6],
    virialC: [2.35877875e-7, -7.58985676e-7, 7.21100888e-7, -1.91617918e-7, 2.01652223e-8],
  },
  'R-466A': {
    molarMassGPerMol: 80.689931,
    criticalTemperatureK: 351.173136,
    criticalPressureKpa: 5343.76751,
    criticalDensityKgPerM3: 557.475123,
    lowestK: 213.15,
    highestK: 349.173,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.0],
      coefficients: [-48.5512951, 131.669487, -163.567279, 80.8609648, -9.76962071],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.5],
      coefficients: [-13.1861091, 29.7458049, -54.4301878, 38.9043991, -9.82475339],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.33, 1.66],
      coefficients: [11.4010396, -17.7722336, 21.3045873, -19.4883624, 7.76290758],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 2.5, 4.5],
      coefficients: [-2.26835959, 0.941925373, -3.89039211, -0.963735304, -3.97717717],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 3.0],
      coefficients: [233643.117, 198854.66, -287967.727, 285391.408],
    },
    virialB: [0.000136533257, -0.000327117318, -1.13837899e-5, -9.79174458e-5, -1.11343507e-5],
    virialC: [7.11680352e-7, -2.24774904e-6, 2.06259846e-6, -5.57681326e-7, 6.12396699e-8],
  },
  'R-513A': {
    molarMassGPerMol: 108.42622,
    criticalTemperatureK: 368.560676,
    criticalPressureKpa: 3655.09401,
    criticalDensityKgPerM3: 483.622838,
    lowestK: 213.15,
    highestK: 366.561,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.5712787, 3.32906816, -2.76489628, -3.52800375],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.5699158, 2.50607529, -2.36729996, -4.18215894],
    },
    liquidDensity: {
      exponents: [0.33, 1.33, 1.66, 2.0],
      coefficients: [2.01064132, 5.72858297, -10.358352, 5.78772653],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.5, 8.0],
      coefficients: [-9.75391115, 17.2875881, -24.9785452, 14.7562267, -6.01930577, -13.6212061],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.5, 4.0],
      coefficients: [203827.723, 134151.976, -241558.169, 427250.096],
    },
    virialB: [0.000120746711, -0.000235320329, -0.000257645098, -0.000116009374, -5.01329778e-6],
    virialC: [-4.24047428e-8, 1.07263077e-7, -3.48796331e-8, 2.68202406e-8, -1.55042518e-8],
  },
  'R-515B': {
    molarMassGPerMol: 117.4846,
    criticalTemperatureK: 381.779282,
    criticalPressureKpa: 3589.42152,
    criticalDensityKgPerM3: 502.844788,
    lowestK: 213.15,
    highestK: 379.779,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.87846474, 1.39368874, -2.22943915, -3.27557748],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.88047245, 1.39760278, -2.24408841, -3.23901089],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 1.33, 2.0],
      coefficients: [1.71816832, 1.7596917, -1.80972233, 1.26746827],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.0, 2.5, 4.5],
      coefficients: [-9.12950317, 13.4917139, -8.60636876, -1.18738447, -1.3876696, -5.25673822],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 5.0],
      coefficients: [289181.989, -455124.04, 1002901.25, -576340.197, 215049.44],
    },
    virialB: [0.000144313909, -0.000383657297, -0.000124292353, -0.000218990417, 1.91729188e-5],
    virialC: [-5.09044759e-9, -6.46552814e-8, 2.5478999e-7, -1.53249167e-7, 1.10299859e-8],
  },
  'R-516A': {
    molarMassGPerMol: 102.58081,
    criticalTemperatureK: 370.321014,
    criticalPressureKpa: 3650.62238,
    criticalDensityKgPerM3: 462.360273,
    lowestK: 213.15,
    highestK: 368.321,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.81665685, 1.60454176, -1.2070959, -3.53281482],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.84631771, 1.6542934, -1.2464468, -3.77111188],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.33, 2.0],
      coefficients: [9.58176704, -14.3084312, 15.7176008, -10.9454835, 3.01377816],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.66, 3.5],
      coefficients: [23.2747086, -49.3572361, 36.5670498, -16.8953698, 1.63163611, -5.57655925],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.5],
      coefficients: [898091.938, -1145103.44, 2034420.82, -1873740.84, 474807.267],
    },
    virialB: [0.000260096333, -0.000681556511, 0.00012802411, -0.000222023263, 6.63583475e-6],
    virialC: [7.99998209e-8, -3.27991845e-7, 4.15889937e-7, -1.21161789e-7, 2.8074921e-9],
  },
};
