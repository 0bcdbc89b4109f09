'use client';
import css from './segment.module.css';

export interface SegmentProps<T extends string> {
  readonly label: string;
  readonly parts: readonly { readonly value: T; readonly text: string; readonly count?: number }[];
  readonly value: T;
  readonly onChange: (value: T) => void;
}

/** A few views of one thing, side by side; one is shown. Wraps into a list when there is no room. */
export function Segment<T extends string>({ label, parts, value, onChange }: SegmentProps<T>) {
  return (
    <div className={css['segment']} role="group" aria-label={label}>
      {parts.map((part) => (
        <button key={part.value} type="button" aria-pressed={part.value === value} onClick={() => onChange(part.value)}>
          {part.text}
          {part.count !== undefined && <span>{part.count}</span>}
        </button>
      ))}
    </div>
  );
}
