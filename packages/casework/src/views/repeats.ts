/** The manager's list: which circuits are topped off again and again, what that costs, and what is planned. */
import type { JudgedAdditionView, RepeatOrder, RepeatRow, RepeatsView } from '@ullage/contracts';
import { gasCost, rankRepeats, WINDOW_MONTHS, watchedIn, yearlyRate } from '@ullage/insight';
import type { JudgedAddition, YearlyRate } from '@ullage/insight';
import { GWP_SETS, reportedGwp } from '@ullage/rulebook';
import type { GwpSet } from '@ullage/rulebook';
import { compare, multiply, rational, toDecimal, toNumber } from '@ullage/units';
import type { Rational } from '@ullage/units';
import type { RepeatsAsked } from '../office.ts';
import { dateToDay, notFound, toInstant } from '../pipeline/case.ts';
import { moneyText, wholeGrams } from './figures.ts';
import { fleetOf, tagOf } from './fleet.ts';
import type { Fleet, FleetCircuit } from './fleet.ts';
import { enteredOn, priceList } from './gas-prices.ts';
import type { GasPrice, PriceList } from './gas-prices.ts';
import type { FleetRow } from './repeats.sql.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { DUTY_WORDS, wordOf } from './words.ts';

const PAGE = 50;
const HUNDRED = rational(100n);

/** Largest first, what is not known last. */
function largestFirst(a: Rational | null, b: Rational | null): number {
  if (a && b) return compare(b, a);
  return Number(a === null) - Number(b === null);
}
const AS_ASKED: Readonly<Record<RepeatOrder, (a: FleetCircuit, b: FleetCircuit) => number>> = {
  evidence: () => 0,
  gas: (a, b) => largestFirst(a.repeat.grams, b.repeat.grams),
  cost: (a, b) => largestFirst(a.repeat.cost.amount, b.repeat.cost.amount),
};

/** Those with a top-off, in the order asked for; equals stand by evidence, and no two are equal in that. */
function ranked({ added }: Fleet, order: RepeatOrder): readonly FleetCircuit[] {
  const repeats = new Map(added.map((one) => [one.row.circuitId, one]));
  const again = added.flatMap(({ repeat }) => (repeat.topOffs > 0 ? [repeat] : []));
  return rankRepeats(again)
    .flatMap(({ id }) => repeats.get(id) ?? [])
    .toSorted(AS_ASKED[order]);
}

const rateView = ({ perYear, lowerPerYear, upperPerYear, confidence }: YearlyRate): YearlyRate => ({
  perYear,
  lowerPerYear,
  upperPerYear,
  confidence,
});

function fleetRate({ window, rows, added }: Fleet, viewer: Viewer): RepeatsView['fleet'] {
  const { calendar } = viewer.world;
  const topOffs = added.reduce((all, { repeat }) => all + repeat.topOffs, 0);
  const years = rows.reduce((all, { knownSince }) => {
    const watched = knownSince === null ? undefined : watchedIn(window, knownSince, calendar);
    return all + (watched?.years ?? 0);
  }, 0);
  return { circuits: rows.length, topOffs, rate: years > 0 ? yearlyRate(topOffs, years) : null };
}

export const namedOf = (row: FleetRow) => ({
  circuitId: row.circuitId,
  unitId: row.unitId,
  letter: row.letter,
  tag: tagOf(row),
  description: row.description,
  site: row.site,
  customer: row.customer,
  refrigerant: row.refrigerant,
});

function additionView(addition: JudgedAddition, prices: readonly GasPrice[]): JudgedAdditionView {
  const { day, visitId, factIds, netGrams, topOff, reason } = addition;
  const [line] = gasCost([addition], prices).lines;
  return {
    day,
    visitId,
    factIds: [...factIds],
    grams: netGrams && wholeGrams(netGrams),
    topOff,
    reason: reason.text,
    price: enteredOn(prices, day),
    cost: line ? moneyText(line.amount) : null,
  };
}

