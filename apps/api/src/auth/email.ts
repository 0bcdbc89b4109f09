import * as z from 'zod';

const WORDS = 'E-mail: give an address, as kim@firm.example.';
/** An address as somebody types it into a form. */
export const Email = z
  .string({ error: WORDS })
  .trim()
  .max(254, { error: 'E-mail: give at most 254 characters.' })
  .pipe(z.email({ error: WORDS }));
