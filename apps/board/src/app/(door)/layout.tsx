import type { ReactNode } from 'react';
import { FirmMark } from '../../ui/firm-mark.tsx';
import css from './door.module.css';
import { DoorPicture } from './door-picture.tsx';

/** Everything before a person is known. */
export default function DoorLayout({ children }: { children: ReactNode }) {
  return (
    <div className={css['door']}>
      <div className={css['form']}>
        <p className={css['firm']}>
          <FirmMark /> Ullage
        </p>
        <main className={css['middle']}>{children}</main>
      </div>
      <aside className={css['picture']}>
        <DoorPicture />
      </aside>
    </div>
  );
}
