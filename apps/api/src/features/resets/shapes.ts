import * as z from 'zod';
import { Email } from '../../auth/email.ts';

export const ResetWay = z
  .object({ byMail: z.boolean().meta({ description: 'Else an owner or manager makes the link.' }) })
  .meta({ id: 'ResetWay' });
export type ResetWay = z.output<typeof ResetWay>;
export const AskReset = z.strictObject({ email: Email }).meta({ id: 'AskReset' });
export type AskReset = z.output<typeof AskReset>;
/** The same whether the address has an account or not. */
export const ResetAsked = z.object({ asked: z.literal(true) }).meta({ id: 'ResetAsked' });
export type ResetAsked = z.output<typeof ResetAsked>;
