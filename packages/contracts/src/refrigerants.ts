import { REFRIGERANTS } from '@ullage/rulebook';
import * as z from 'zod';

/** A refrigerant that the rulebooks know, by its standard number. */
export const Refrigerant = z
  .string({ error: 'Refrigerant: choose one, as R-448A.' })
  .refine((name) => Object.hasOwn(REFRIGERANTS, name), {
    error: 'Refrigerant: not known here; choose one from the list, as R-448A.',
  });
