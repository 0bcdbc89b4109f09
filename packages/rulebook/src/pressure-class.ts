/**
 * Pressure class by liquid-phase saturation pressure at 104 °F (40 CFR 82.152): low below 45 psia, medium 45 to 170,
 * high above 170 to 355, very high above 355 or with a critical temperature below 104 °F. The law's own examples win
 * over the figure; the rest is classed by a computed bubble pressure, kept here with its source.
 */
import { KPA_PER_PSI } from '@ullage/units';

export type PressureClass = 'low' | 'medium' | 'high' | 'very-high';

export interface PressureClassReason {
  readonly class: PressureClass;
  readonly reason: string;
  readonly source: string;
  /** The figure is so near a limit, or so thinly sourced, that the class should be checked. */
  readonly doubtful: boolean;
}

const EXAMPLES: Readonly<Record<PressureClass, readonly string[]>> = {
  low: ['R-11', 'R-113', 'R-123', 'R-245fa'],
  medium: ['R-12', 'R-114', 'R-124', 'R-134a', 'R-500'],
  high: ['R-22', 'R-407A', 'R-407C', 'R-410A', 'R-502'],
  'very-high': ['R-13', 'R-23', 'R-503', 'R-508B'],
};

/** Bubble pressure at 40 °C (104 °F) in kPa absolute, CoolProp 8.0.1dev HEOS. */
const KPA_AT_104_F: Readonly<Record<string, number>> = {
  'R-32': 2478.313,
  'R-115': 1313.639,
  'R-125': 2008.493,
  'R-142b': 522.759,
  'R-143a': 1831.41,
  'R-152a': 909.2681,
  'R-227ea': 702.4529,
  'R-236fa': 436.7159,
  'R-290': 1369.42,
  'R-600': 378.4852,
  'R-600a': 531.2079,
  'R-601a': 151.506,
  'R-717': 1554.533,
  'R-1270': 1648.433,
  'R-1234yf': 1018.473,
  'R-1234ze(E)': 766.4512,
  'R-1233zd(E)': 216.1015,
  'R-401A': 1154.82,
  'R-402A': 1833.714,
  'R-404A': 1829.414,
  'R-407F': 1921.41,
  'R-407H': 1819.761,
  'R-408A': 1683.501,
  'R-409A': 1180.945,
  'R-417A': 1452.43,
  'R-422D': 1658.441,
  'R-427A': 1681.215,
  'R-438A': 1645.046,
  'R-448A': 1883.074,
  'R-449A': 1858.336,
  'R-450A': 907.8732,
  'R-452A': 1901.92,
  'R-452B': 2334.231,
  'R-454A': 1954.142,
  'R-454B': 2313.614,
  'R-454C': 1702.125,
  'R-455A': 1966.875,
  'R-463A': 2651.212,
  'R-507A': 1869.603,
  'R-513A': 1066.735,
  'R-515B': 766.2843,
  'R-516A': 1037.821,
};

/** Classed without a computed figure. */
const BY_REASON: Readonly<Record<string, PressureClassReason>> = {
  'R-744': {
    class: 'very-high',
    reason: 'Critical temperature 87.8 °F is below 104 °F.',
    source: '40 CFR 82.152; Span & Wagner 1996',
    doubtful: false,
  },
  'R-116': {
    class: 'very-high',
    reason: 'Critical temperature 67.8 °F is below 104 °F.',
    source: '40 CFR 82.152; CoolProp 8.0.1dev HEOS',
    doubtful: false,
  },
  'R-1336mzz(Z)': {
    class: 'low',
    reason: 'Boils at about 92 °F, so far below 45 psia at 104 °F.',
    source: '40 CFR 82.152; boiling point from memory',
    doubtful: false,
  },
  'R-1336mzz(E)': {
    class: 'medium',
    reason: 'Boils at about 46 °F; some 46 psia at 104 °F, close to the limit of 45.',
    source: '40 CFR 82.152; pressure estimated from a boiling point from memory',
    doubtful: true,
  },
  'HFE-569sf2': {
    class: 'low',
    reason: 'Boils at about 169 °F, so far below 45 psia at 104 °F.',
    source: '40 CFR 82.152; boiling point from memory',
    doubtful: false,
  },
};

export function pressureClassAt(psia: number): PressureClass {
  if (psia < 45) return 'low';
  if (psia <= 170) return 'medium';
  return psia <= 355 ? 'high' : 'very-high';
}

const LIMITS_PSIA = [45, 170, 355];

function computed(name: string, kpa: number): PressureClassReason {
  const psia = kpa / KPA_PER_PSI;
  const near = LIMITS_PSIA.some((limit) => Math.abs(psia / limit - 1) < 0.02);
  const own = pressureClassAt(psia);
  const doubt = near ? ' It is within 2 % of a limit and no example of the law names it.' : '';
  return {
    class: own,
    reason: `${name}: ${psia.toFixed(1)} psia at 104 °F, ${own.replace('-', ' ')} pressure by the figure.${doubt}`,
    source: '40 CFR 82.152; bubble pressure by CoolProp 8.0.1dev HEOS',
    doubtful: near,
  };
}

/** The class of a refrigerant with its reason, or undefined where nothing is known. */
export function pressureClassOf(name: string): PressureClassReason | undefined {
  for (const own of ['low', 'medium', 'high', 'very-high'] as const)
    if (EXAMPLES[own].includes(name))
      return {
        class: own,
        reason: `${name} is named in the law as an example of ${own.replace('-', ' ')} pressure.`,
        source: '40 CFR 82.152',
        doubtful: false,
      };
  const kpa = KPA_AT_104_F[name];
  return kpa === undefined ? BY_REASON[name] : computed(name, kpa);
}
