/** A sum of powers, `sum c_i * theta^e_i` with `theta = 1 - T / Tc`. */
export interface Fit {
  readonly exponents: readonly number[];
  readonly coefficients: readonly number[];
}

/**
 * What is known of one refrigerant, as fits along its saturation line and a virial of its vapour. With `S` the fit's sum:
 * pressure `p = pc exp(Tc/T S)`; liquid density `rhoc (1 + S)`; vapour density `rhoc exp(Tc/T S)`; latent heat `S` in J/kg.
 * Virial: `p / (n R T) = 1 + B n + C n^2`, n in mol/m3, `B = sum b_k u^e_k` (m3/mol), `C` alike (m6/mol2), `u = 300 K / T`,
 * `e = 0, 1, 2, 4, 7`; for 233 to 353 K and up to half the dew pressure.
 */
export interface Correlation {
  readonly molarMassGPerMol: number;
  readonly criticalTemperatureK: number;
  readonly criticalPressureKpa: number;
  readonly criticalDensityKgPerM3: number;
  /** The fits hold from here … */
  readonly lowestK: number;
  /** … to here; never extrapolated. */
  readonly highestK: number;
  readonly bubblePressure: Fit;
  /** Absent for a pure fluid, whose dew line is its bubble line. */
  readonly dewPressure?: Fit;
  /** Of the liquid at its bubble point. */
  readonly liquidDensity: Fit;
  /** Of the vapour at its dew point. */
  readonly vapourDensity: Fit;
  /** Enthalpy of the dew vapour minus that of the bubble liquid at one temperature. */
  readonly latentHeat: Fit;
  readonly virialB: readonly number[];
  readonly virialC: readonly number[];
  /** Some pair in the mixture model has no published parameters: expect 1 to 2 % in pressure. */
  readonly estimatedPairs?: true;
}
