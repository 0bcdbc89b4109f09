'use client';
import type { CylinderListView, VisitView } from '@ullage/contracts';
import { rational } from '@ullage/units';
import { useField } from '../field-context.tsx';
import { massWords } from '../sums.ts';
import { useRead } from '../use-read.ts';
import { usualUnits } from '../visit-context.tsx';
import css from './day-stops.module.css';

type Head = CylinderListView['items'][number];

/** One line of what to carry: what, its mark, and why this one. */
interface Item {
  readonly what: string;
  readonly id: string;
  readonly note: string;
}

/** Of the cylinders that fit, the new gas with the most in it and an empty or same-gas recovery cylinder without a doubt. */
function cylindersToBring(
  items: readonly Head[],
  refrigerant: string,
  words: (grams: number) => string,
): readonly Item[] {
  const fresh = items
    .filter(
      (head) =>
        head.kind !== 'recovery' && head.refrigerant === refrigerant && head.netGrams > 0 && head.doubtText === null,
    )
    .sort((a, b) => b.netGrams - a.netGrams)[0];
  const recovery = items
    .filter(
      (head) =>
        head.kind === 'recovery' &&
        (head.refrigerant === null || head.refrigerant === refrigerant) &&
        head.doubtText === null,
    )
    .sort((a, b) => a.netGrams - b.netGrams)[0];
  return [
    ...(recovery
      ? [
          {
            what: 'Recovery cylinder',
            id: recovery.serial,
            note: recovery.netGrams === 0 ? 'empty' : `holds ${words(recovery.netGrams)}`,
          },
        ]
      : []),
    ...(fresh ? [{ what: `New ${refrigerant}`, id: fresh.serial, note: `${words(fresh.netGrams)} net` }] : []),
  ];
}

const detectorOf = (view: VisitView): readonly Item[] =>
  view.instruments
    .filter((tool) => tool.kind === 'detector')
    .slice(0, 1)
    .map((tool) => ({
      what: 'Detector',
      id: tool.tag,
      note: tool.senseGramsPerYear === null ? '' : `${tool.senseGramsPerYear} g/yr`,
    }));

/** What to carry up to the unit, so that nobody climbs twice. */
export function BringUp({ visitId }: { visitId: string }) {
  const { port, me } = useField();
  const visit = useRead(port, () => port.visit(visitId));
  const refrigerant = visit.data?.glances[0]?.refrigerant;
  if (!visit.data || refrigerant === undefined) return null;
  return <Items view={visit.data} refrigerant={refrigerant} unit={usualUnits(me).mass} />;
}

function Items({
  view,
  refrigerant,
  unit,
}: {
  view: VisitView;
  refrigerant: string;
  unit: Parameters<typeof massWords>[1];
}) {
  const { port } = useField();
  const cylinders = useRead(port, () => port.cylinders(''));
  const words = (grams: number): string => massWords(rational(grams), unit, 'down');
  const items = [...cylindersToBring(cylinders.data?.items ?? [], refrigerant, words), ...detectorOf(view)];
  return (
    <div className={css['bring']}>
      {view.site.accessNotes !== null && <p>{view.site.accessNotes}</p>}
      {items.length > 0 && (
        <table>
          <caption>Bring up</caption>
          <tbody>
            {items.map((item) => (
              <tr key={item.what + item.id}>
                <th scope="row">{item.what}</th>
                <td className="id">{item.id}</td>
                <td>{item.note}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}
