import type { CylinderView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { CylinderSection, type LevelMark } from '../../pictures/cylinder-section.tsx';
import { Caution } from '../../ui/caution.tsx';
import { aboutWords, atMostWords, gramsWords } from '../masses.ts';
import { Section } from '../section.tsx';
import { levelsOf, type Levels } from './levels.ts';

const percent = (share: number): string => (share >= 1 ? 'liquid-full' : `${Math.round(share * 100)} % liquid`);

function marksOf({ liquid, limit, hot }: Levels, grossText: string | undefined): readonly LevelMark[] {
  return [
    ...(limit === undefined
      ? []
      : [{ at: limit, text: grossText ? `Legal fill: ${grossText}` : 'Legal fill', note: 'gross, at most' }]),
    ...(hot === undefined ? [] : [{ at: hot, text: 'these contents at 131 °F', note: percent(hot) }]),
    ...(liquid === undefined ? [] : [{ at: liquid, text: 'liquid at 77 °F', note: percent(liquid) }]),
  ];
}

/** The thing itself, cut open: what is in it, where it may be filled to, and what stays free above. */
export function SectionPanel({ view, unit }: { view: CylinderView; unit: MassUnit }) {
  const { cylinder, grossLimitKg, roomKg } = view;
  const levels = levelsOf(view);
  const gross = grossLimitKg === null ? undefined : atMostWords(grossLimitKg * 1000, unit);
  const room = roomKg === null ? undefined : atMostWords(roomKg * 1000, unit);
  const net = aboutWords(cylinder.netGrams, unit);
  const over = roomKg !== null && roomKg < 0;
  return (
    <Section id="section" title="Cut open">
      <CylinderSection
        {...levels}
        doubt={view.doubts.length > 0}
        marks={marksOf(levels, gross)}
        labels={{
          ullage: 'ullage',
          ...(room === undefined || over ? {} : { room: `${room} of room` }),
          figure: net,
          notes: [`${cylinder.refrigerant ?? ''}, net`, gramsWords(cylinder.netGrams)],
          empty: 'empty',
        }}
        label={`${net} of ${cylinder.refrigerant ?? 'no gas'} in it${gross === undefined ? '' : `; it may weigh ${gross} at most`}`}
      />
      {over ? (
        <Caution title="Overfilled">
          {aboutWords(-(roomKg ?? 0) * 1000, unit)} too much is in it. Keep it cool, move nothing into it, and take gas
          out into a cylinder with room. Local codes and licensed practice rule.
        </Caution>
      ) : (
        <Caution title="Heat">
          never above 125 °F: liquid swells and leaves no ullage, and a full cylinder bursts. Weigh while filling. Local
          codes and licensed practice rule.
        </Caution>
      )}
    </Section>
  );
}
