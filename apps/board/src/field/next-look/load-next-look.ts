import type NextLook from './next-look.tsx';

type Loaded = { readonly default: typeof NextLook | (() => null) };

/** The planner comes after the first load. Without a signal, before it ever came, there is no suggestion; the form stands. */
export const loadNextLook = (): Promise<Loaded> =>
  import('./next-look.tsx').catch((): Loaded => ({ default: () => null }));
