import type { CircuitView, DutyView, FactView, LookView } from '@ullage/contracts';
import type { UnitLifeLineProps } from '../../pictures/unit-life-line.tsx';
import { dutyLeft } from '../duty-left.ts';
import { drawnUnit, massIn } from '../masses.ts';
import { addDays, dayAt, daysBetween, dayWords, shortDayWords } from '../when.ts';

type Life = Omit<UnitLifeLineProps, 'label' | 'lanes'>;
/** Where and when: the site's zone and the day it is there. */
export interface SiteDay {
  readonly zone: string;
  readonly today: string;
}

/** Less than a year would make a slope look steeper than it is known to be. */
const LEAST_DAYS = 400;

/** First and last day of the drawing: all that was recorded, at least a year, and a part of what is to come. */
export function lifeSpan(
  days: readonly string[],
  dueDays: readonly string[],
  today: string,
): { from: string; to: string } {
  const first = [...days, today].reduce((a, b) => (a < b ? a : b));
  const back = Math.max(LEAST_DAYS, daysBetween(first, today) + 30);
  const lastDue = dueDays.reduce((a, b) => (a > b ? a : b), today);
  const ahead = Math.min(Math.max(60, daysBetween(today, lastDue) + 20), Math.round(back * 0.3));
  return { from: addDays(today, -back), to: addDays(today, ahead) };
}

export const lookMark = (look: Pick<LookView, 'result' | 'inDoubt'>): Life['looks'][number]['mark'] => {
  if (look.inDoubt) return 'doubt';
  return look.result === 'could-not-reach' ? 'unreached' : look.result;
};

const resultOf = (fact: FactView): string => (typeof fact.body['result'] === 'string' ? fact.body['result'] : '');
const count = (n: number, one: string): string => (n === 1 ? one : `${n} ${one}s`);

/** Repairs and tests of one day as one mark: what was done, and how the last test came out. */
export function repairsByDay(events: readonly FactView[], zone: string): Life['repairs'] {
  const shown = events.filter(
    ({ kind, correctedById }) => correctedById === null && (kind === 'repair' || kind === 'verification'),
  );
  const days = Map.groupBy(shown, (fact) => dayAt(fact.happenedAt, zone));
  return [...days].map(([day, facts]) => {
    const repairs = facts.filter((fact) => fact.kind === 'repair').length;
    const tests = facts
      .filter((fact) => fact.kind === 'verification')
      .sort((a, b) => (a.happenedAt < b.happenedAt ? -1 : 1));
    const last = tests.at(-1);
    const said = [repairs > 0 && count(repairs, 'repair'), last && `test: ${resultOf(last)}`]
      .filter(Boolean)
      .join(', ');
    return {
      day,
      text: said,
      ...(last ? { mark: resultOf(last) === 'pass' ? ('verified' as const) : ('refused' as const) } : {}),
    };
  });
}

/** The law may name only the end of a window: it is drawn from the addition it follows. */
function windowStart(duty: DutyView, additions: CircuitView['additions'], { zone, today }: SiteDay): string {
  if (duty.opensAt) return dayAt(duty.opensAt, zone);
  const edge = duty.dueOn ?? today;
  return (
    additions
      .map((one) => one.day)
      .filter((day) => day <= edge)
      .sort()
      .at(-1) ?? today
  );
}

function dutyWindows(circuit: CircuitView, at: SiteDay): Life['duties'] {
  return circuit.duties.flatMap((duty) => {
    const { mark } = dutyLeft(duty, at.today);
    if (duty.dueOn === null || mark === 'unsure' || mark === 'refused') return [];
    const doneOn = duty.dischargedBy
      .map((fact) => dayAt(fact.happenedAt, at.zone))
      .sort()
      .at(-1);
    const by = dayWords(duty.dueOn).slice(0, -5);
    return [
      {
        id: duty.id,
        from: windowStart(duty, circuit.additions, at),
        to: duty.dueOn,
        mark,
        doneOn,
        text: mark === 'done' ? duty.title.toLowerCase() : `${duty.title.toLowerCase()}, by ${by}`,
      },
    ];
  });
}

/** One circuit's life as the line of time draws it. Masses are in the unit of its full charge. */
export function lifeOf(circuit: CircuitView, at: SiteDay): Life {
  const unit = drawnUnit(circuit.fullCharge.mass.unit);
  const additions = circuit.additions.map(({ day, mass, kind }) => ({
    day,
    mass: mass === null ? undefined : Number(massIn(mass, unit).toPrecision(4)),
    atRepair: kind === 'at-repair' || kind === 'no-top-off',
  }));
  const duties = dutyWindows(circuit, at);
  const looks = circuit.looks.map((look) => ({
    day: look.day,
    mark: lookMark(look),
    text: look.placesText.join(', '),
  }));
  const repairs = repairsByDay(circuit.events, at.zone);
  const gone = additions.reduce((sum, one) => sum + (one.mass ?? 0), 0);
  const charge = massIn(circuit.fullCharge.mass, unit);
  const days = [...additions, ...looks, ...repairs].map((one) => one.day);
  return {
    ...lifeSpan(
      days,
      duties.map((duty) => duty.to),
      at.today,
    ),
    today: at.today,
    todayText: `today, ${shortDayWords(at.today)}`,
    unit,
    additions,
    looks,
    repairs,
    duties,
    lossText:
      gone > 0
        ? `${Number(gone.toPrecision(4))} ${unit}, ${Math.round((gone / charge) * 100)} % of the charge`
        : undefined,
  };
}
