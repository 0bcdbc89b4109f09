/** Who may call a route, said at the route. A route that says nothing is closed. */
import { SetMetadata } from '@nestjs/common';
import type { Permission } from '@ullage/contracts';

export const ACCESS = 'ullage:access';
export type Access = { readonly to: 'everybody' | 'signed-in' } | { readonly to: 'member'; readonly may: Permission };

/** A member of the contractor whose role has this permission. */
export const Can = (permission: Permission): MethodDecorator =>
  SetMetadata(ACCESS, { to: 'member', may: permission } satisfies Access);
/** Anybody with a session, of whatever contractor or of none. */
export const SignedInOnly = (): MethodDecorator => SetMetadata(ACCESS, { to: 'signed-in' } satisfies Access);
/** Anybody at all. */
export const Public = (): MethodDecorator => SetMetadata(ACCESS, { to: 'everybody' } satisfies Access);

export const BY_PEOPLE = 'ullage:by-people';
/** A route that no program may call by a key, with the reason. */
export const ByPeopleOnly = (why: string): MethodDecorator => SetMetadata(BY_PEOPLE, why);

export const KEYLESS = 'ullage:keyless';
/** An unsafe route that takes no Idempotency-Key, with the reason why repeating it does no harm. */
export const Keyless = (why: string): MethodDecorator => SetMetadata(KEYLESS, why);
