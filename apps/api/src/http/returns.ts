import { applyDecorators, Header, SetMetadata } from '@nestjs/common';
import type * as z from 'zod';

export const RETURNS = 'ullage:returns';
/** The shape a route answers with: what the OpenAPI document says, and what the tests hold the answers to. */
export const Returns = (schema: z.ZodType): MethodDecorator =>
  applyDecorators(SetMetadata(RETURNS, schema), Header('cache-control', 'private, no-cache'));

export const TAKES = 'ullage:takes';
/** The shape of a body that is read further in, and not at the parameter. */
export const Takes = (schema: z.ZodType): MethodDecorator => SetMetadata(TAKES, schema);

export const RETURNS_BYTES = 'ullage:returns-bytes';
/** A route that answers with a file of this media type. */
export const ReturnsBytes = (mediaType: string): MethodDecorator => SetMetadata(RETURNS_BYTES, mediaType);

export const TAKES_BYTES = 'ullage:takes-bytes';
/** A route whose body is bytes and not JSON, in words. */
export const TakesBytes = (words: string): MethodDecorator => SetMetadata(TAKES_BYTES, words);
