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
    criticalTemperatureK: 358.784732336,
    criticalPressureKpa: 4601.90472407,
    criticalDensityKgPerM3: 452.439480587,
    lowestK: 213.15,
    highestK: 356.785,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [20.6564934714, -173.325071973, 461.628532994, -604.227999009, 342.921198522, -56.026199968],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -75.8713637067, 533.202426812, -1749.29481117, 2883.4678939, -2116.53451572, 702.746085632, -190.840336257,
      ],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.0],
      coefficients: [-170.606308693, 270.9232091, -216.144542534, 206.98511552, -134.675471346, 46.5295974223],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 3.5],
      coefficients: [-3.8212527846, 2.90861222537, -4.44918051398, -4.70327879674],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.5],
      coefficients: [866993.420487, -940031.694588, 1489112.46627, -1379930.26843, 362176.419598],
    },
    virialB: [0.00022270431, -0.000558870637, 0.000106928658, -0.000142740884, -4.07199036e-6],
    virialC: [6.88253049e-7, -2.20613926e-6, 2.06177648e-6, -5.72095329e-7, 5.85596382e-8],
  },
  'R-463A': {
    molarMassGPerMol: 74.724393,
    criticalTemperatureK: 348.423010816,
    criticalPressureKpa: 5219.83305377,
    criticalDensityKgPerM3: 461.242604318,
    lowestK: 213.15,
    highestK: 346.423,
    bubblePressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5],
      coefficients: [17.411355405, -154.363875006, 410.244639738, -534.089979548, 301.820104243, -49.1422033865],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0],
      coefficients: [
        -53.8040074887, 360.515630846, -1192.49442461, 1994.72016621, -1491.04581958, 517.090044424, -148.473998227,
      ],
    },
    liquidDensity: {
      exponents: [0.33, 0.36, 0.5, 0.66, 0.85, 1.33],
      coefficients: [-258.79332391, 404.359067283, -291.693258701, 226.504207648, -85.3516498129, 8.24032439794],
    },
    vapourDensity: {
      exponents: [0.38, 0.5, 0.7, 2.5, 4.5],
      coefficients: [-3.23458611892, 2.75340863139, -4.90166712067, -1.48530622118, -5.71660426537],
    },
    latentHeat: {
      exponents: [0.33, 0.38, 0.5, 0.7, 0.9, 2.0],
      coefficients: [-8177108.73465, 17578977.4228, -15597612.5365, 10619131.0332, -4228152.16896, 218684.979118],
    },
    virialB: [0.000136664665, -0.000318917625, -2.05161694e-5, -9.77889759e-5, -7.85184028e-6],
    virialC: [2.35877875e-7, -7.58985676e-7, 7.21100888e-7, -1.91617918e-7, 2.01652223e-8],
  },
  'R-466A': {
    molarMassGPerMol: 80.689931,
    criticalTemperatureK: 351.173136344,
    criticalPressureKpa: 5343.76751058,
    criticalDensityKgPerM3: 557.475122623,
    lowestK: 213.15,
    highestK: 349.173,
    bubblePressure: {
      exponents: [1.25, 1.5, 1.75, 2.0, 3.0],
      coefficients: [-48.5512950699, 131.669486531, -163.567278702, 80.8609648019, -9.76962070694],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 1.5, 1.75, 2.5],
      coefficients: [-13.1861091361, 29.7458048988, -54.4301878321, 38.9043990728, -9.82475338919],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.33, 1.66],
      coefficients: [11.4010395825, -17.772233589, 21.3045872919, -19.4883623644, 7.7629075787],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.7, 2.5, 4.5],
      coefficients: [-2.26835959453, 0.941925372522, -3.89039211155, -0.963735303779, -3.97717716938],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.0, 3.0],
      coefficients: [233643.117027, 198854.660013, -287967.727088, 285391.407932],
    },
    virialB: [0.000136533257, -0.000327117318, -1.13837899e-5, -9.79174458e-5, -1.11343507e-5],
    virialC: [7.11680352e-7, -2.24774904e-6, 2.06259846e-6, -5.57681326e-7, 6.12396699e-8],
  },
  'R-513A': {
    molarMassGPerMol: 108.42622,
    criticalTemperatureK: 368.560676214,
    criticalPressureKpa: 3655.09400914,
    criticalDensityKgPerM3: 483.6228382,
    lowestK: 213.15,
    highestK: 366.561,
    bubblePressure: {
      exponents: [1.0, 1.5, 1.75, 4.0],
      coefficients: [-7.57127869546, 3.32906816387, -2.76489628015, -3.52800375131],
    },
    dewPressure: {
      exponents: [1.0, 1.5, 2.0, 4.5],
      coefficients: [-7.56991580147, 2.50607529016, -2.36729995879, -4.18215893974],
    },
    liquidDensity: {
      exponents: [0.33, 1.33, 1.66, 2.0],
      coefficients: [2.01064132447, 5.72858297409, -10.3583519765, 5.78772652739],
    },
    vapourDensity: {
      exponents: [0.5, 0.7, 1.0, 1.33, 2.5, 8.0],
      coefficients: [-9.75391114691, 17.287588106, -24.978545233, 14.7562266816, -6.01930576715, -13.6212060898],
    },
    latentHeat: {
      exponents: [0.33, 0.7, 2.5, 4.0],
      coefficients: [203827.723029, 134151.975726, -241558.168626, 427250.095962],
    },
    virialB: [0.000120746711, -0.000235320329, -0.000257645098, -0.000116009374, -5.01329778e-6],
    virialC: [-4.24047428e-8, 1.07263077e-7, -3.48796331e-8, 2.68202406e-8, -1.55042518e-8],
  },
  'R-515B': {
    molarMassGPerMol: 117.4846,
    criticalTemperatureK: 381.779282058,
    criticalPressureKpa: 3589.42152351,
    criticalDensityKgPerM3: 502.844788335,
    lowestK: 213.15,
    highestK: 379.779,
    bubblePressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.87846473635, 1.39368873801, -2.22943914923, -3.27557748154],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 3.0, 5.0],
      coefficients: [-7.88047245077, 1.39760277637, -2.24408841442, -3.23901088564],
    },
    liquidDensity: {
      exponents: [0.33, 0.85, 1.33, 2.0],
      coefficients: [1.71816832111, 1.75969169919, -1.80972232935, 1.26746827275],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 1.0, 2.5, 4.5],
      coefficients: [-9.12950317314, 13.4917138776, -8.60636876212, -1.18738446902, -1.38766959906, -5.25673822231],
    },
    latentHeat: {
      exponents: [0.33, 0.5, 0.7, 0.9, 5.0],
      coefficients: [289181.989209, -455124.039866, 1002901.25365, -576340.197384, 215049.440348],
    },
    virialB: [0.000144313909, -0.000383657297, -0.000124292353, -0.000218990417, 1.91729188e-5],
    virialC: [-5.09044759e-9, -6.46552814e-8, 2.5478999e-7, -1.53249167e-7, 1.10299859e-8],
  },
  'R-516A': {
    molarMassGPerMol: 102.58081,
    criticalTemperatureK: 370.321013956,
    criticalPressureKpa: 3650.6223832,
    criticalDensityKgPerM3: 462.360272758,
    lowestK: 213.15,
    highestK: 368.321,
    bubblePressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.816656854, 1.60454175991, -1.20709590124, -3.53281482143],
    },
    dewPressure: {
      exponents: [1.0, 1.25, 2.5, 4.5],
      coefficients: [-7.84631770708, 1.65429339801, -1.24644680387, -3.77111187941],
    },
    liquidDensity: {
      exponents: [0.5, 0.66, 1.0, 1.33, 2.0],
      coefficients: [9.58176703954, -14.3084311714, 15.7176008149, -10.9454835496, 3.01377816333],
    },
    vapourDensity: {
      exponents: [0.33, 0.38, 0.5, 0.7, 1.66, 3.5],
      coefficients: [23.2747086461, -49.3572360733, 36.5670498242, -16.8953697957, 1.6316361137, -5.57655924696],
    },
    latentHeat: {
      exponents: [0.5, 0.7, 1.2, 1.5, 2.5],
      coefficients: [898091.937938, -1145103.43782, 2034420.82356, -1873740.84353, 474807.267262],
    },
    virialB: [0.000260096333, -0.000681556511, 0.00012802411, -0.000222023263, 6.63583475e-6],
    virialC: [7.99998209e-8, -3.27991845e-7, 4.15889937e-7, -1.21161789e-7, 2.8074921e-9],
  },
};
