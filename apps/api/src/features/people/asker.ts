import { createParamDecorator } from '@nestjs/common';
import type { ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Asking } from './people.service.ts';

/** Who acts, with the cookie by which the sign-in library knows them. */
export const Asker = createParamDecorator((_: unknown, context: ExecutionContext): Asking => {
  const { actor, headers, commandId } = context.switchToHttp().getRequest<FastifyRequest>();
  if (actor === undefined || commandId === undefined) {
    throw new Error('The route asks for member and key, which its access rule does not give.');
  }
  return { actor, cookie: headers.cookie ?? '', key: commandId };
});
