import { isSumName, SUMS } from '@ullage/contracts';
import type { Problem, SumAnswer, SumInput, SumName } from '@ullage/contracts';
import { duties, evacuationLevel, headroom, leakRate } from '@ullage/rulebook';
import {
  airCheck,
  cylinderContents,
  cylinderRoom,
  leakFlow,
  lineAllowance,
  massLeft,
  mixture,
  pressureTest,
  saturation,
  subcooling,
  superheat,
  vacuumHold,
  vapourLoss,
} from '@ullage/thermo';
import type { ThermoFault } from '@ullage/thermo';
import type { Calendar } from '@ullage/units';
import { recoveryAdviceSum } from './recovery.ts';
import { searchPlanSum, whereToLookSum } from './search.ts';
import { notPossible, notValid, unknownSum } from './problem.ts';
import type { Asked, Misfit } from './problem.ts';

/** The answer as nobody may change it: the rooms hand out readonly values. */
type Frozen<T> = T extends readonly (infer Item)[]
  ? readonly Frozen<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]: Frozen<T[Key]> }
    : T;

export type SumResult<Name extends SumName = SumName> =
  { readonly ok: true; readonly answer: Frozen<SumAnswer<Name>> } | { readonly ok: false; readonly problem: Problem };

type Run<Name extends SumName> = (input: SumInput<Name>, calendar: Calendar) => SumResult<Name>;

/** Takes the flag off a room's answer, or puts its refusal into words: of the refrigerant, or of a mixture in a field. */
function physical<Answer extends object>(
  answer: ({ readonly ok: true } & Answer) | ThermoFault,
  asked: Asked,
): { readonly ok: true; readonly answer: Omit<Answer, 'ok'> } | { readonly ok: false; readonly problem: Problem } {
  if (!answer.ok) return { ok: false, problem: notPossible(answer, asked) };
  const { ok, ...rest } = answer;
  return { ok, answer: rest };
}

const answered = <Answer>(answer: Answer) => ({ ok: true, answer }) as const;

/** A second reading has a temperature of its own. */
const temperaturesOf = ({ temperatureK, second }: SumInput<'air-check'>): Readonly<Record<string, number>> => ({
  temperatureK,
  ...(second && { 'second/temperatureK': second.temperatureK }),
});

const RUN: { readonly [Name in SumName]: Run<Name> } = {
  saturation: ({ refrigerant, temperatureK, pressureKpa = Number.NaN }) =>
    physical(
      temperatureK === undefined ? saturation({ refrigerant, pressureKpa }) : saturation({ refrigerant, temperatureK }),
      { refrigerant },
    ),
  mixture: ({ temperatureK, moleFractions, massFractions = {} }) =>
    moleFractions === undefined
      ? physical(mixture({ temperatureK, massFractions }), { amounts: 'massFractions' })
      : physical(mixture({ temperatureK, moleFractions }), { amounts: 'moleFractions' }),
  'cylinder-contents': (input) => physical(cylinderContents(input), { amounts: 'massesKg' }),
  'vapour-loss': (input) => physical(vapourLoss(input), input),
  'air-check': (input) =>
    physical(airCheck(input), { refrigerant: input.refrigerant, temperatures: temperaturesOf(input) }),
  'cylinder-room': (input) => physical(cylinderRoom(input), { refrigerant: input.refrigerant, amounts: 'contentsKg' }),
  'pressure-test': (input) =>
    physical(pressureTest(input), {
      refrigerant: input.refrigerant,
      temperatures: { startTemperatureK: input.startTemperatureK, endTemperatureK: input.endTemperatureK },
      pressures: { startPressureKpa: input.startPressureKpa, endPressureKpa: input.endPressureKpa },
    }),
  'vacuum-hold': (input) => physical(vacuumHold(input), {}),
  'mass-left': (input) => physical(massLeft(input), input),
  'recovery-advice': (input) => physical(recoveryAdviceSum(input), input),
  'line-allowance': (input) => physical(lineAllowance(input), input),
  superheat: (input) => physical(superheat(input), input),
  subcooling: (input) => physical(subcooling(input), input),
  'leak-flow': ({ refrigerant, gramsPerYear, paM3PerS = Number.NaN }) =>
    physical(
      gramsPerYear === undefined ? leakFlow({ refrigerant, paM3PerS }) : leakFlow({ refrigerant, gramsPerYear }),
      { refrigerant },
    ),
  'search-plan': (input) => answered(searchPlanSum(input)),
  'where-to-look': (input, calendar) => answered(whereToLookSum(input, calendar)),
  'leak-rate': (input, calendar) => answered(leakRate(input, calendar)),
  headroom: (input, calendar) => answered(headroom(input, calendar)),
  duties: (input, calendar) => answered(duties(input, calendar)),
  'evacuation-level': (input) => answered(evacuationLevel(input)),
};

/** A schema seen by its name alone; TypeScript cannot carry the name through the table of schemas. */
interface Contract<Name extends SumName> {
  safeParse(
    json: unknown,
  ): { readonly success: true; readonly data: SumInput<Name> } | { readonly success: false; readonly error: Misfit };
}

function runNamed<Name extends SumName>(name: Name, json: unknown, calendar: Calendar): SumResult<Name> {
  const contract = SUMS[name].input as unknown as Contract<Name>;
  const parsed = contract.safeParse(json);
  if (!parsed.success) return { ok: false, problem: notValid(parsed.error) };
  return RUN[name](parsed.data, calendar);
}

/**
 * One sum by name: checks the value against its contract, asks the room, answers in the wire shape. A name, field or
 * figure that cannot be answered comes back as a problem document (RFC 9457) with a JSON pointer for each bad field.
 */
export function runSum(name: string, json: unknown, calendar: Calendar): SumResult {
  return isSumName(name) ? runNamed(name, json, calendar) : { ok: false, problem: unknownSum(name) };
}
