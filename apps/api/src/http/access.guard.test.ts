import type { ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { expect, test } from 'vitest';
import { AccessGuard } from './access.guard.ts';
import type { GuardParts } from './access.guard.ts';

/** No part may be reached before the rule was read. */
const NOTHING = new Proxy({}, { get: (_, name) => expect.unreachable(`asked for ${String(name)}`) }) as GuardParts;
const contextOf = (handler: () => void): ExecutionContext =>
  ({ getHandler: () => handler, switchToHttp: () => expect.unreachable('looked at the request') }) as never;

test('a route that does not say who may call it is closed', async () => {
  const guard = new AccessGuard(new Reflector(), NOTHING);
  await expect(guard.canActivate(contextOf(() => undefined))).rejects.toMatchObject({ code: 'not-allowed' });
});
