import type { Dispatch, SetStateAction } from 'react';

type Texts<F> = { [K in keyof F]: F[K] extends string ? K : never }[keyof F] & string;

/** What every field of text needs of a form: its id, what stands in it, what is against it, and how it changes. */
export const textsOf =
  <F extends object>(form: F, setForm: Dispatch<SetStateAction<F>>) =>
  (key: Texts<F>, errors: Readonly<Record<string, string>>) => ({
    id: `known-${key}`,
    value: form[key] as string,
    error: errors[`known-${key}`],
    autoComplete: 'off',
    onChange: ({ target }: { target: { value: string } }): void => setForm((old) => ({ ...old, [key]: target.value })),
  });
