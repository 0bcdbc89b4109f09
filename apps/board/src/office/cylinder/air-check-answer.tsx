import type { AirCheckView } from '@ullage/contracts';
import { AirBar, type AirBarProps } from '../../pictures/air-bar.tsx';
import { DefinitionList } from '../../ui/definition-list.tsx';
import type { Mark } from '../../ui/marks.tsx';
import { State } from '../../ui/state.tsx';
import { Reasons } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from '../office.module.css';
import { airWords, barometerWords, gaugeWords, thermometerWords } from './air-check-words.ts';

const VERDICTS: Readonly<
  Record<AirCheckView['verdict'], { mark: Mark; word: string; tone: AirBarProps['tone']; next: string }>
> = {
  'within-shop-limit': {
    ...{ mark: 'fine', word: 'Within the shop limit', tone: 'fine' },
    next: 'Doubts about air from before this check are cleared.',
  },
  'over-shop-limit': {
    ...{ mark: 'over', word: 'Over the shop limit', tone: 'late' },
    next: 'Charge nothing from it. Mark it, keep it apart, and ask the reclaimer.',
  },
  'cannot-tell': {
    ...{ mark: 'unsure', word: 'The readings cannot tell', tone: 'soon' },
    next: 'Let it rest longer, and read it with a finer gauge and thermometer. Nothing changes until then.',
  },
  'not-defined': {
    ...{ mark: 'doubt', word: 'The check says nothing here', tone: 'wash' },
    next: 'No liquid, no vapour space, another gas, or liquid colder than the wall. Nothing changes.',
  },
};

export interface AirCheckAnswerProps {
  readonly check: AirCheckView;
  readonly zone: string;
  /** It has just come back: said to a screen reader by itself. */
  readonly fresh?: boolean;
}

/** One air check: its verdict against the shop limit, what it rests on, and that it certifies nothing. */
export function AirCheckAnswer({ check, zone, fresh = false }: AirCheckAnswerProps) {
  const { mark, word, tone, next } = VERDICTS[check.verdict];
  const { excessKpa, excessSigmaKpa, limitKpa, purityKpa, readings } = check;
  const bar = `${excessKpa.toFixed(0).replace('-', '−')} kPa, two sigma ${(2 * excessSigmaKpa).toFixed(0)} kPa`;
  return (
    <>
      <p className={css['claim']} role={fresh ? 'status' : undefined}>
        <State mark={mark}>{word}</State>: <b>{bar}</b> above saturation, limit {limitKpa.toFixed(0)} kPa.
      </p>
      <AirBar
        {...{ excessKpa, limitKpa, purityKpa, tone }}
        sigmaKpa={excessSigmaKpa}
        label={`${bar} above the saturation pressure of ${check.refrigerant}; shop limit ${limitKpa.toFixed(0)} kPa`}
      />
      <p>{next}</p>
      <p>
        <State mark="unsure">Purity not certifiable by a gauge</State>: {check.purityText}
      </p>
      <DefinitionList
        items={[
          { term: 'Air in the vapour', value: airWords(check) },
          {
            term: 'Rested',
            value: `${readings.restedHours} h, ${readings.liquidPresent ? 'liquid' : 'no liquid'} in it`,
          },
          { term: 'Wall at liquid level', value: thermometerWords(readings) },
          { term: 'Gauge', value: gaugeWords(readings) },
          { term: 'Barometer there', value: barometerWords(readings) },
          { term: 'Read', value: `${momentWords(check.at, zone)}, ${check.by}` },
        ]}
      />
      <details className={css['more']}>
        <summary>How it was worked out</summary>
        <Reasons reasons={check.reasons} />
      </details>
    </>
  );
}
