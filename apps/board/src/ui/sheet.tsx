import type { ReactNode } from 'react';
import { cx } from './cx.ts';
import css from './sheet.module.css';

export interface SheetProps {
  /** Left and right of the running head. */
  readonly from: ReactNode;
  readonly name: ReactNode;
  readonly title: ReactNode;
  /** The claim, first, in one or two sentences. */
  readonly lead?: ReactNode;
  readonly children: ReactNode;
  /** Lines to sign on. */
  readonly signatures?: readonly { readonly who: ReactNode; readonly what: ReactNode }[];
  readonly foot: ReactNode;
  /** When it was made, and which page of how many. */
  readonly made: ReactNode;
  readonly size?: 'letter' | 'a4';
}

/** A page, not a form: what is claimed stands in the main column, where each line comes from in the margin. */
export function Sheet(props: SheetProps) {
  const { from, name, title, lead, children, signatures = [], foot, made, size = 'letter' } = props;
  return (
    <article className={cx(css['sheet'], size === 'a4' ? css['a4'] : css['letter'])}>
      <p className={css['runner']}>
        <b>{from}</b>
        <span>{name}</span>
      </p>
      <h1>{title}</h1>
      {lead !== undefined && <p className={css['lead']}>{lead}</p>}
      {children}
      {signatures.length > 0 && (
        <div className={css['signatures']}>
          {signatures.map(({ who, what }, i) => (
            <div key={i}>
              <b>{who}</b>
              <br />
              {what}
            </div>
          ))}
        </div>
      )}
      <footer>
        <p>{foot}</p>
        <p>{made}</p>
      </footer>
    </article>
  );
}

/** A part of a sheet; `margin` says where its lines come from. */
export function SheetSection({ title, margin, children }: { title: string; margin?: ReactNode; children: ReactNode }) {
  return (
    <section className={css['section']}>
      <h2>{title}</h2>
      <div>{children}</div>
      <div className={css['margin']}>{margin}</div>
    </section>
  );
}

export interface SheetLine {
  /** "1" to "9", or a letter. */
  readonly mark: string;
  readonly text: ReactNode;
  readonly value?: ReactNode;
  /** Ruled off and heavy: the result. */
  readonly total?: boolean;
}

/** Numbered lines that a person can follow with a pencil. */
export function SheetLines({ caption, lines }: { caption: string; lines: readonly SheetLine[] }) {
  return (
    <table className={css['lines']}>
      <caption className="spoken">{caption}</caption>
      <tbody>
        {lines.map(({ mark, text, value, total }) => (
          <tr key={mark} data-total={total}>
            <td>{mark}</td>
            <th scope="row">{text}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
