import type { ComponentType } from 'react';
import type { NextLookProps } from './next-look.tsx';

/** The planner comes after the first load. Without a signal, before it ever came, there is no suggestion; the form stands. */
export const loadNextLook = (): Promise<ComponentType<NextLookProps>> =>
  import('./next-look.tsx').then(
    ({ NextLook }) => NextLook,
    () => () => null,
  );
