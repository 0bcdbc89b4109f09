/** Who let whom in, out, or made what of them: kept for ever, as every change is. */
import type { Actor, Clock } from '@ullage/casework';
import type { Database } from '@ullage/database';

export interface Change {
  readonly action:
    | 'invite'
    | 'withdraw-invitation'
    | 'change-role'
    | 'remove-sign-in'
    | 'make-reset-link'
    | 'end-sessions'
    | 'take-second-factor'
    | 'make-key'
    | 'revoke-key';
  readonly key: string;
  /** `person` unless said. */
  readonly recordKind?: 'api-key';
  /** The person, where there is one already. */
  readonly recordId?: string | undefined;
  readonly detail: Readonly<Record<string, string>>;
}

/** Written after the library made the change, in a transaction of its own: the library's tables are another login's. */
export async function writeDown(
  { database, clock }: { readonly database: Database; readonly clock: Clock },
  { tenantId, userId, address }: Actor,
  { action, key, recordId, detail, ...more }: Change,
): Promise<void> {
  await database.inTenant(tenantId, async (tx) => {
    await tx.audit.create({
      data: {
        tenantId,
        id: clock.newId(),
        at: clock.date(),
        userId,
        commandId: key,
        action,
        recordKind: more.recordKind ?? 'person',
        recordId: recordId ?? null,
        detail,
        address: address ?? null,
      },
    });
  });
}
