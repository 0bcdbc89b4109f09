import { ELSEWHERE_ID } from '@ullage/contracts';
import type { SumInput } from '@ullage/contracts';
import { SEARCH_SOURCE, searchPlan, whereToLook } from '@ullage/trail';
import type { ClearLook, SearchLook } from '@ullage/trail';
import type { Calendar } from '@ullage/units';

type Asked = SumInput<'search-plan'>;

/** In the short form every place has one look of its own, called as the place is. */
const looksOf = ({ looksAt, places }: Asked): readonly SearchLook[] =>
  looksAt ??
  places.map(({ id, minutes = 0, chanceFound = 0 }) => ({ id, minutes, covers: [{ place: id, chanceFound }] }));

function clearedBy(looks: readonly SearchLook[], { id, clearLooks: times = 0 }: Asked['places'][number]): ClearLook[] {
  if (times === 0) return [];
  const look = looks.find(({ covers }) => covers.some(({ place }) => place === id));
  const cover = look?.covers.find(({ place }) => place === id);
  return look && cover ? [{ ...cover, method: look.method ?? look.id, times }] : [];
}

/** The bare theory: places with chances, looks with minutes. */
export function searchPlanSum(asked: Asked) {
  const { places, elsewherePrior = 0, repeats = 'independent', looks: most } = asked;
  const looks = looksOf(asked);
  const cleared = places.flatMap((place) => clearedBy(looks, place));
  const { steps, belief } = searchPlan({ places, looks, elsewherePrior, repeats, cleared }, most);
  const last = steps.at(-1);
  return {
    order: steps.map(({ look }) => look.id),
    foundBy: steps.map(({ byMinutes, foundBy }) => ({ minutes: byMinutes, chance: foundBy })),
    posterior: Object.fromEntries([
      ...belief.at,
      ...(elsewherePrior > 0 ? [[ELSEWHERE_ID, belief.elsewhere] as const] : []),
    ]),
    notUsable: (asked.looksAt ?? []).flatMap(({ id, usable, whyNot }) =>
      usable === false ? [{ id, whyNot: whyNot ?? 'A precondition fails.' }] : [],
    ),
    reasons: [
      { text: 'Next is the look with the largest chance found per minute.', source: SEARCH_SOURCE },
      ...(last
        ? [
            {
              text: `${steps.length} looks, ${last.byMinutes} min: found with ${(last.foundBy * 100).toFixed(1)} %.`,
              source: 'sum of prior × chance over what each look covers',
            },
          ]
        : []),
    ],
  };
}

/** Instants come in any offset; the room compares them as text of one format. */
export function whereToLookSum({ looksToPlan, ...facts }: SumInput<'where-to-look'>, calendar: Calendar) {
  const inUtc = <T extends { readonly at: string }>(row: T): T => ({ ...row, at: calendar.instant(row.at) });
  return whereToLook(
    {
      ...facts,
      looks: facts.looks.map(inUtc),
      detectors: facts.detectors.map((one) => ({ ...one, checks: one.checks.map(inUtc) })),
    },
    looksToPlan,
  );
}
