import { dayWords } from '@ullage/units';
import { figure } from '../reason.ts';
import type { Requalification } from './requalification.ts';
import { CLAUSE, FILLING_DENSITY_PERCENT, FOREIGN_MASS_LIMIT_PERCENT } from './rules.ts';
import type { Specification } from './specification.ts';

export type ObstacleCode =
  | 'disposable-never-refilled'
  | 'specification-not-allowed'
  | 'service-pressure-too-low'
  | 'service-pressure-unknown'
  | 'no-filling-limit'
  | 'overfilled'
  | 'full'
  | 'requalification-overdue'
  | 'filled-after-due-date'
  | 'visual-does-not-count'
  | 'damaged-test-now'
  | 'over-pressurised-condemn'
  | 'mixed';

/** One thing that forbids filling, in words for the person at the cylinder. */
export interface Obstacle {
  readonly code: ObstacleCode;
  readonly text: string;
  readonly clause: string;
}

export interface ObstacleFacts {
  readonly refrigerant: string;
  readonly disposable: boolean;
  readonly specification: Specification | undefined;
  readonly servicePressureKpaGauge: number | undefined;
  readonly minServicePressureKpaGauge: number | undefined;
  readonly roomKg: number | undefined;
  readonly foreignMassPercent: number | undefined;
  readonly requalification: Requalification;
  readonly filledOn: string | undefined;
  readonly todayOn: string | undefined;
  readonly damage: boolean | string | undefined;
}

/** Gauge figures are stamped as whole psi: half a kilopascal is below any stamp. */
const STAMP_TOLERANCE_KPA = 0.5;

type VesselFacts = Pick<ObstacleFacts, 'disposable' | 'specification' | 'damage'> & { readonly refrigerant?: string };

function ofTheVessel(facts: VesselFacts): Obstacle[] {
  const found: Obstacle[] = [];
  if (facts.disposable || facts.specification?.kind === '39')
    found.push({
      code: 'disposable-never-refilled',
      text: 'A disposable cylinder is never refilled and never takes recovered gas.',
      clause: CLAUSE.disposable,
    });
  const { refrigerant } = facts;
  if (
    facts.specification?.kind === '4B240ET' &&
    refrigerant !== undefined &&
    FILLING_DENSITY_PERCENT[refrigerant] === undefined
  )
    found.push({
      code: 'specification-not-allowed',
      text: `DOT-4B240ET is not in the row for ${refrigerant}; use 4BA, 4BW or 4B.`,
      clause: CLAUSE.fillingDensity,
    });
  if (facts.damage === 'over-pressurised')
    found.push({
      code: 'over-pressurised-condemn',
      text: 'Known to have been over-pressurised: it must be condemned.',
      clause: CLAUSE.overPressure,
    });
  else if (facts.damage !== undefined && facts.damage !== false)
    found.push({
      code: 'damaged-test-now',
      text: 'Damaged: it must be requalified at once, whatever its date.',
      clause: CLAUSE.damage,
    });
  return found;
}

function ofThePressure(facts: ObstacleFacts): Obstacle[] {
  const need = facts.minServicePressureKpaGauge;
  if (need === undefined)
    return [
      {
        code: 'service-pressure-unknown',
        text: 'The pressure of these contents at 55 °C is not known here: ask the gas supplier.',
        clause: CLAUSE.servicePressure,
      },
    ];
  const has = facts.servicePressureKpaGauge;
  if (has === undefined || has + STAMP_TOLERANCE_KPA >= need) return [];
  return [
    {
      code: 'service-pressure-too-low',
      text: `Service pressure is ${figure(has, 0)} kPa gauge; these contents need ${figure(need, 0)}.`,
      clause: CLAUSE.servicePressure,
    },
  ];
}

function ofTheContents(facts: ObstacleFacts): Obstacle[] {
  const found: Obstacle[] = [];
  const { roomKg, foreignMassPercent } = facts;
  if (roomKg === undefined)
    found.push({
      code: 'no-filling-limit',
      text: 'No filling limit is known here for this gas in this cylinder: ask the gas supplier.',
      clause: CLAUSE.fillingDensity,
    });
  else if (roomKg < 0)
    found.push({
      code: 'overfilled',
      text: `Overfilled by ${figure(-roomKg, 3)} kg: recover that much into another cylinder.`,
      clause: `${CLAUSE.guidelineK}; ${CLAUSE.fillingDensity}`,
    });
  else if (roomKg === 0)
    found.push({
      code: 'full',
      text: 'Full: there is no room left.',
      clause: `${CLAUSE.guidelineK}; ${CLAUSE.fillingDensity}`,
    });
  if (foreignMassPercent !== undefined && foreignMassPercent > FOREIGN_MASS_LIMIT_PERCENT)
    found.push({
      code: 'mixed',
      text: `Holds ${figure(foreignMassPercent)} % of other gas, over 0.5 %: mixed. Keep it apart.`,
      clause: CLAUSE.purity,
    });
  return found;
}

type DateFacts = Pick<ObstacleFacts, 'requalification' | 'filledOn' | 'todayOn'>;

function ofTheDate(facts: DateFacts): Obstacle[] {
  const { requalification, filledOn, todayOn } = facts;
  if (!requalification.known)
    return requalification.why === 'visual-does-not-count'
      ? [
          {
            code: 'visual-does-not-count',
            text: 'A visual inspection does not requalify this cylinder in this service: a pressure test is needed.',
            clause: CLAUSE.visual,
          },
        ]
      : [];
  const { byOn } = requalification;
  if (filledOn !== undefined && filledOn > byOn)
    return [
      {
        code: 'filled-after-due-date',
        text: `Filled on ${dayWords(filledOn)}, after its due date ${dayWords(byOn)}: not to be offered for transport.`,
        clause: CLAUSE.dueDate,
      },
    ];
  if (todayOn === undefined || todayOn <= byOn) return [];
  const stays = filledOn === undefined ? '' : ' What was filled before may stay until emptied.';
  return [
    {
      code: 'requalification-overdue',
      text: `Requalification was due by ${dayWords(byOn)}: do not fill.${stays}`,
      clause: CLAUSE.dueDate,
    },
  ];
}

/** What forbids filling with whatever gas: the vessel itself, then its date. */
export const vesselObstacles = (facts: VesselFacts & DateFacts): readonly Obstacle[] => [
  ...ofTheVessel(facts),
  ...ofTheDate(facts),
];

/** Everything known that forbids filling; the vessel itself first, then its date, pressure and contents. */
export const obstaclesOf = (facts: ObstacleFacts): readonly Obstacle[] => [
  ...ofTheVessel(facts),
  ...ofTheDate(facts),
  ...ofThePressure(facts),
  ...ofTheContents(facts),
];
