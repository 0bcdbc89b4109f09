import type { Form } from '../use-form.ts';

export interface Bound<T> {
  readonly id: string;
  readonly error: string | undefined;
  readonly value: T;
  readonly onChange: (value: T) => void;
}

/** What a control needs of one field of a form. @param path where the field stands in the body, when not by its own name */
export function bind<V extends object, N extends keyof V & string>(
  form: Form<V>,
  name: N,
  path: string = name,
): Bound<V[N]> {
  return {
    id: form.id(path),
    error: form.error(path),
    value: form.values[name],
    onChange: (value) => {
      const change: Partial<V> = {};
      change[name] = value;
      form.set(change);
    },
  };
}
