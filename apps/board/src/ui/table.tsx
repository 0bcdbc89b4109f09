import type { Key, ReactNode } from 'react';
import css from './table.module.css';

export interface Column<R> {
  readonly id: string;
  readonly head: ReactNode;
  readonly cell: (row: R) => ReactNode;
  /** Figures stand right. */
  readonly right?: boolean;
  /** Left out on a phone, where the row becomes a block of lines. */
  readonly wideOnly?: boolean;
}
export interface TableProps<R> {
  /** Names the table; read first by a screen reader. */
  readonly caption: string;
  readonly showCaption?: boolean;
  /** The first one heads its row. */
  readonly columns: readonly Column<R>[];
  readonly rows: readonly R[];
  readonly keyOf: (row: R) => Key;
  /** What stands there when there are no rows. */
  readonly empty: ReactNode;
  readonly selected?: (row: R) => boolean;
}

export function Table<R>({ caption, showCaption = false, columns, rows, keyOf, empty, selected }: TableProps<R>) {
  if (rows.length === 0) return <div className={css['empty']}>{empty}</div>;
  return (
    <table className={css['table']}>
      <caption className={showCaption ? undefined : 'spoken'}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column.id} scope="col" data-right={column.right} data-wide={column.wideOnly}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={keyOf(row)} data-selected={selected?.(row) || undefined}>
            {columns.map((column, i) =>
              i === 0 ? (
                <th key={column.id} scope="row" data-right={column.right}>
                  {column.cell(row)}
                </th>
              ) : (
                <td key={column.id} data-right={column.right} data-wide={column.wideOnly}>
                  <span className={css['head']} aria-hidden="true">
                    {column.head}
                  </span>
                  <div>{column.cell(row)}</div>
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
