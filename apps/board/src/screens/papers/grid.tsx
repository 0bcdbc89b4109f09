import type { ReactNode } from 'react';
import css from './record.module.css';

export interface GridProps {
  readonly item: string;
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReactNode[])[];
  /** Said where there is nothing: a record is whole, so nothing is left blank. */
  readonly none: string;
}
/** One table of a paper, under its number in the rule where it has one; on a phone each row is a block of lines. */
export function Grid({ item, title, head, rows, none }: GridProps) {
  return (
    <section className={css['part']}>
      <h2>
        <span>{item}</span> {title}
      </h2>
      {rows.length === 0 ? (
        <p>{none}</p>
      ) : (
        <div className={css['wide']}>
          <table>
            <thead>
              <tr>
                {head.map((name) => (
                  <th key={name} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((cells, row) => (
                <tr key={row}>
                  {cells.map((cell, i) => (
                    <td key={i}>
                      <span className={css['head']} aria-hidden="true">
                        {head[i]}
                      </span>
                      <div>{cell}</div>
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
