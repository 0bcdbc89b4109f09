import type { ManifestView } from '@ullage/contracts';
import { dayWords, localTime } from '../../lib/local-time.ts';
import { bookedWords, PURPOSE_WORDS } from '../../office/manifest/manifest-words.ts';
import { massWords } from '../../office/masses.ts';
import { DefinitionList } from '../../ui/definition-list.tsx';
import { Sheet } from '../../ui/sheet.tsx';
import { Grid } from './grid.tsx';
import css from './record.module.css';

const when = (instant: string, zone: string): string => {
  const { day, time } = localTime(instant, zone);
  return `${dayWords(day)}, ${time}`;
};
/** A figure stays with its unit, and a designation whole, however narrow the column. */
const whole = (text: string): string => text.replaceAll(' ', '\u00a0').replaceAll('-', '\u2011');
const grams = (value: number): string => value.toLocaleString('en-US');

/** Net by gas as the books have it, for the sum at the foot. */
function sumsOf({ lines }: ManifestView): [refrigerant: string, grams: number][] {
  const sums = new Map<string, number>();
  for (const { booked } of lines)
    for (const part of booked) sums.set(part.refrigerant, (sums.get(part.refrigerant) ?? 0) + part.grams);
  return [...sums].sort(([, a], [, b]) => b - a);
}

/** What goes with the cylinders. It is no shipping paper: marks, labels and papers for the road follow their own rules. */
export function ManifestPaper({ view }: { view: ManifestView }) {
  const zone = view.timeZone;
  const net = view.lines.reduce((sum, { netGrams }) => sum + netGrams, 0);
  const items = [
    { term: 'Sent by', value: [view.contractor, view.by].filter(Boolean).join(', ') },
    {
      term: 'To',
      value: [view.receiver.name, view.certificate && `certificate ${view.certificate}`].filter(Boolean).join(', '),
    },
    { term: 'Carrier', value: view.carrier },
    ...(view.reference === null ? [] : [{ term: 'Reference', value: view.reference }]),
    ...(view.note === null ? [] : [{ term: 'Note', value: view.note }]),
  ];
  return (
    <Sheet
      from={view.contractor}
      name={`Manifest, ${dayWords(localTime(view.at, zone).day)}`}
      title={`Manifest of refrigerant for ${PURPOSE_WORDS[view.purpose].toLowerCase()}`}
      lead={`${view.lines.length === 1 ? 'One cylinder' : `${view.lines.length} cylinders`}, ${grams(net)} g net as weighed on leaving, ${when(view.at, zone)}.${view.takenBack === null ? '' : ' TAKEN BACK: this shipment did not go.'}`}
      signatures={[
        { who: 'Handed over', what: 'name and day' },
        { who: 'Carrier', what: 'name and day' },
        { who: 'Received', what: 'name and day; weights to follow' },
      ]}
      foot="Contents are as this firm’s books and scale have them; no laboratory certified them. This is no shipping paper: marks, labels and papers for the road follow 49 CFR and the carrier. Local codes and licensed practice rule."
      made={`Made ${when(view.madeAt, zone)}`}
    >
      <section className={css['part']}>
        <h2>From, to</h2>
        <DefinitionList items={items} />
      </section>
      <Grid
        item=""
        title="Cylinders"
        head={['Cylinder', 'Kind', 'In it, by the books', 'State, owner', 'Gross', 'Tare, g', 'Net, g']}
        rows={view.lines.map((line) => [
          <span key="name" className="id">
            {[line.label, line.serial].filter(Boolean).join(' / ')}
          </span>,
          `${line.kind}, ${whole(line.specification)}`,
          bookedWords(line.booked).split(', ').map(whole).join(', '),
          [line.states.join(', ').replaceAll('-', ' '), line.owners.join(', ')].filter(Boolean).join('; '),
          whole(massWords(line.gross)),
          grams(line.tareGrams),
          grams(line.netGrams),
        ])}
        none=""
      />
      <Grid
        item=""
        title="In all, by the books"
        head={['Refrigerant', 'Net, g']}
        rows={sumsOf(view).map(([refrigerant, sum]) => [refrigerant, grams(sum)])}
        none="Nothing, by the books."
      />
    </Sheet>
  );
}
