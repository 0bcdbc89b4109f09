/** Circuits that lost 125 % or more of their full charge in a calendar year are reported by 1 March of the next. */
import { compare, divide, sum, toDecimal, multiply, rational } from '@ullage/units';
import { isKind } from '../placed.ts';
import { share } from '../rate.ts';
import type { Case, DayRate } from '../rate.ts';
import type { Duty } from '../types.ts';
import { dueBy } from './clock.ts';
import { makeDuty } from './make.ts';

function yearDuty(of: Case, year: number, rates: readonly DayRate[]): readonly Duty[] {
  const last = rates.at(-1);
  if (!last) return [];
  const { edition, fullCharge } = last;
  const lost = (upTo: number) => divide(sum(rates.slice(0, upTo).map((rate) => rate.of.net)), fullCharge.grams);
  const reached = rates.find((_, index) => compare(lost(index + 1), share(edition.chronicPercent)) >= 0);
  if (!reached) return [];
  const { calendar, timeZone } = of.site;
  const report = of.events.filter(isKind('chronic-report')).find((placed) => placed.event.year === year);
  const percent = toDecimal(multiply(lost(rates.length), rational(100n)), 1);
  const duty = makeDuty(of, {
    kind: 'chronic-report',
    episode: String(year),
    number: 1,
    edition,
    clause: edition.clauses.chronic,
    sinceAt: reached.of.at,
    opensAt: calendar.startOf(`${year + 1}-01-01`, timeZone),
    due: dueBy(of, `${year + 1}-03-01`, `${year + 1}-03-01`),
    evidence: report && [report],
    why: `${percent} % of the full charge was added in ${year}, ${edition.chronicPercent} % or more: the loss is reported by 1 March.`,
  });
  return [duty];
}

export function chronicDuties(of: Case, rates: readonly DayRate[]): readonly Duty[] {
  const years = Map.groupBy(rates, (rate) => Number(rate.of.day.slice(0, 4)));
  return [...years].flatMap(([year, own]) => yearDuty(of, year, own));
}
