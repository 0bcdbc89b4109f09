import type { ReactNode } from 'react';
import { Shape } from './state.tsx';
import css from './notice.module.css';

/** A step that can hurt. The yellow flag stands here and nowhere else. `title` names the danger in a word or two. */
export function Caution({ title, children }: { title: string; children: ReactNode }) {
  return (
    <aside className={css['caution']} aria-label={`Caution: ${title}`}>
      <i aria-hidden="true">
        <Shape mark="warn" size={18} />
      </i>
      <p>
        <b>{title}:</b> {children}
      </p>
    </aside>
  );
}
