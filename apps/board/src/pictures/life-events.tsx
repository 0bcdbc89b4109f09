import { dayWords } from '@ullage/units';
import type { ReactNode } from 'react';
import { cx } from '../ui/cx.ts';
import type { Mark } from '../ui/marks.tsx';
import { MARK_WORDS } from '../ui/marks.tsx';
import { MarkAt } from '../ui/state.tsx';
import { layLabels } from './life.ts';
import { pct, stackSpans } from './scales.ts';
import type { ShareOf } from './scales.ts';
import css from './life.module.css';
import pic from './picture.module.css';

interface LaneProps {
  readonly share: ShareOf;
  readonly ground: ReactNode;
}
export interface LifeLook {
  readonly day: string;
  readonly mark: Extract<Mark, 'clear' | 'hit' | 'found' | 'unreached' | 'doubt'>;
  readonly text: string;
}
export interface LifeRepair {
  readonly day: string;
  /** "core and cap, soap: pass". */
  readonly text: string;
  /** Of the test that followed. */
  readonly mark?: Mark | undefined;
}
export interface LifeDuty {
  readonly id: string;
  readonly from: string;
  /** The legal edge. */
  readonly to: string;
  readonly mark: Extract<Mark, 'late' | 'soon' | 'fine' | 'hold' | 'done'>;
  readonly doneOn?: string | undefined;
  readonly text: string;
}

/** Looks of one day stand under each other. */
export function LookLane({ looks, share, ground }: LaneProps & { looks: readonly LifeLook[] }) {
  const gap = 0.0091;
  const rows = stackSpans(looks.map((look) => ({ from: share(look.day), to: share(look.day) + gap })));
  const height = 14 + 13 * Math.max(1, ...rows.map((row) => row + 1));
  const words = looks
    .map((look) => `${dayWords(look.day)}: ${look.text}, ${MARK_WORDS[look.mark].toLowerCase()}`)
    .join('; ');
  return (
    <svg className={pic['picture']} height={Math.max(44, height)} role="img" aria-label={words || 'No look recorded.'}>
      {ground}
      {looks.length === 0 && (
        <text className={cx(pic['text2'], pic['halo'])} x="8" y="22">
          Nobody has looked here yet.
        </text>
      )}
      {looks.map((look, i) => (
        <MarkAt
          key={`${look.day}${i}`}
          mark={look.mark}
          x={pct(share(look.day))}
          y={12 + 13 * (rows[i] ?? 0)}
          size={11}
        />
      ))}
    </svg>
  );
}

export function RepairLane({ repairs, share, ground }: LaneProps & { repairs: readonly LifeRepair[] }) {
  const laid = layLabels(
    repairs.map((one) => ({ from: share(one.day), to: share(one.day) + 0.016, letters: one.text.length + 2 })),
    stackSpans,
  );
  const rows = Math.max(1, ...laid.map((one) => one.row + 1));
  const words = repairs.map((one) => `${dayWords(one.day)}: ${one.text}`).join('; ');
  return (
    <svg className={pic['picture']} height={14 + rows * 18} role="img" aria-label={words || 'No repair recorded.'}>
      {ground}
      {repairs.length === 0 && (
        <text className={cx(pic['text2'], pic['halo'])} x="8" y="20">
          No repair recorded.
        </text>
      )}
      {repairs.map((one, i) => {
        const { side, row } = laid[i] ?? { side: 'right', row: 0 };
        const y = 16 + row * 18;
        return (
          <svg key={`${one.day}${i}`} x={pct(share(one.day))} overflow="visible">
            <rect className={pic['fillInk']} x="-4" y={y - 6} width="8" height="13" />
            {one.mark && <MarkAt mark={one.mark} x={0} y={y} dx={13} />}
            <text
              className={cx(pic['halo'], css['beside'], side === 'left' && pic['end'])}
              x={side === 'left' ? -9 : one.mark ? 23 : 9}
              y={y + 4}
            >
              {one.text}
            </text>
          </svg>
        );
      })}
    </svg>
  );
}

function DutyBar({ duty, share, y, side }: { duty: LifeDuty; share: ShareOf; y: number; side: 'left' | 'right' }) {
  const [from, to] = [share(duty.from), share(duty.to)];
  const done = duty.mark === 'done';
  const beyond = to >= 1;
  return (
    <>
      <rect
        {...(duty.mark === 'late' ? { fill: 'url(#p-late)' } : { className: done ? pic['wash'] : pic[duty.mark] })}
        stroke={done ? 'var(--edge)' : 'var(--mark)'}
        x={pct(from)}
        width={pct(Math.max(0.004, to - from))}
        y={y - 4.5}
        height="9"
      />
      {beyond && !done && (
        <svg x="100%" overflow="visible">
          <path className={pic[duty.mark]} stroke="var(--mark)" d={`M0 ${y - 4.5}l8 4.5l-8 4.5Z`} />
        </svg>
      )}
      {duty.doneOn !== undefined && <MarkAt mark="done" x={pct(share(duty.doneOn))} y={y} size={11} />}
      <text
        className={cx(pic['halo'], css['beside'], side === 'left' && pic['end'])}
        x={pct(side === 'left' ? from : to)}
        dx={side === 'left' ? -7 : 7}
        y={y + 4}
      >
        {duty.text}
      </text>
    </>
  );
}

/** Each duty is its lawful window; done ones lose their colour and show the day. */
export function DutyLane({ duties, share, ground }: LaneProps & { duties: readonly LifeDuty[] }) {
  const laid = layLabels(
    duties.map((duty) => ({ from: share(duty.from), to: share(duty.to), letters: duty.text.length + 1 })),
    stackSpans,
  );
  const rows = Math.max(1, ...laid.map((one) => one.row + 1));
  const words = duties.map((duty) => `${duty.text}: ${MARK_WORDS[duty.mark].toLowerCase()}`).join('; ');
  return (
    <svg
      className={pic['picture']}
      height={Math.max(44, 14 + rows * 18)}
      role="img"
      aria-label={words || 'No duty has arisen.'}
    >
      {ground}
      {duties.length === 0 && (
        <text className={cx(pic['text2'], pic['halo'])} x="8" y="22">
          No duty has arisen.
        </text>
      )}
      {duties.map((duty, i) => (
        <DutyBar
          key={duty.id}
          duty={duty}
          share={share}
          y={14 + (laid[i]?.row ?? 0) * 18}
          side={laid[i]?.side ?? 'right'}
        />
      ))}
    </svg>
  );
}
