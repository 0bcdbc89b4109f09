'use client';
import type { ReactNode } from 'react';
import css from './returns.module.css';

/** The whole row leads to its reasons; as an address it can be opened in another tab and kept. */
export function RowLink({ visitId, select, children }: RowLinkProps) {
  return (
    <a
      id={`row-${visitId}`}
      className={css['rowLink']}
      href={`/returns?visit=${visitId}`}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey) return;
        event.preventDefault();
        select(visitId);
      }}
    >
      {children}
    </a>
  );
}
interface RowLinkProps {
  readonly visitId: string;
  readonly select: (visitId: string) => void;
  readonly children: ReactNode;
}
