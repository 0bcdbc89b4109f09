/** Which database errors there are, and which of them another try may mend. */
import * as z from 'zod';

const Thrown = z.object({
  code: z.string().optional(),
  message: z.string().optional(),
  meta: z
    .object({
      driverAdapterError: z
        .object({
          cause: z
            .object({
              originalCode: z.string().optional(),
              constraint: z.object({ index: z.string().optional() }).optional(),
            })
            .optional(),
        })
        .optional(),
    })
    .optional(),
  cause: z.object({ originalCode: z.string().optional() }).optional(),
  constraint: z.string().optional(),
});
const read = (error: unknown) => {
  const parsed = Thrown.safeParse(error);
  return parsed.success ? parsed.data : {};
};

/** SQLSTATE of an error thrown by Prisma over its adapter or by the driver itself; undefined for anything else. */
export function sqlState(error: unknown): string | undefined {
  const thrown = read(error);
  const code = thrown.code ?? '';
  return (
    thrown.meta?.driverAdapterError?.cause?.originalCode ??
    thrown.cause?.originalCode ??
    (/^[0-9A-Z]{5}$/.test(code) && !/^P\d{4}$/.test(code) ? code : undefined)
  );
}

/** True when a unique key was taken: with an adapter Prisma says P2002, or the driver 23505. */
export const isUniqueViolation = (error: unknown): boolean =>
  read(error).code === 'P2002' || sqlState(error) === '23505';

/** Certainly nothing was committed. */
const ROLLED_BACK = new Set(['40001', '40P01', '55P03', '57P03', '53300', '53400']);
/** A COMMIT under way may have happened. */
const LOST = new Set(['57P01', '57P02', '08000', '08003', '08006', '08001', '08004']);
const PRISMA_ROLLED_BACK = new Set(['P2034', 'P1001', 'P2024', 'ECONNREFUSED']);
const PRISMA_LOST = new Set(['P1017', 'ECONNRESET', 'EPIPE']);

export type Retry = 'no' | 'safe' | 'if-idempotent';

/** Whether a transaction that failed so may be run again: always, only when running it twice does no harm, or not. */
export function retryable(error: unknown): Retry {
  const { code = '', message = '' } = read(error);
  const state = sqlState(error) ?? '';
  if (ROLLED_BACK.has(state) || PRISMA_ROLLED_BACK.has(code)) return 'safe';
  if (code === 'P2028' && message.includes('Unable to start a transaction')) return 'safe';
  if (LOST.has(state) || PRISMA_LOST.has(code) || /not queryable|Connection terminated/.test(message)) {
    return 'if-idempotent';
  }
  return 'no';
}

/**
 * What may be written to a log of anything thrown: its kind, its code and the places it passed. Never its message, which
 * may quote what somebody typed.
 */
export function traits(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { kind: typeof error };
  const code = 'code' in error && typeof error.code === 'string' ? error.code : undefined;
  const places = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return { kind: error.name, code, sqlState: sqlState(error), at: places.slice(0, 12).map((line) => line.trim()) };
}