type Rest = Pick<RepeatRow, 'duties' | 'plan'>;
function rowView(one: FleetCircuit, rest: Rest, { prices, gwpSet }: { prices: PriceList; gwpSet: GwpSet }): RepeatRow {
  const { row, file, repeat } = one;
  const gwp = reportedGwp(row.refrigerant, gwpSet);
  const { watched, next, cost } = repeat;
  const own = prices.get(row.refrigerant) ?? [];
  return {
    ...namedOf(row),
    fullCharge: file.facts.fullCharges.at(-1)?.mass ?? null,
    topOffs: repeat.topOffs,
    watched: { firstDay: watched.firstDay, days: watched.days, shortened: watched.shortened },
    rate: rateView(repeat.rate),
    additions: repeat.additions.map((addition) => additionView(addition, own)),
    grams: repeat.grams && wholeGrams(repeat.grams),
    unweighed: repeat.unweighed,
    sharePercent: repeat.shareOfCharge && Number(toDecimal(multiply(repeat.shareOfCharge, HUNDRED), 1)),
    cost: { amount: cost.amount && moneyText(cost.amount), unpriced: cost.unpriced },
    gwp: gwp ? { value: toDecimal(gwp.value, 3), leftOut: [...gwp.leftOut] } : null,
    co2eKg: repeat.co2eKg && Math.round(toNumber(repeat.co2eKg)),
    next: next
      ? {
          earliest: next.earliest,
          latest: next.latest,
          percent: Math.round(next.likelihood * 100),
          assumption: next.assumption,
        }
      : null,
    ...rest,
  };
}

/** Open duties and the standing plan of a page's circuits. */
async function restOf({ tx, tenantId }: Viewer, circuitIds: readonly string[]): Promise<(id: string) => Rest> {
  const of = { tenantId, circuitId: { in: [...circuitIds] } };
  const duties = await tx.duty.findMany({
    where: { ...of, state: { in: ['open', 'suspended'] } },
    select: { id: true, circuitId: true, kind: true, dueOn: true, state: true },
    orderBy: [{ dueAt: 'asc' }, { key: 'asc' }],
  });
  const plans = await tx.replacementPlan.findMany({
    where: { ...of, withdrawnAt: null },
    include: { planner: { select: { name: true } } },
  });
  const own = Map.groupBy(duties, ({ circuitId }) => circuitId);
  const planned = new Map(plans.map((plan) => [plan.circuitId, plan]));
  return (circuitId) => {
    const plan = planned.get(circuitId);
    return {
      duties: (own.get(circuitId) ?? []).map(({ id, kind, dueOn, state }) => ({
        id,
        title: wordOf(DUTY_WORDS, kind),
        dueOn: dueOn && dateToDay(dueOn),
        state: state === 'suspended' ? 'suspended' : 'open',
      })),
      plan: plan
        ? {
            id: plan.id,
            reason: plan.reason,
            byOn: plan.byOn && dateToDay(plan.byOn),
            plannedBy: plan.planner.name,
            plannedAt: toInstant(plan.plannedAt),
          }
        : null,
    };
  };
}

/** The set that was asked for, else the contractor's own. */
const gwpSetOf = ({ tenant }: Viewer, asked: GwpSet | undefined): GwpSet =>
  asked ?? GWP_SETS.find((set) => set === tenant.gwpSet) ?? 'AR4';

/** The first of a list, or those after one that stands in it. @throws Refusal not-found for one that does not */
function pageAfter(all: readonly FleetCircuit[], after: string | undefined): readonly FleetCircuit[] {
  if (after === undefined) return all.slice(0, PAGE + 1);
  const at = all.findIndex(({ row }) => row.circuitId === after);
  if (at < 0) throw notFound();
  return all.slice(at + 1, at + 2 + PAGE);
}

/** A page of the ranking. The whole of it is reckoned each time: one late fact may move any circuit. */
export async function repeatsView(viewer: Viewer, asked: RepeatsAsked): Promise<RepeatsView> {
  const { order = 'evidence' } = asked;
  const measures = { prices: await priceList(viewer, 'purchase'), gwpSet: gwpSetOf(viewer, asked.gwp) };
  const fleet = await fleetOf(viewer, measures);
  const all = ranked(fleet, order);
  const page = pageAfter(all, asked.after);
  const shown = page.slice(0, PAGE);
  const rest = await restOf(
    viewer,
    shown.map(({ row }) => row.circuitId),
  );
  const { firstDay, lastDay } = fleet.window;
  return {
    window: { firstDay, lastDay, months: WINDOW_MONTHS },
    gwpSet: measures.gwpSet,
    order,
    currency: viewer.tenant.currency,
    fleet: fleetRate(fleet, viewer),
    total: all.length,
    items: shown.map((one) => rowView(one, rest(one.row.circuitId), measures)),
    next: page.length > PAGE ? (shown.at(-1)?.row.circuitId ?? null) : null,
    number: await feedNumber(viewer),
  };
}
