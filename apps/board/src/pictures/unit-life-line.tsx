import type { ReactNode } from 'react';
import { cx } from '../ui/cx.ts';
import { GasLane, LossLane } from './life-gas.tsx';
import { DutyLane, LookLane, RepairLane, type LifeDuty, type LifeLook, type LifeRepair } from './life-events.tsx';
import { lossCurve, quarterTicks, type LifeAddition } from './life.ts';
import { clampShare, dayNumber, pct } from './scales.ts';
import type { ShareOf } from './scales.ts';
import css from './life.module.css';
import pic from './picture.module.css';

export type LifeLaneName = 'gas' | 'looks' | 'repairs' | 'duties' | 'loss';
export interface UnitLifeLineProps {
  /** First and last day of the drawing, and today, `YYYY-MM-DD` in the site's zone. */
  readonly from: string;
  readonly to: string;
  readonly today: string;
  readonly todayText: string;
  /** Of every mass here. */
  readonly unit: string;
  readonly additions: readonly LifeAddition[];
  readonly looks: readonly LifeLook[];
  readonly repairs: readonly LifeRepair[];
  readonly duties: readonly LifeDuty[];
  /** Beside the end of the curve: "96 lb, 44 % of the charge". */
  readonly lossText?: string | undefined;
  /** All of them unless a small drawing wants fewer. */
  readonly lanes?: readonly LifeLaneName[];
  readonly label: string;
}

const ALL: readonly LifeLaneName[] = ['gas', 'looks', 'repairs', 'duties', 'loss'];

function Ground({ ticks, share, today }: { ticks: ReturnType<typeof quarterTicks>; share: ShareOf; today: string }) {
  return (
    <>
      {ticks.map(({ day, year }) => (
        <line
          key={day}
          className={pic[year ? 'hair2' : 'hair']}
          x1={pct(share(day))}
          x2={pct(share(day))}
          y1="0"
          y2="100%"
        />
      ))}
      <line className={pic['now']} x1={pct(share(today))} x2={pct(share(today))} y1="0" y2="100%" />
    </>
  );
}

function Lane({ name, note, children }: { name: string; note?: ReactNode; children: ReactNode }) {
  return (
    <div className={css['lane']}>
      <div className={css['name']}>
        {name}
        {note !== undefined && <small>{note}</small>}
      </div>
      {children}
    </div>
  );
}

function Axis({ ticks, share, today, todayText, ground }: AxisProps) {
  const late = share(today) > 0.7;
  return (
    <div className={css['lane']}>
      <div />
      <svg className={cx(pic['picture'], css['axis'])} height="32" aria-hidden="true">
        {ground}
        {ticks.map(({ day, text, year }) => (
          <text
            key={day}
            className={cx(year ? pic['bold'] : pic['text2'], !year && css['quarter'])}
            x={pct(share(day))}
            dx="4"
            y="27"
          >
            {text}
          </text>
        ))}
        <text
          className={cx(pic['bold'], pic['halo'], late && pic['end'])}
          x={pct(share(today))}
          dx={late ? -5 : 6}
          y="11"
        >
          {todayText}
        </text>
      </svg>
    </div>
  );
}
interface AxisProps extends Pick<UnitLifeLineProps, 'today' | 'todayText'> {
  readonly ticks: ReturnType<typeof quarterTicks>;
  readonly share: ShareOf;
  readonly ground: ReactNode;
}

const GAS_NOTE = 'net of a visit; full: top-off, hollow: none';

/** A circuit's life on one line of time: additions, looks, repairs and tests, duties, and what has gone in all. */
export function UnitLifeLine(props: UnitLifeLineProps) {
  const { from, to, today, todayText, unit, additions, lanes = ALL } = props;
  const [first, last] = [dayNumber(from), dayNumber(to)];
  const share: ShareOf = (day) =>
    clampShare(((typeof day === 'number' ? day : dayNumber(day)) - first) / (last - first));
  const ticks = quarterTicks(from, to);
  const ground = <Ground ticks={ticks} share={share} today={today} />;
  const common = { share, ground };
  const lane: Readonly<Record<LifeLaneName, () => ReactNode>> = {
    gas: () => (
      <Lane key="gas" name="Gas added" note={`${unit}, ${GAS_NOTE}`}>
        <GasLane {...common} additions={additions} unit={unit} today={today} />
      </Lane>
    ),
    looks: () => (
      <Lane key="looks" name="Looks" note="ring clear, full found">
        <LookLane {...common} looks={props.looks} />
      </Lane>
    ),
    repairs: () => (
      <Lane key="repairs" name="Repairs, tests">
        <RepairLane {...common} repairs={props.repairs} />
      </Lane>
    ),
    duties: () => (
      <Lane key="duties" name="Duties" note="span = lawful window">
        <DutyLane {...common} duties={props.duties} />
      </Lane>
    ),
    loss: () => (
      <Lane key="loss" name={`Gone in all, ${unit}`}>
        <LossLane {...common} {...lossCurve(additions, from)} unit={unit} today={today} text={props.lossText} />
      </Lane>
    ),
  };
  return (
    <div className={css['life']} role="group" aria-label={props.label}>
      <Axis ticks={ticks} share={share} today={today} todayText={todayText} ground={ground} />
      {lanes.map((name) => lane[name]())}
    </div>
  );
}
