import { Shape } from '../state.tsx';
import type { Mark } from '../marks.tsx';
import css from './phone.module.css';

export interface FourChoiceProps<T extends string> {
  readonly label: string;
  readonly choices: readonly {
    readonly value: T;
    readonly mark: Mark;
    readonly text: string;
    readonly note?: string;
  }[];
  readonly value: T | undefined;
  readonly onChoose: (value: T) => void;
}

/** Up to four answers in two rows, each a shape and a word. */
export function FourChoice<T extends string>({ label, choices, value, onChoose }: FourChoiceProps<T>) {
  return (
    <div className={css['four']} role="group" aria-label={label}>
      {choices.map((choice) => (
        <button
          key={choice.value}
          type="button"
          aria-pressed={choice.value === value}
          onClick={() => onChoose(choice.value)}
        >
          <Shape mark={choice.mark} size={18} />
          <span>
            {choice.text}
            {choice.note !== undefined && <small>{choice.note}</small>}
          </span>
        </button>
      ))}
    </div>
  );
}
